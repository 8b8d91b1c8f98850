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
	"net/http"
	"path"
	"regexp"
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
// that a new word on a page does not make phones fetch it again.
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
	start    []string         // modules that the first screen needs
	shell    *file
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
	b := &build{files: map[string]*file{}, start: startModules(raw)}
	if !a.dev { // who develops reads the modules as they were written
		if err := packModules(raw, files); err != nil {
			return nil, err
		}
	}
	b.hash = hashOf(raw)
	names := make([]string, 0, len(raw))
	for name := range raw {
		names = append(names, name)
	}
	slices.Sort(names)
	var addresses []string
	for _, name := range names {
		if name == shellFile || name == workerFile || name == manifestFile || isFragment(name) || isStylePart(name) {
			continue
		}
		address := "/a/" + b.hash + "/" + name
		b.files[address] = newFile(name, raw[name], immutable)
		addresses = append(addresses, address)
	}
	wasm, err := b.addWasm(files, packed)
	if err != nil {
		return nil, err
	}
	if wasm != "" {
		addresses = append(addresses, wasm)
	}
	shell := b.makeShell(raw, wasm)
	b.shell = newFile(shellFile, shell, "no-cache")
	list, err := json.Marshal(append([]string{"/", "/manifest.webmanifest"}, addresses...))
	if err != nil {
		return nil, err
	}
	worker := bytes.ReplaceAll(raw[workerFile], []byte(`"BUILD"`), []byte(`"`+b.hash+"-"+shortHash(shell)+`"`))
	worker = bytes.ReplaceAll(worker, []byte(`["PRECACHE"]`), list)
	b.worker = newFile(workerFile, worker, "no-cache")
	b.manifest = newFile(manifestFile, bytes.ReplaceAll(raw[manifestFile], []byte("/a/HASH/"), []byte("/a/"+b.hash+"/")), "no-cache")
	return b, nil
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

// makeShell puts the templates, the style sheet and the module links into
// index.html, at the comments that name them.
func (b *build) makeShell(raw map[string][]byte, wasm string) []byte {
	var templates, links bytes.Buffer
	names := make([]string, 0, len(raw))
	for name := range raw {
		if isFragment(name) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	for _, name := range names {
		templates.Write(raw[name])
	}
	for _, m := range b.start {
		fmt.Fprintf(&links, "<link rel=\"modulepreload\" href=\"/a/%s/%s\">\n", b.hash, m)
	}
	shell := raw[shellFile]
	for _, r := range []struct{ from, to string }{
		{"<!-- templates -->", templates.String()},
		{"<!-- modules -->", links.String()},
		{"/a/HASH/", "/a/" + b.hash + "/"},
		{"/w/HASH/calc.wasm", wasm},
	} {
		shell = bytes.ReplaceAll(shell, []byte(r.from), []byte(r.to))
	}
	return shell
}

// isFragment reports whether a file holds templates that go into the shell.
func isFragment(name string) bool { return strings.HasSuffix(name, ".html") && name != shellFile }

// isStylePart reports whether a file is a part of the style sheet.
func isStylePart(name string) bool {
	return strings.HasPrefix(name, "css/") && name != styleFile
}

// staticImport finds what a module imports before it runs.
var staticImport = regexp.MustCompile(`(?m)^(?:import|export)\b[^;"]*"(\.[^"]+)";`)

// startModules lists app.js and all that it imports, and what those import: the
// modules that the first screen needs, so that they are fetched side by side
// and not one after the other.
func startModules(raw map[string][]byte) []string {
	list := []string{"app.js"}
	for i := 0; i < len(list); i++ {
		for _, m := range staticImport.FindAllSubmatch(raw[list[i]], -1) {
			name := path.Join(path.Dir(list[i]), string(m[1]))
			if raw[name] != nil && !slices.Contains(list, name) {
				list = append(list, name)
			}
		}
	}
	return list
}

// packModules puts the packed form of each module in the place of its source.
func packModules(raw map[string][]byte, files fs.FS) error {
	packed, err := pwa.ReadPacked(files)
	if err != nil {
		return fmt.Errorf("%s: %w", pwa.PackedFile, err)
	}
	for name, source := range raw {
		raw[name] = packed.Of(name, source)
	}
	return nil
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

	declarations, err := json.Marshal(registry.Describe())
	if err != nil {
		return err
	}
	raw["gen/calculators.json"] = declarations

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
		if err != nil || d.IsDir() || isForReaders(name) || name == wasmFile || name == pwa.PackedFile {
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
	names := make([]string, 0, len(raw))
	for name := range raw {
		names = append(names, name)
	}
	slices.Sort(names)
	h := sha256.New()
	for _, name := range names {
		fmt.Fprintf(h, "%s\n%d\n", name, len(raw[name]))
		h.Write(raw[name])
	}
	return hex.EncodeToString(h.Sum(nil))[:16]
}

func shortHash(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])[:8]
}

// shell serves the one page behind all screens.
func (s *Server) shell(w http.ResponseWriter, r *http.Request) error {
	b, err := s.app.current(true)
	if err != nil {
		return err
	}
	return b.shell.serve(w, r)
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
