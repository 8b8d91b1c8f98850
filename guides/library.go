package guides

import (
	"encoding/json"
	"io/fs"
	"strings"

	"kerfside/calc/problem"
	"kerfside/calc/registry"
)

// Library holds all guides, ready to serve. It never changes once loaded.
type Library struct {
	guides []*Guide // by file name
	byID   map[string]*Guide
	json   map[string][]byte
	index  []byte
	search []byte
}

// Entry is one guide in the index, enough to list it and to show progress.
type Entry struct {
	ID      string   `json:"id"`
	Title   string   `json:"title"`
	When    string   `json:"when"`
	Place   string   `json:"place"`
	Form    string   `json:"form"`
	Minutes int      `json:"minutes"`
	Steps   []string `json:"steps"` // ids in order
}

// Load reads every .md file at the top of files. It returns Faults if any
// guide has something to mend, with all of them; another error if a file
// cannot be read.
func Load(files fs.FS) (*Library, error) {
	names, err := fs.Glob(files, "*.md")
	if err != nil {
		return nil, err
	}
	lib := &Library{byID: map[string]*Guide{}, json: map[string][]byte{}}
	var all Faults
	for _, name := range names {
		src, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, err
		}
		g, err := Parse(name, src)
		if fs, ok := err.(Faults); ok {
			all = append(all, fs...)
		}
		lib.guides = append(lib.guides, g)
		lib.byID[g.ID] = g
	}
	all = append(all, lib.takeIn()...)
	all = append(all, lib.deadLinks()...)
	if err := all.orNil(); err != nil {
		return nil, err
	}
	return lib, lib.encode()
}

// deadLinks finds links to guides, steps and calculators that do not exist.
func (lib *Library) deadLinks() Faults {
	var faults Faults
	for _, g := range lib.guides {
		for _, l := range g.links {
			if l.sum != "" {
				if msg := sumRefusal(l); msg != "" {
					faults = append(faults, Fault{File: g.file, Line: l.line, Msg: msg})
				}
				continue
			}
			to := lib.byID[l.guide]
			switch {
			case to == nil:
				faults = append(faults, Fault{File: g.file, Line: l.line, Msg: "there is no guide " + l.guide + ".md: " +
					"link to one of " + strings.Join(sorted(lib.byID), ", ")})
			case l.step != "" && to.Step(l.step) == nil:
				faults = append(faults, Fault{File: g.file, Line: l.line, Msg: "guide " + l.guide + ".md has no step {#" + l.step + "}"})
			}
		}
	}
	return faults
}

// sumRefusal says why a link to a calculator is none, or calls it what no screen does;
// nothing if it is right.
func sumRefusal(l link) string {
	sum, err := registry.Get(l.sum)
	switch {
	case err != nil:
		return "there is no calculator " + l.sum + ": link to one of " + strings.Join(registry.Names(), ", ")
	case l.text != sum.Title && l.text != anySum:
		return "the calculator " + l.sum + " is called \"" + sum.Title + "\": write [" + sum.Title + "](sum:" + l.sum + ") or [" + anySum + "](sum:" + l.sum + ")"
	}
	return ""
}

// encode makes all JSON once, so that serving is a look-up.
func (lib *Library) encode() error {
	var err error
	keep := func(v any) []byte {
		b, e := json.Marshal(v)
		if e != nil && err == nil {
			err = e
		}
		return b
	}
	for _, g := range lib.guides {
		lib.json[g.ID] = keep(g)
	}
	lib.index = keep(lib.Index())
	lib.search = keep(newSearchIndex(lib.guides))
	return err
}

// Index lists all guides in the order of their ids.
func (lib *Library) Index() []Entry {
	entries := []Entry{}
	for _, g := range lib.guides {
		entries = append(entries, Entry{ID: g.ID, Title: g.Title, When: g.When, Place: g.Place, Form: g.Form, Minutes: g.Minutes, Steps: idsOf(g.Steps)})
	}
	return entries
}

// Guide returns one guide, or a NotFound problem.
func (lib *Library) Guide(id string) (*Guide, error) {
	if g := lib.byID[id]; g != nil {
		return g, nil
	}
	return nil, problem.New(problem.NotFound, "guide", "there is no guide \""+short(id)+"\"",
		"Open the list of guides and pick one.")
}

// JSON returns one guide as the phone gets it, or a NotFound problem. The
// bytes are shared: do not change them.
func (lib *Library) JSON(id string) ([]byte, error) {
	if _, err := lib.Guide(id); err != nil {
		return nil, err
	}
	return lib.json[id], nil
}

// IndexJSON returns the index as the phone gets it: an array of Entry.
func (lib *Library) IndexJSON() []byte { return lib.index }

// SearchJSON returns the word index as the phone gets it: a SearchIndex.
func (lib *Library) SearchJSON() []byte { return lib.search }
