package assets

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"sync"
)

// addWasm adds calc.wasm and returns its address, "" if it was not built. The
// file is larger than all others together and almost always asked for in a
// packed form, so the raw one is neither held nor part of the program.
func (b *build) addWasm(files fs.FS, packed []byte) (address string, err error) {
	gz, err := fs.ReadFile(files, wasmFile)
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	if len(gz) < gzipTrailer {
		return "", fmt.Errorf("%s is cut off", wasmFile)
	}
	size := int64(binary.LittleEndian.Uint32(gz[len(gz)-4:]))
	sum := sha256.Sum256(gz)
	open := func() (io.ReadCloser, int64, error) {
		from, err := unpack(files)
		return from, size, err
	}
	raw := func() []byte {
		var all bytes.Buffer
		if from, _, err := open(); err == nil { // it could be read when the server started
			all.ReadFrom(from)
			from.Close()
		}
		return all.Bytes()
	}
	f := newFileOf(unpackedWasm, raw, sum, immutable)
	f.open = open
	f.gzip = sync.OnceValue(func() []byte {
		gz, _ := fs.ReadFile(files, wasmFile)
		return gz
	})
	f.takePacked(packed, func() (sum [sha256.Size]byte) {
		h := sha256.New()
		if from, _, err := open(); err == nil {
			io.Copy(h, from)
			from.Close()
		}
		return [sha256.Size]byte(h.Sum(nil))
	})
	address = "/w/" + hex.EncodeToString(sum[:])[:16] + "/calc.wasm"
	b.files[address] = f
	return address, nil
}

// gzipTrailer is how long the end of a gzip file is, whose last four bytes tell the
// size of what is in it (RFC 1952, 2.3.1).
const gzipTrailer = 8

// unpack opens calc.wasm as it is.
func unpack(files fs.FS) (io.ReadCloser, error) {
	from, err := files.Open(wasmFile)
	if err != nil {
		return nil, err
	}
	unpacked, err := gzip.NewReader(from)
	if err != nil {
		from.Close()
		return nil, err
	}
	return struct {
		io.Reader
		io.Closer
	}{unpacked, from}, nil
}
