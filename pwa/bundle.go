package pwa

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"slices"
)

// BundleFile holds what phones get in the place of the modules: the same,
// joined to a few files. It is built, so a fresh clone has none, and may be
// older than the modules that lie beside it.
const BundleFile = "gen/bundle.json"

// Bundle is a set of modules joined to a few files.
type Bundle struct {
	Of      string            `json:"of"`      // HashOf Modules when it was made
	Modules []string          `json:"modules"` // the names of all that it was made of
	Files   map[string]Joined `json:"files"`   // by name; one takes the place of a module with the same name
	In      map[string]string `json:"in"`      // the file that holds a module which others load when they need it
	Words   map[string]string `json:"words"`   // those that the files look up by key: the page has them as JSON, in its element WordsID
}

// Joined is one file of a bundle.
type Joined struct {
	Text   string `json:"text"`
	Brotli []byte `json:"brotli"` // of Text
	Map    string `json:"map"`    // its source map, which names modules as they lie in SourceFolder; "" if it has none
}

// WordsID is the id of the element of the page that holds the words of a bundle.
const WordsID = "words"

// SourceFolder is where source maps look for the modules, seen from the folder
// of the app.
const SourceFolder = "source/"

// HashOf names the contents of modules.
func HashOf(modules []string, contents map[string][]byte) string {
	h := sha256.New()
	for _, name := range slices.Sorted(slices.Values(modules)) {
		fmt.Fprintf(h, "%s\n%d\n", name, len(contents[name]))
		h.Write(contents[name])
	}
	return hex.EncodeToString(h.Sum(nil))
}

// ReadBundle returns the bundle among the app's files, nil if none was built or
// if it was made of other modules than those given.
func ReadBundle(files fs.FS, contents map[string][]byte) (*Bundle, error) {
	data, err := fs.ReadFile(files, BundleFile)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var b Bundle
	if err := json.Unmarshal(data, &b); err != nil {
		return nil, err
	}
	if b.Of != HashOf(b.Modules, contents) {
		return nil, nil
	}
	return &b, nil
}
