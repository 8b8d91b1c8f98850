package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// linkedCode is a module, or Go itself, that is linked into what is shipped.
type linkedCode struct {
	name, version string   // version is "" for Go: each build tells its own
	root          string   // its folder
	dirs          []string // of its packages that are linked
	in            []string // what it is linked into
}

// shipped is what is linked, by how the Go command is asked for it.
var shipped = []struct {
	pkg, in string
	env     []string
}{
	{pkg: "./cmd/kerfside", in: "the program", env: []string{"GOOS=linux", "CGO_ENABLED=1"}},
	{pkg: "./cmd/kerfside", in: "the program", env: []string{"GOOS=windows", "CGO_ENABLED=1"}},
	{pkg: "./cmd/kerfside", in: "the program", env: []string{"GOOS=darwin", "CGO_ENABLED=1"}},
	{pkg: "./cmd/wasm", in: "what it sends to phones", env: []string{"GOOS=js", "GOARCH=wasm"}},
}

// notLinked begins the packages of Go that have a licence for code which only a
// GOEXPERIMENT links.
const notLinked = "crypto/internal/boring"

// linked asks the Go command for all that is shipped, Go first, then by name.
func linked() ([]*linkedCode, error) {
	root, err := cmd("go", "env", "GOROOT").output()
	if err != nil {
		return nil, err
	}
	goItself := &linkedCode{name: "Go, its runtime and standard library", root: strings.TrimSpace(root)}
	found := map[string]*linkedCode{}
	for _, s := range shipped {
		out, err := cmd("go", "list", "-deps", "-f", `{{.ImportPath}}|{{.Dir}}|{{.Standard}}|{{with .Module}}{{.Path}}|{{.Version}}|{{.Dir}}{{end}}`, s.pkg).with(s.env...).output()
		if err != nil {
			return nil, err
		}
		for line := range strings.Lines(out) {
			f := strings.Split(strings.TrimSpace(line), "|")
			l := goItself
			switch {
			case strings.HasPrefix(f[0], notLinked) || f[3] == module:
				continue
			case f[2] == "false":
				if found[f[3]] == nil {
					found[f[3]] = &linkedCode{name: f[3], version: f[4], root: f[5]}
				}
				l = found[f[3]]
			}
			l.dirs = append(l.dirs, f[1])
			if !slices.Contains(l.in, s.in) {
				l.in = append(l.in, s.in)
			}
		}
	}
	var names []string
	for name := range found {
		names = append(names, name)
	}
	slices.Sort(names)
	all := []*linkedCode{goItself}
	for _, name := range names {
		all = append(all, found[name])
	}
	return all, nil
}

func (l *linkedCode) title() string { return strings.TrimSpace(l.name + " " + l.version) }

// sqliteHeader is where the module with SQLite in it has SQLite's own words, and
// disclaimer how they begin and end.
const sqliteHeader = "sqlite3-binding.h"

var disclaimer = regexp.MustCompile(`(?s)\*\* The author disclaims copyright.*?\n\*{3}`)

// withSQLite adds what SQLite says of itself, which no file beside it does.
func (l *linkedCode) withSQLite(texts []licence) ([]licence, error) {
	header, err := os.ReadFile(filepath.Join(l.root, sqliteHeader))
	if os.IsNotExist(err) {
		return texts, nil
	}
	if err != nil {
		return nil, err
	}
	said := disclaimer.Find(header)
	if said == nil {
		return nil, fail(sqliteHeader+" has no disclaimer of copyright any more", "Read what SQLite says of its licence now.")
	}
	var words []string
	for line := range strings.Lines(string(said)) {
		words = append(words, strings.TrimRight(strings.TrimLeft(line, "*"), "\n"))
	}
	text := strings.TrimRight(strings.Join(words, "\n"), "\n")
	return append(texts, licence{name: "SQLite, which is in the public domain", text: text}), nil
}
