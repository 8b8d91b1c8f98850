package main

import (
	"context"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"kerfside/cmd/internal/browser"
	"kerfside/pwa"
)

// planted is an app with some of its files replaced by others.
type planted struct {
	fs.FS
	by fstest.MapFS
}

func (r planted) Open(name string) (fs.File, error) {
	if r.by[name] != nil {
		return r.by.Open(name)
	}
	return r.FS.Open(name)
}

// edit replaces a text in a file of the app.
func (r planted) edit(t *testing.T, name, old, by string) {
	t.Helper()
	text, err := fs.ReadFile(r, name)
	if err != nil || !strings.Contains(string(text), old) {
		t.Fatalf("%s does not hold %q: %v", name, old, err)
	}
	r.by[name] = &fstest.MapFile{Data: []byte(strings.Replace(string(text), old, by, 1))}
}

// notice is what is seen of the words for old browsers.
const notice = `(() => {
	const notice = document.querySelector(".too-old");
	if (!notice) return "gone";
	return notice.contains(document.elementFromPoint(innerWidth / 2, innerHeight / 2)) ? notice.innerText : "not seen";
})()`

// TestBrowserTooOld: what an old browser lacks is planted by taking it from a new
// one. The words stand where the app cannot start, whatever it is that stops it, and
// are seen at no time where it can.
func TestBrowserTooOld(t *testing.T) {
	t.Parallel()
	for _, engine := range append([]browser.Engine{browser.Chromium}, others()...) {
		t.Run(engine.String(), func(t *testing.T) {
			t.Parallel()
			ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
			defer cancel()
			b, err := browser.Launch(ctx, browser.Options{Engine: engine, Profile: filepath.Join(place(t), "phone")})
			if err != nil {
				t.Fatal(err)
			}
			t.Cleanup(b.Kill)
			for name, c := range tooOldCases {
				phone := &device{browser: b}
				if phone.page, err = b.Page(ctx, browser.Phone); err != nil {
					t.Fatal(err)
				}
				app := shippedApp(place(t))
				app.overlay = func(files fs.FS) fs.FS {
					r := planted{FS: files, by: fstest.MapFS{}}
					c.plant(t, r)
					return r
				}
				if err := app.Open(); err != nil {
					t.Fatal(err)
				}
				if err := phone.page.Open(ctx, app.URL()+"/"); err != nil {
					t.Fatal(err)
				}
				if c.want == "" {
					oldest := pwa.Oldest()
					said := map[bool]string{true: "may be too old", false: "is too old for Kerfside"}[c.unsure]
					for _, words := range []string{said, "Safari " + oldest.Safari + ",", "Chrome " + oldest.Chrome + ",", "Firefox " + oldest.Firefox + ","} {
						phone.wait(ctx, t, fmt.Sprintf(`%s.includes(%q)`, notice, words))
					}
				} else {
					phone.wait(ctx, t, fmt.Sprintf(`document.readyState === "complete" && %s === %q`, notice, c.want))
				}
				t.Logf("%s: as it should be", name)
				app.Close()
			}
		})
	}
}

// tooOldCases are what is planted, and what is seen then: the words where want is "".
// Where the app only fails to start, they do not say for certain why.
var tooOldCases = map[string]struct {
	plant  func(*testing.T, planted)
	want   string
	unsure bool
}{
	"nothing":            {plant: func(*testing.T, planted) {}, want: "gone"},
	"code on its way":    {plant: func(t *testing.T, r planted) { r.by["app.js"] = &fstest.MapFile{Data: []byte("export {};\n")} }, want: "not seen"},
	"a word of tomorrow": {unsure: true, plant: func(t *testing.T, r planted) { r.edit(t, "app.js", "const frame =", "match frame =") }},
	"a missing method": {plant: func(t *testing.T, r planted) {
		r.edit(t, "index.html", "(function (notice) {", "delete Element.prototype.replaceChildren;\n(function (notice) {")
	}},
	"a missing method that nobody asked for": {unsure: true, plant: func(t *testing.T, r planted) {
		r.edit(t, "index.html", "(function (notice) {", "delete EventTarget.prototype.dispatchEvent; delete Element.prototype.setAttribute;\n(function (notice) {")
	}},
	"no modules": {plant: func(t *testing.T, r planted) {
		r.edit(t, "index.html", "(function (notice) {", "delete HTMLScriptElement.prototype.noModule;\n(function (notice) {")
	}},
	"style, and no code at all": {plant: func(t *testing.T, r planted) {
		r.edit(t, "index.html", hookPlace, "")
		r.edit(t, "css/too-old.css", "selector(:has(a))", "selector(:tomorrow(a))")
	}},
}
