package pwa

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io/fs"
)

// PackedFile holds the modules without what only readers need. It is built, so
// a fresh clone has none, and may be older than the modules that lie beside it.
const PackedFile = "gen/modules.json"

// Packed are packed modules by the name of the file they were made of.
type Packed map[string]PackedModule

// PackedModule is one of them.
type PackedModule struct {
	Of   string `json:"of"` // HashOf the source
	Text string `json:"text"`
}

// HashOf names the bytes of a module.
func HashOf(source []byte) string {
	sum := sha256.Sum256(source)
	return hex.EncodeToString(sum[:])
}

// ReadPacked returns the packed modules among the app's files, none if they
// were not built.
func ReadPacked(files fs.FS) (Packed, error) {
	data, err := fs.ReadFile(files, PackedFile)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var packed Packed
	return packed, json.Unmarshal(data, &packed)
}

// Of returns the packed form of a module, or the source itself if there is
// none that was made of just this source.
func (p Packed) Of(name string, source []byte) []byte {
	if m, ok := p[name]; ok && m.Of == HashOf(source) {
		return []byte(m.Text)
	}
	return source
}
