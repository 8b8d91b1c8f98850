package assets

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"io"
	"strings"
	"sync"

	"github.com/andybalholm/brotli"
)

// brotliLevel returns how hard a file is packed. Small files get the best
// level, which takes 10 to 50 ms for one; a large one is packed while a phone
// waits, at a level that takes 0.13 s for 2 MB and makes it an eighth larger.
func brotliLevel(size int) int {
	if size <= 64<<10 {
		return brotli.BestCompression
	}
	return 5
}

// packedForms holds what brotli made, by the hash of the content: the best level takes
// seconds for a whole app, and a process may open it more than once.
var packedForms sync.Map // [sha256.Size]byte to []byte

func (f *file) packBrotli() []byte {
	if packed, ok := packedForms.Load(f.sum); ok {
		return packed.([]byte)
	}
	var b bytes.Buffer
	raw := f.raw()
	w := brotli.NewWriterLevel(&b, brotliLevel(len(raw)))
	w.Write(raw)
	w.Close()
	packedForms.Store(f.sum, b.Bytes())
	return b.Bytes()
}

// takePacked uses a form that was packed beforehand, if it is this file's, whose
// raw form has that sum, and not that of an older build. That is found out when it
// is first asked for.
func (f *file) takePacked(packed []byte, sum func() [sha256.Size]byte) {
	f.brotli = sync.OnceValue(func() []byte {
		h := sha256.New()
		_, err := io.Copy(h, brotli.NewReader(bytes.NewReader(packed)))
		if err == nil && len(packed) > 0 && [sha256.Size]byte(h.Sum(nil)) == sum() {
			return packed
		}
		return f.packBrotli()
	})
}

func (f *file) packGzip() []byte {
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	w.Write(f.raw()) // into memory: cannot fail
	w.Close()
	return b.Bytes()
}

// packs reports whether files of that type get smaller by packing.
func packs(mime string) bool { return !strings.HasPrefix(mime, "image/png") }
