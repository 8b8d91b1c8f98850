package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
)

// What a screen is still to come for is marked where it stands, and only that.
var (
	notWritten = regexp.MustCompile(`(?m)Name: "([a-z.]+)",.*// not written yet: \w+`)
	notRead    = regexp.MustCompile(`(?m)^## (\w+)\n\nNo screen reads it yet: \w+`)
	viewTitle  = regexp.MustCompile(`(?m)^## ([a-z]+)$`)
)

// TestKindsWithoutAWriter: a kind that nothing on the phone enters, neither its modules nor
// a button of the Book, says so in its declaration, and no other does.
func TestKindsWithoutAWriter(t *testing.T) {
	t.Chdir("../..")
	code := phoneCode(t)
	err := walkFiles("calc/journal/book", func(path string) error {
		if strings.HasSuffix(path, "_test.go") {
			return nil
		}
		text, err := os.ReadFile(path)
		code += string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	marked := markedIn(t, "calc/journal/event/kinds.go", notWritten)
	for _, kind := range event.Kinds() {
		written := strings.Contains(code, `"`+kind+`"`)
		if written == marked[kind] {
			t.Errorf("%s: the phone names it is %v, it is marked as not written yet is %v", kind, written, marked[kind])
		}
	}
}

// TestViewsWithoutAReader: a view that no screen shows says so in the specification, and
// no other does.
func TestViewsWithoutAReader(t *testing.T) {
	t.Chdir("../..")
	code := phoneCode(t)
	marked := markedIn(t, "calc/journal/views.md", notRead)
	text, err := os.ReadFile("calc/journal/views.md")
	if err != nil {
		t.Fatal(err)
	}
	views := viewTitle.FindAllStringSubmatch(string(text), -1)
	if len(views) < 6 {
		t.Fatalf("views.md has %d views: this test looks in the wrong place", len(views))
	}
	for _, v := range views {
		read := strings.Contains(code, `"`+v[1]+`"`) || strings.Contains(code, "views."+v[1])
		if read == marked[v[1]] {
			t.Errorf("view %s: the phone names it is %v, it is marked as not read yet is %v", v[1], read, marked[v[1]])
		}
	}
}

// markedIn returns the first groups of what a pattern finds in a file.
func markedIn(t *testing.T, path string, pattern *regexp.Regexp) map[string]bool {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	marked := map[string]bool{}
	for _, m := range pattern.FindAllStringSubmatch(string(text), -1) {
		marked[m[1]] = true
	}
	return marked
}

// phoneCode returns all modules of the phone but those that only put entries in words.
func phoneCode(t *testing.T) string {
	t.Helper()
	var all strings.Builder
	err := walkFiles("pwa", func(path string) error {
		path = filepath.ToSlash(path)
		if !strings.HasSuffix(path, ".js") || strings.HasPrefix(path, "pwa/gen/") || strings.HasPrefix(path, "pwa/words/") || strings.HasSuffix(path, "/entry-words.js") {
			return nil
		}
		text, err := os.ReadFile(path)
		all.Write(text)
		return err
	})
	if err != nil || all.Len() < 100_000 {
		t.Fatalf("%d bytes of modules: %v", all.Len(), err)
	}
	return all.String()
}
