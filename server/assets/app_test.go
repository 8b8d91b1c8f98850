package assets

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"kerfside/guides"
	"kerfside/pwa"
)

// smallScreens are the screens of that app.
var smallScreens = []Screen{
	{Address: "/ready", Module: "app.js", IsStart: true},
	{Address: "/book", Module: "pages/book.js", IsStart: true},
}

// smallApp is an app of three modules, and its bundle if it has one.
func smallApp(t *testing.T, bundled bool) fstest.MapFS {
	t.Helper()
	modules := map[string][]byte{
		"app.js":        []byte("import { tell } from \"./words.js\"; // at once\n"),
		"words.js":      []byte("export const tell = 1; // one\n"),
		"pages/book.js": []byte("export const BookPage = 2; // two\n"),
	}
	files := fstest.MapFS{
		shellFile:    {Data: []byte("<!-- modules -->\n<!-- late -->\n<!-- templates -->\n<script src=\"/a/HASH/app.js\"></script>")},
		workerFile:   {Data: []byte(`["PRECACHE"]` + "\n" + `{ STARTS: "" }`)},
		manifestFile: {Data: []byte("{}")},
	}
	for name, text := range modules {
		files[name] = &fstest.MapFile{Data: text}
	}
	if !bundled {
		return files
	}
	names := []string{"app.js", "words.js", "pages/book.js"}
	data, err := json.Marshal(pwa.Bundle{
		Of: pwa.HashOf(names, modules), Modules: names, In: map[string]string{"pages/book.js": "book.js"},
		Files: map[string]pwa.Joined{"app.js": {Text: "joined", Map: "{}"}, "book.js": {Text: "late", Map: "{}"}},
		Words: map[string]string{"yes": "Yes</script>"},
	})
	if err != nil {
		t.Fatal(err)
	}
	files[pwa.BundleFile] = &fstest.MapFile{Data: data}
	return files
}

// TestBundle: joined files go out in the place of the modules that they were
// made of, and of no others; while developing none do. Phones keep no more than
// they run, and developers' tools find the modules all the same.
func TestBundle(t *testing.T) {
	joined := []string{"app.js", "book.js"}
	asTheyLie := []string{"app.js", "pages/book.js", "words.js"}
	for _, c := range []struct {
		name    string
		bundled bool
		dev     bool
		change  string
		kept    []string
		book    string // what the page of the Book asks for beside the others
		tools   bool
	}{
		{name: "joined", bundled: true, kept: joined, book: "book.js", tools: true},
		{name: "never joined", kept: asTheyLie, book: "pages/book.js"},
		{name: "one changed since", bundled: true, change: "words.js", kept: asTheyLie, book: "pages/book.js"},
		{name: "one gone since", bundled: true, change: "-words.js", kept: asTheyLie[:2], book: "pages/book.js"},
		{name: "while developing", bundled: true, dev: true, kept: asTheyLie, book: "pages/book.js"},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := smallApp(t, c.bundled)
			if name, gone := strings.CutPrefix(c.change, "-"); gone {
				delete(files, name)
			} else if c.change != "" {
				files[c.change] = &fstest.MapFile{Data: []byte("export const tell = 3;\n")}
			}
			a, err := New(Options{Files: files, Guides: guides.Files, Screens: smallScreens, Dev: c.dev})
			if err != nil {
				t.Fatal(err)
			}
			base := "/a/" + a.built.hash + "/"
			list, starts, _ := strings.Cut(string(a.built.worker.raw()), "\n")
			var all, kept []string
			if err := json.Unmarshal([]byte(list), &all); err != nil {
				t.Fatal(err)
			}
			for _, address := range all {
				if strings.HasSuffix(address, ".js") || strings.Contains(address, pwa.SourceFolder) || strings.HasSuffix(address, ".map") {
					kept = append(kept, strings.TrimPrefix(address, base))
				}
			}
			if !slices.Equal(kept, c.kept) {
				t.Errorf("phones keep %q, want %q", kept, c.kept)
			}
			var links map[string]string
			if err := json.Unmarshal([]byte(starts), &links); err != nil {
				t.Fatal(err)
			}
			want := "<link rel=\"modulepreload\" href=\"" + base + c.book + "\">\n"
			if links["/book"] != want || links["/ready"] != "" {
				t.Errorf("a start at the Book asks for %q, want %q; one at Ready for %q", links["/book"], want, links["/ready"])
			}
			w := httptest.NewRecorder()
			if err := a.built.shells["pages/book.js"].serve(w, httptest.NewRequest("GET", "/book", nil)); err != nil {
				t.Fatal(err)
			}
			page, _ := io.ReadAll(w.Body)
			if !strings.Contains(string(page), want) {
				t.Errorf("the page of the Book lacks %q: %s", want, page)
			}
			words := `<script type="application/json" id="words">{"yes":"Yes\u003c/script\u003e"}</script>`
			if strings.Contains(string(page), words) != c.tools || strings.Contains(string(page), `"yes"`) != c.tools {
				t.Errorf("the page has the words of joined files: %v, want %v: %s", !c.tools, c.tools, page)
			}
			if source := a.built.files[base+pwa.SourceFolder+"words.js"]; (source != nil) != c.tools {
				t.Errorf("words.js is there for developers' tools: %v, want %v", source != nil, c.tools)
			} else if source != nil && string(source.raw()) != string(files["words.js"].Data) {
				t.Errorf("developers' tools show %q", source.raw())
			}
			if found := a.built.files[base+"app.js.map"] != nil; found != c.tools {
				t.Errorf("there is a source map: %v, want %v", found, c.tools)
			}
		})
	}
	hashes := map[string]bool{}
	for _, said := range []string{"Yes", "Aye"} { // phones fetch the page anew when nothing but a word is another
		files := smallApp(t, true)
		files[pwa.BundleFile].Data = bytes.Replace(files[pwa.BundleFile].Data, []byte("Yes"), []byte(said), 1)
		a, err := New(Options{Files: files, Guides: guides.Files})
		if err != nil {
			t.Fatal(err)
		}
		hashes[a.built.hash] = true
	}
	if len(hashes) != 2 {
		t.Error("with another word the app has the same address")
	}
	files := smallApp(t, false)
	files[pwa.BundleFile] = &fstest.MapFile{Data: []byte("{")}
	if _, err := New(Options{Files: files, Guides: guides.Files}); err == nil {
		t.Error("a broken bundle was taken")
	}
}
