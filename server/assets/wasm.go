package assets

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
)

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
