package main

import (
	"go/parser"
	"go/token"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// namedFile finds the name of a file of ours in a text, with as much of its way
// as is told.
var namedFile = regexp.MustCompile(`[A-Za-z0-9_./*-]*[A-Za-z0-9_]\.(?:go|js|md|css|html|txt|sql)\b`)

// notOurs are files that texts name and that are not among those committed: the
// toolchain's, a program's that the tasks install, and what a build writes.
var notOurs = set("wasm_exec.js", "runtime/symtab.go", "runtime/runtime2.go", "runtime/symtabinl.go", "internal/abi/symtab.go", "internal/abi/iface.go", "internal/abi/type.go", "axe.min.js", "dist/functions.txt")

// placeholder finds a word in capitals that stands for what is there: NAME, HASH.
var placeholder = regexp.MustCompile(`(?:^|/)[A-Z]+(?:/|\.txt$)`)

// TestNamedFilesAreThere: a comment or a document that sends a reader to a file
// names one that is there.
func TestNamedFilesAreThere(t *testing.T) {
	files := committed(t)
	names := 0
	for _, file := range files {
		for _, text := range prose(t, file) {
			for _, name := range namedFile.FindAllString(text, -1) {
				name = strings.TrimLeft(path.Clean(name), "./")
				if strings.Contains(name, "*") || placeholder.MatchString(name) || notOurs[name] {
					continue
				}
				names++
				types := strings.TrimSuffix(name, ".js") + ".d.ts" // a module of types is imported as .js
				if !isThere(files, name) && !isThere(files, types) {
					t.Errorf("%s names %s, which is not there", file, name)
				}
			}
		}
	}
	if names < 300 {
		t.Errorf("only %d names of files were found: this test looks in the wrong place", names)
	}
}

// isThere reports whether one of the files has that name, or a way that ends so.
func isThere(files []string, name string) bool {
	for _, file := range files {
		if strings.HasSuffix("/"+file, "/"+name) {
			return true
		}
	}
	return false
}

// prose returns what a committed file says to its reader: the comments of code,
// a document but for what it shows as code.
func prose(t *testing.T, file string) []string {
	t.Helper()
	ext := path.Ext(file)
	if ext != ".go" && ext != ".js" && ext != ".css" && ext != ".md" || strings.Contains(file, "/testdata/") {
		return nil
	}
	text, err := os.ReadFile(filepath.FromSlash(file))
	if os.IsNotExist(err) {
		return nil // taken out and not committed yet
	}
	if err != nil {
		t.Fatal(err)
	}
	switch ext {
	case ".md":
		return fenced.Split(string(text), -1)
	case ".go":
		tree, err := parser.ParseFile(token.NewFileSet(), file, text, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		var all []string
		for _, group := range tree.Comments {
			all = append(all, group.Text())
		}
		return all
	}
	return jsComment.FindAllString(string(text), -1)
}

// fenced finds what a document shows as code, which may be of files to be made.
var fenced = regexp.MustCompile("(?ms)^```.*?^```$")

// jsComment finds a comment of a script or a style sheet. What looks like one in
// a string is read as well.
var jsComment = regexp.MustCompile(`(?s)/\*.*?\*/|(?m)(?:^|\s)//.*?$`)
