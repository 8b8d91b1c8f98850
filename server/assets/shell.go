package assets

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// lateLinks is the place in index.html for what a screen needs beside the rest.
// The service worker knows it too.
const lateLinks = "<!-- late -->"

// addShells makes the page for each screen. They differ in the file that is asked
// for along with those that every screen needs.
func (b *build) addShells(raw map[string][]byte, wasm string, code code) {
	common := b.makeShell(raw, wasm, code)
	b.shells = map[string]*file{}
	made := map[string]*file{}
	for _, screen := range append(slices.Clone(b.screens), Screen{}) {
		late := links(b.hash, code.beside(screen.Module))
		if made[late] == nil {
			text := common
			if late != "" {
				text = bytes.Replace(common, []byte(lateLinks), []byte(late), 1)
			}
			made[late] = newFile(shellFile, text, "no-cache")
		}
		b.shells[screen.Module] = made[late]
	}
}

// makeShell puts the templates, the style sheet and the module links into
// index.html, at the comments that name them.
func (b *build) makeShell(raw map[string][]byte, wasm string, code code) []byte {
	var templates bytes.Buffer
	for _, name := range slices.Sorted(maps.Keys(raw)) {
		if isFragment(name) {
			templates.Write(raw[name])
		}
	}
	shell := raw[shellFile]
	for _, r := range []struct{ from, to string }{
		{"<!-- templates -->", templates.String()},
		{"<!-- modules -->", links(b.hash, code.start)},
		{"/a/HASH/", "/a/" + b.hash + "/"},
		{"/w/HASH/calc.wasm", wasm},
	} {
		shell = bytes.ReplaceAll(shell, []byte(r.from), []byte(r.to))
	}
	return shell
}

// links has the browser ask for modules at once.
func links(hash string, modules []string) string {
	var text strings.Builder
	for _, name := range modules {
		fmt.Fprintf(&text, "<link rel=\"modulepreload\" href=\"/a/%s/%s\">\n", hash, name)
	}
	return text.String()
}

// isFragment reports whether a file holds templates that go into the shell.
func isFragment(name string) bool { return strings.HasSuffix(name, ".html") && name != shellFile }
