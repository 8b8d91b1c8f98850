package server

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"net/http"
	"path"
	"slices"
	"strings"
	"sync"

	"kerfside/calc/cutting"
	"kerfside/calc/diagnose"
	"kerfside/calc/problem"
	"kerfside/calc/registry"
	"kerfside/guides"
	"kerfside/pwa"
)

// app serves the phone app. All files lie under /a/HASH/, where HASH is taken
// over every one of them, so that relative imports work and each address is
// good for ever; only calc.wasm, the largest, has an address of its own, so
// that a new word on a page does not make phones fetch it again. The modules
// go out joined to a few files, or as they lie where they were not joined.
type app struct {
	files, guides fs.FS
	dev           bool

	mu    sync.Mutex
	built *build
}

// build is one prepared state of the app.
type build struct {
	hash     string
	files    map[string]*file // by address
	shells   map[string]*file // by the module of the screen
	worker   *file
	manifest *file
}

func newApp(files, markdown fs.FS, dev bool) (*app, error) {
	a := &app{files: files, guides: markdown, dev: dev}
	b, err := a.makeBuild()
	a.built = b
	return a, err
}

// current returns the build to serve; in dev, a fresh one for each page.
func (a *app) current(fresh bool) (*build, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.dev && fresh {
		b, err := a.makeBuild()
		if err != nil {
			return nil, problem.New(problem.Internal, "", err.Error(), "Mend the file and load the page again.")
		}
		a.built = b
	}
	return a.built, nil
}

const (
	wasmFile     = "gen/calc.wasm"
	packedWasm   = "gen/calc.wasm.br" // the same, packed beforehand; may be missing or old
	shellFile    = "index.html"
	workerFile   = "sw.js"
	manifestFile = "manifest.webmanifest"
)

// makeBuild reads the app's files, makes those that are made by machine (the
// style sheet, the declarations, the guides) and names everything by content.
func (a *app) makeBuild() (*build, error) {
	files := a.files
	raw, err := readAll(files)
	if err != nil {
		return nil, err
	}
	packed := raw[packedWasm]
	delete(raw, packedWasm)
	if err := addMade(raw, a.guides); err != nil {
		return nil, err
	}
	code := asTheyLie(raw)
	if !a.dev { // who develops reads the modules as they were written
		if code, err = takeBundle(files, raw); err != nil {
			return nil, err
		}
	}
	b := &build{files: map[string]*file{}, hash: hashOf(raw)}
	base := "/a/" + b.hash + "/"
	var kept []string // addresses of all that phones keep
	for _, name := range slices.Sorted(maps.Keys(raw)) {
		if name == shellFile || name == workerFile || name == manifestFile || isFragment(name) || isStylePart(name) {
			continue
		}
		b.files[base+name] = newFile(name, raw[name], immutable)
		if packed, ok := code.packed[name]; ok {
			b.files[base+name].takePacked(packed)
		}
		kept = append(kept, base+name)
	}
	for name, aid := range code.aids {
		b.files[base+name] = aid
	}
	wasm, err := b.addWasm(files, packed)
	if err != nil {
		return nil, err
	}
	if wasm != "" {
		kept = append(kept, wasm)
	}
	b.addShells(raw, wasm, code)
	if err := b.addWorker(raw[workerFile], kept, code); err != nil {
		return nil, err
	}
	b.manifest = newFile(manifestFile, bytes.ReplaceAll(raw[manifestFile], []byte("/a/HASH/"), []byte(base)), "no-cache")
	return b, nil
}

// addWorker fills in the service worker: what it keeps, and what the addresses of
// a start ask for beside the rest.
func (b *build) addWorker(source []byte, kept []string, code code) error {
	list, err := json.Marshal(append([]string{"/", "/manifest.webmanifest"}, kept...))
	if err != nil {
		return err
	}
	starts := map[string]string{}
	for _, screen := range screens {
		if screen.isStart {
			starts[screen.address] = links(b.hash, code.beside(screen.module))
		}
	}
	startList, err := json.Marshal(starts)
	if err != nil {
		return err
	}
	worker := bytes.ReplaceAll(source, []byte(`"BUILD"`), []byte(`"`+b.hash+"-"+shortHash(b.shells[""].raw())+`"`))
	worker = bytes.ReplaceAll(worker, []byte(`["PRECACHE"]`), list)
	worker = bytes.ReplaceAll(worker, []byte(`{ STARTS: "" }`), startList)
	b.worker = newFile(workerFile, worker, "no-cache")
	return nil
}

// addWasm adds calc.wasm and returns its address, "" if it was not built. The
// file is larger than all others together and almost always asked for in its
// packed form, so the raw one is not held.
func (b *build) addWasm(files fs.FS, packed []byte) (address string, err error) {
	f, err := files.Open(wasmFile)
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	sum := [sha256.Size]byte(h.Sum(nil))
	address = "/w/" + hex.EncodeToString(sum[:])[:16] + "/calc.wasm"
	b.files[address] = newFileOf(wasmFile, func() []byte {
		raw, _ := fs.ReadFile(files, wasmFile) // it could be read when the server started
		return raw
	}, sum, immutable)
	b.files[address].takePacked(packed)
	b.files[address].open = func() (fs.File, error) { return files.Open(wasmFile) }
	return address, nil
}

// lateLinks is the place in index.html for what a screen needs beside the rest.
// The service worker knows it too.
const lateLinks = "<!-- late -->"

// addShells makes the page for each screen. They differ in the file that is asked
// for along with those that every screen needs.
func (b *build) addShells(raw map[string][]byte, wasm string, code code) {
	common := b.makeShell(raw, wasm, code)
	b.shells = map[string]*file{}
	made := map[string]*file{}
	for _, screen := range append(slices.Clone(screens), screen{}) {
		late := links(b.hash, code.beside(screen.module))
		if made[late] == nil {
			text := common
			if late != "" {
				text = bytes.Replace(common, []byte(lateLinks), []byte(late), 1)
			}
			made[late] = newFile(shellFile, text, "no-cache")
		}
		b.shells[screen.module] = made[late]
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

// isStylePart reports whether a file is a part of the style sheet.
func isStylePart(name string) bool {
	return strings.HasPrefix(name, "css/") && name != styleFile
}

const styleFile = "css/app.css"

// addMade adds the files that are made from others or from Go.
func addMade(raw map[string][]byte, markdown fs.FS) error {
	var style bytes.Buffer
	style.Write(raw["css/layers.css"]) // declares the order of the layers, so it comes first
	var parts []string
	for name := range raw {
		if isStylePart(name) && name != "css/layers.css" {
			parts = append(parts, name)
		}
	}
	slices.Sort(parts)
	for _, name := range parts {
		style.Write(raw[name])
	}
	raw[styleFile] = style.Bytes()

	all := registry.Describe()
	declarations, err := json.Marshal(all)
	if err != nil {
		return err
	}
	raw["gen/calculators.json"] = declarations
	for _, one := range all {
		if one.Name != "cut-plan" {
			continue
		}
		// The first screen asks for this one alone: all of them would keep it waiting.
		if raw["gen/cut-plan.json"], err = json.Marshal(one); err != nil {
			return err
		}
	}

	stops, err := json.Marshal(cutting.Stops())
	if err != nil {
		return err
	}
	raw["gen/stops.json"] = stops

	faults, err := json.Marshal(map[string]any{"signs": diagnose.Signs, "groups": diagnose.SignGroups, "causes": diagnose.Causes, "checks": diagnose.Checks})
	if err != nil {
		return err
	}
	raw["gen/faults.json"] = faults

	library, err := guides.Load(markdown)
	if err != nil {
		return err
	}
	raw["gen/guides.json"] = library.IndexJSON()
	raw["gen/search.json"] = library.SearchJSON()
	for _, entry := range library.Index() {
		data, err := library.JSON(entry.ID)
		if err != nil {
			return err
		}
		raw["gen/guide/"+entry.ID+".json"] = data
	}
	return nil
}

// isForReaders reports whether a file is for those who read or check the code.
func isForReaders(name string) bool {
	return slices.Contains([]string{".go", ".md", ".ts"}, path.Ext(name))
}

func readAll(files fs.FS) (map[string][]byte, error) {
	raw := map[string][]byte{}
	err := fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || isForReaders(name) || name == wasmFile || name == pwa.BundleFile {
			return err
		}
		raw[name], err = fs.ReadFile(files, name)
		return err
	})
	if err != nil {
		return nil, err
	}
	for _, name := range []string{shellFile, workerFile, manifestFile} {
		if raw[name] == nil {
			return nil, fmt.Errorf("the app has no %s", name)
		}
	}
	return raw, nil
}

// hashOf names the contents of all the files.
func hashOf(raw map[string][]byte) string {
	return pwa.HashOf(slices.Collect(maps.Keys(raw)), raw)[:16]
}

func shortHash(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])[:8]
}

// shell serves the one page behind all screens, as the screen of a module wants it.
func (s *Server) shell(module string) func(http.ResponseWriter, *http.Request) error {
	return func(w http.ResponseWriter, r *http.Request) error {
		b, err := s.app.current(true)
		if err != nil {
			return err
		}
		return b.shells[module].serve(w, r)
	}
}

// serviceWorker serves sw.js with this build's list of files.
func (s *Server) serviceWorker(w http.ResponseWriter, r *http.Request) error {
	b, err := s.app.current(true)
	if err != nil {
		return err
	}
	return b.worker.serve(w, r)
}

// manifest serves the web app manifest.
func (s *Server) manifest(w http.ResponseWriter, r *http.Request) error {
	b, err := s.app.current(false)
	if err != nil {
		return err
	}
	return b.manifest.serve(w, r)
}

// asset serves a file by its address. An address of another build is not
// there: the service worker keeps what its own build needs.
func (s *Server) asset(w http.ResponseWriter, r *http.Request) error {
	b, err := s.app.current(false)
	if err != nil {
		return err
	}
	f, ok := b.files[r.URL.Path]
	if !ok {
		return problem.New(problem.NotFound, "", "there is no such file in this version of the app", "Load the page again.")
	}
	return f.serve(w, r)
}
