package assets

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"kerfside/pwa"
)

// build is one prepared state of the app.
type build struct {
	screens  []Screen
	notice   string
	hash     string
	files    map[string]*file // by address
	shells   map[string]*file // by the module of the screen
	script   string           // of the page itself: App.ScriptHash
	worker   *file
	manifest *file
}

const (
	unpackedWasm = "gen/calc.wasm" // for tools: no phone is sent it from there
	wasmFile     = "gen/calc.wasm.gz"
	packedWasm   = "gen/calc.wasm.br" // the same, packed as well as can be; may be missing or old
	shellFile    = "index.html"
	workerFile   = "sw.js"
	manifestFile = "manifest.webmanifest"
)

// makeBuild reads the app's files, makes those that are made by machine (the
// style sheet, the declarations, the guides) and names everything by content.
func makeBuild(o Options) (*build, error) {
	files := o.Files
	raw, err := readAll(files)
	if err != nil {
		return nil, err
	}
	packed := raw[packedWasm]
	delete(raw, packedWasm)
	if err := addMade(raw, o.Guides); err != nil {
		return nil, err
	}
	code := asTheyLie(raw)
	if !o.Dev { // who develops reads the modules as they were written
		if code, err = takeBundle(files, raw); err != nil {
			return nil, err
		}
	}
	b := &build{screens: o.Screens, notice: o.Notice, hash: hashOf(raw), files: map[string]*file{}}
	base := "/a/" + b.hash + "/"
	var kept []string // addresses of all that phones keep
	for _, name := range slices.Sorted(maps.Keys(raw)) {
		if name == shellFile || name == workerFile || name == manifestFile || isFragment(name) || isStylePart(name) || isStill(name) {
			continue
		}
		b.files[base+name] = newFile(name, raw[name], immutable)
		if packed, ok := code.packed[name]; ok {
			f := b.files[base+name]
			f.takePacked(packed, func() [sha256.Size]byte { return f.sum })
		}
		if !isForInstalling(name) {
			kept = append(kept, base+name)
		}
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

// isForReaders reports whether a file is for those who read or check the code.
func isForReaders(name string) bool {
	return slices.Contains([]string{".go", ".md", ".ts"}, path.Ext(name))
}

// isForInstalling reports whether a file is shown to who installs the app, by the
// browser or the system, and by no page: no phone keeps it.
func isForInstalling(name string) bool { return strings.HasPrefix(name, "install/") }

func readAll(files fs.FS) (map[string][]byte, error) {
	raw := map[string][]byte{}
	err := fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || isForReaders(name) || name == unpackedWasm || name == wasmFile || name == pwa.BundleFile {
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
