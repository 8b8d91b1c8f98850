package main

import (
	"bytes"
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"

	"github.com/andybalholm/brotli"

	"kerfside/pwa"
)

// joined is a file that modules are joined to.
type joined struct {
	name  string   // of the file, as the app's addresses have it
	entry string   // the module that it takes the place of; "" if it is loaded when it is first needed
	late  []string // modules in it that others load by import()
}

// pageFiles are what the page runs. The first holds the two screens that a
// start is made for, and whatever another needs as well: so each of them is one
// request, and asks for nothing further. Files that lie apart pack worse, and what
// two of them share the start has to carry: all screens behind the first two are
// one file.
var pageFiles = []joined{
	{name: "app.js", entry: "app.js", late: []string{"pages/cut.js", "journal/crew/home.js", "journal/recovery/recover.js"}},
	{name: restFile, late: []string{"pages/cut-job.js", "journal/crew/join.js", "parts/photos.js", "draw/beside.js", "pages/layout-onward.js"}},
}

// restFile takes the pages that pageFiles does not name.
const restFile = "pages.js"

var latePage = regexp.MustCompile(`import\("\./(pages/[\w-]+\.js)"\)`)

// withRest returns files with the pages that app loads and none of them names.
func withRest(files []joined, app []byte) []joined {
	files = slices.Clone(files)
	for _, found := range latePage.FindAllSubmatch(app, -1) {
		page := string(found[1])
		if slices.ContainsFunc(files, func(f joined) bool { return slices.Contains(f.late, page) }) {
			continue
		}
		i := slices.IndexFunc(files, func(f joined) bool { return f.name == restFile })
		files[i].late = append(slices.Clone(files[i].late), page)
	}
	return files
}

// workerFiles are what the worker runs.
var workerFiles = []joined{{name: "worker/worker.js", entry: "worker/worker.js"}, {name: execFile, entry: execFile}}

// serviceFiles are what the service worker runs. The server fills in its constants.
var serviceFiles = []joined{{name: serviceFile, entry: serviceFile}}

const serviceFile = "sw.js"

// bundle joins the modules of the phone and writes pwa.BundleFile.
func bundle() error {
	app, err := os.ReadFile(filepath.Join("pwa", "app.js"))
	if err != nil {
		return err
	}
	page, err := os.ReadFile(filepath.Join("pwa", "index.html"))
	if err != nil {
		return err
	}
	if err := refuseNewSyntax(map[string][]byte{"index.html": page}); err != nil {
		return err
	}
	made, err := joinModules("pwa", withRest(pageFiles, app), workerFiles, serviceFiles)
	if err != nil {
		return err
	}
	to := filepath.Join("pwa", filepath.FromSlash(pwa.BundleFile))
	old, _ := os.ReadFile(to) // if it cannot be read it is written anew
	packFiles(made, old)
	data, err := json.Marshal(made) // in the order of names
	if err != nil || bytes.Equal(data, old) {
		return err // a new time would make the Go command build everything again
	}
	return os.WriteFile(to, data, 0o644)
}

// packFiles packs each file as well as brotli can, unless the old bundle has it
// packed: that takes ten times as long as all else.
func packFiles(made *pwa.Bundle, old []byte) {
	var before pwa.Bundle
	if json.Unmarshal(old, &before) != nil {
		before = pwa.Bundle{}
	}
	for name, file := range made.Files {
		if was := before.Files[name]; was.Text == file.Text && len(was.Brotli) > 0 {
			file.Brotli = was.Brotli
		} else {
			var packed bytes.Buffer
			w := brotli.NewWriterLevel(&packed, brotli.BestCompression)
			w.Write([]byte(file.Text)) // into memory: cannot fail
			w.Close()
			file.Brotli = packed.Bytes()
		}
		made.Files[name] = file
	}
}

// joinModules joins the modules of a folder. Sets of files run apart from each
// other, like the page and its worker, and share nothing.
func joinModules(dir string, sets ...[]joined) (*pwa.Bundle, error) {
	root, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	made := &pwa.Bundle{Files: map[string]pwa.Joined{}, In: map[string]string{}, Words: map[string]string{}}
	for _, files := range sets {
		j := joiner{root: root, files: files, in: map[string]string{}}
		if err := j.join(made); err != nil {
			return nil, err
		}
	}
	contents, err := modulesIn(root)
	if err != nil {
		return nil, err
	}
	if err := refuseNewSyntax(contents); err != nil {
		return nil, err
	}
	made.Modules = slices.Sorted(maps.Keys(contents))
	made.Of = pwa.HashOf(made.Modules, contents)
	return made, nil
}

// modulesIn returns all modules of a folder; also those that nothing imports, which
// hold types.
func modulesIn(root string) (map[string][]byte, error) {
	contents := map[string][]byte{}
	err := walkFiles(root, func(path string) error {
		name, err := filepath.Rel(root, path)
		name = filepath.ToSlash(name)
		if err != nil || filepath.Ext(name) != ".js" {
			return err
		}
		contents[name], err = os.ReadFile(path)
		return err
	})
	return contents, err
}
