package main

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/pwa"
)

// lay writes modules into a folder.
func lay(t *testing.T, modules map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range modules {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// small is an app whose Fix and Book share what the start does not need.
func small() map[string]string {
	return map[string]string{
		"app.js": `// @ts-check
import { tell } from "./parts/tell.js";
export const began = tell("Ready");
export const go = (/** @type {string} */ to) => (to === "fix" ? import("./pages/fix.js").then((m) => m.Fix) : import("./pages/book.js").then((m) => m.Book));
`,
		"parts/tell.js":   "let times = 0;\nexport const whisper = () => \"hush\";\nexport const tell = (longName) => `${longName} ${++times}`;\n",
		"parts/shared.js": "import { tell } from \"./tell.js\";\nexport class Row { text = tell(\"row\"); }\n",
		"pages/fix.js":    "import { Row } from \"../parts/shared.js\";\nimport { tell } from \"../parts/tell.js\";\nexport class Fix { row = new Row(); text = tell(\"Fix\"); }\n",
		"pages/book.js":   "import { Row } from \"../parts/shared.js\";\nimport { sheet } from \"./sheet.js\";\nexport class Book { row = new Row(); sheet = sheet; static Row = Row; }\n",
		"pages/sheet.js":  "export const sheet = \"a sheet\";\n",
	}
}

var smallFiles = []joined{{name: "app.js", entry: "app.js"}, {name: "fix.js", late: []string{"pages/fix.js"}}, {name: "book.js", late: []string{"pages/book.js"}}}

// TestJoinModules: each file is one request, which asks for none but the first;
// what they share is there once, so that its state is one.
func TestJoinModules(t *testing.T) {
	made, err := joinModules(lay(t, small()), smallFiles)
	if err != nil {
		t.Fatal(err)
	}
	if len(made.Files) != 3 || len(made.Modules) != 6 || made.In["pages/book.js"] != "book.js" {
		t.Errorf("made %d files of %q, Book in %q", len(made.Files), made.Modules, made.In["pages/book.js"])
	}
	for _, c := range []struct {
		file       string
		has, lacks []string
	}{
		{file: "app.js", has: []string{"++", `"row"`, `import("./fix.js")`, `import("./book.js")`, "as began", "sourceMappingURL=app.js.map"}, lacks: []string{"@ts-check", "longName", "a sheet", `"Fix"`, "hush"}}, // what nobody imports stays away
		{file: "fix.js", has: []string{`from"./app.js"`, "as Fix"}, lacks: []string{"++", `"row"`, "./book.js", "@ts"}},
		{file: "book.js", has: []string{`from"./app.js"`, "as Book", "a sheet"}, lacks: []string{"++", `"row"`, "./fix.js"}},
	} {
		text := made.Files[c.file].Text
		for _, want := range c.has {
			if !strings.Contains(text, want) {
				t.Errorf("%s lacks %s: %s", c.file, want, text)
			}
		}
		for _, gone := range c.lacks {
			if strings.Contains(text, gone) {
				t.Errorf("%s has %s: %s", c.file, gone, text)
			}
		}
	}
	var sources struct{ Sources []string }
	if err := json.Unmarshal([]byte(made.Files["book.js"].Map), &sources); err != nil {
		t.Fatal(err)
	}
	for _, source := range sources.Sources {
		module, ok := strings.CutPrefix(source, "./"+pwa.SourceFolder)
		if _, known := small()[module]; !ok || !known {
			t.Errorf("the source map of book.js names %s", source)
		}
	}
}

// TestJoinModulesTrouble: what would go wrong on the phone is told with its place.
func TestJoinModulesTrouble(t *testing.T) {
	for _, c := range []struct{ name, module, text, want string }{
		{name: "broken", module: "pages/sheet.js", text: "export const a = 1;\nexport const = 2;\n", want: "pwa/pages/sheet.js:2"},
		{name: "gone", module: "pages/sheet.js", text: "import \"./lost.js\";\nexport const sheet = 1;\n", want: "pwa/pages/sheet.js:1"},
		{name: "waits at its top", module: "pages/sheet.js", text: "export const sheet = await fetch(\"/\");\n", want: "pwa/pages/sheet.js:1"},
		{name: "asks for its address", module: "pages/sheet.js", text: "export const sheet = import.meta.url;\n", want: "pwa/pages/sheet.js:1"},
		{name: "loaded, and in no table", module: "pages/sheet.js", text: "export const sheet = () => import(\"../parts/tell.js\");\n", want: "pwa/pages/sheet.js loads pwa/parts/tell.js"},
		{name: "shared, and given another value later", module: "parts/shared.js", text: "export let Row = class {};\n", want: "pwa/parts/shared.js exports Row, which changes"},
		{name: "late, and needed by the first", module: "app.js", text: small()["app.js"] + "import \"./pages/book.js\";\n", want: "pwa/pages/book.js is to go into book.js"},
		{name: "loaded, with a name of the start", module: "app.js", text: small()["app.js"] + "import \"./pages/fix.js\";\nimport \"./pages/book.js\";\nexport class Fix {}\n", want: "Fix"},
	} {
		t.Run(c.name, func(t *testing.T) {
			modules := small()
			modules[c.module] = c.text
			files := smallFiles
			if strings.Contains(c.name, "name of the start") {
				files = []joined{{name: "app.js", entry: "app.js", late: []string{"pages/fix.js", "pages/book.js"}}}
			}
			if _, err := joinModules(lay(t, modules), files); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("joinModules = %v, want an error that names %s", err, c.want)
			}
		})
	}
}

// TestJournalSize: all of the journal counts, whether anything uses it or not, and
// nothing that lies elsewhere.
func TestJournalSize(t *testing.T) {
	words := func(name string, n int) string {
		var text strings.Builder
		for i := range n {
			fmt.Fprintf(&text, "%x", sha256.Sum256(fmt.Append(nil, name, i)))
		}
		return fmt.Sprintf("export const %s = %q;\n", name, text.String())
	}
	modules := map[string]string{
		"journal/a.js":      "import { b } from \"./b.js\";\nimport { far } from \"../far.js\";\nexport const a = b + far;\n",
		"journal/b.js":      words("b", 100),
		"journal/unused.js": words("unused", 100),
		"journal/crew/c.js": words("c", 1000),
		"far.js":            words("far", 1000),
	}
	for _, name := range journalModules {
		if !strings.Contains(name, "*") {
			modules[name] = "export {};\n"
		}
	}
	got, err := journalSize(lay(t, modules))
	if err != nil || got < 2*3200 || got > 3*3200 { // each figure of the hash takes a little over half a byte
		t.Errorf("journalSize = %d, %v; want that of two modules of 3200 bytes", got, err)
	}
}
