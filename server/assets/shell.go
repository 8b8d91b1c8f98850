package assets

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"html"
	"maps"
	"slices"
	"strings"

	"kerfside/pwa"
)

// lateLinks is the place in index.html for what a screen needs beside the rest.
// The service worker knows it too.
const lateLinks = "<!-- late -->"

// addShells makes the page for each screen. They differ in the file that is asked
// for along with those that every screen needs.
func (b *build) addShells(raw map[string][]byte, wasm string, code code) {
	common := b.makeShell(raw, wasm, code)
	b.script = scriptHash(common)
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

// makeShell puts the templates, the style sheet, the module links and the oldest
// browsers into index.html, at the comments and names that stand for them.
func (b *build) makeShell(raw map[string][]byte, wasm string, code code) []byte {
	var templates bytes.Buffer
	for _, name := range slices.Sorted(maps.Keys(raw)) {
		if isFragment(name) {
			templates.Write(raw[name])
		}
	}
	shell, oldest := raw[shellFile], pwa.Oldest()
	for _, r := range []struct{ from, to string }{
		{"<!-- templates -->", templates.String()},
		{"<!-- modules -->", links(b.hash, code.start)},
		{"<!-- notice -->\n", notice(b.notice)},
		{"/a/HASH/", "/a/" + b.hash + "/"},
		{"/w/HASH/calc.wasm", wasm},
		{"SAFARI-VERSION", oldest.Safari},
		{"CHROME-VERSION", oldest.Chrome},
		{"FIREFOX-VERSION", oldest.Firefox},
	} {
		shell = bytes.ReplaceAll(shell, []byte(r.from), []byte(r.to))
	}
	return shell
}

// notice is a strip of words under the title.
func notice(words string) string {
	if words == "" {
		return ""
	}
	return `  <aside class="frame__coming">` + html.EscapeString(words) + "</aside>\n"
}

// scriptHash returns the source that allows the script in a page (CSP Level 3, section
// 8.2): browsers hash all between its tags.
func scriptHash(page []byte) string {
	_, script, _ := bytes.Cut(page, []byte("<script>"))
	script, _, _ = bytes.Cut(script, []byte("</script>"))
	sum := sha256.Sum256(script)
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
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
