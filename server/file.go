package server

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"io/fs"
	"mime"
	"net/http"
	"path"
	"strconv"
	"strings"
	"sync"

	"github.com/andybalholm/brotli"
)

// immutable is the Cache-Control of what is named by content.
const immutable = "public, max-age=31536000, immutable"

// file is one file ready to be sent, raw or packed. It is packed when first
// asked for, so that a start waits for nothing.
type file struct {
	raw     func() []byte
	sum     [sha256.Size]byte // of raw
	mime    string
	caching string
	tag     string // ETag, for files that are always checked

	brotli, gzip func() []byte

	open func() (fs.File, error) // of a large file, whose raw form nobody holds; nil for others
}

// brotliLevel returns how hard a file is packed. Small files get the best
// level, which takes 10 to 50 ms for one; a large one is packed while a phone
// waits, at a level that takes 0.13 s for 2 MB and makes it an eighth larger.
func brotliLevel(size int) int {
	if size <= 64<<10 {
		return brotli.BestCompression
	}
	return 5
}

func newFile(name string, raw []byte, caching string) *file {
	return newFileOf(name, func() []byte { return raw }, sha256.Sum256(raw), caching)
}

// newFileOf is newFile for what is better read again when asked for than held.
func newFileOf(name string, raw func() []byte, sum [sha256.Size]byte, caching string) *file {
	f := &file{raw: raw, sum: sum, mime: mimeOf(name), caching: caching, tag: `"` + hex.EncodeToString(sum[:])[:8] + `"`}
	f.brotli = sync.OnceValue(f.packBrotli)
	f.gzip = sync.OnceValue(func() []byte {
		var b bytes.Buffer
		w := gzip.NewWriter(&b)
		w.Write(raw()) // into memory: cannot fail
		w.Close()
		return b.Bytes()
	})
	return f
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

// takePacked uses a form that was packed beforehand, if it is this file's and
// not that of an older build. That is found out when it is first asked for.
func (f *file) takePacked(packed []byte) {
	f.brotli = sync.OnceValue(func() []byte {
		h := sha256.New()
		_, err := io.Copy(h, brotli.NewReader(bytes.NewReader(packed)))
		if err == nil && len(packed) > 0 && bytes.Equal(h.Sum(nil), f.sum[:]) {
			return packed
		}
		return f.packBrotli()
	})
}

func mimeOf(name string) string {
	switch ext := path.Ext(name); ext {
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".wasm":
		return "application/wasm"
	case ".webmanifest":
		return "application/manifest+json"
	case ".json":
		return "application/json; charset=utf-8"
	default:
		return mime.TypeByExtension(ext)
	}
}

// serve sends the file in the smallest form that the asker takes.
func (f *file) serve(w http.ResponseWriter, r *http.Request) error {
	h := w.Header()
	h.Set("Content-Type", f.mime)
	h.Set("Cache-Control", f.caching)
	h.Set("Vary", "Accept-Encoding")
	h.Set("ETag", f.tag)
	if r.Header.Get("If-None-Match") == f.tag {
		w.WriteHeader(http.StatusNotModified)
		return nil
	}
	form := f.raw
	if f.open != nil {
		form = nil
	}
	if packs(f.mime) {
		switch accepts := r.Header.Get("Accept-Encoding"); {
		case strings.Contains(accepts, "br"):
			form = f.brotli
			h.Set("Content-Encoding", "br")
		case strings.Contains(accepts, "gzip"):
			form = f.gzip
			h.Set("Content-Encoding", "gzip")
		}
	}
	if form == nil {
		return f.stream(w, r)
	}
	body := form()
	h.Set("Content-Length", strconv.Itoa(len(body)))
	w.WriteHeader(http.StatusOK)
	if r.Method != http.MethodHead {
		w.Write(body) // an error here means that nobody listens any more
	}
	return nil
}

// stream sends a large file piece by piece: each of many slow readers would else
// have the whole of it in memory.
func (f *file) stream(w http.ResponseWriter, r *http.Request) error {
	from, err := f.open()
	if err != nil {
		return err
	}
	defer from.Close()
	info, err := from.Stat()
	if err != nil {
		return err
	}
	w.Header().Set("Content-Length", strconv.FormatInt(info.Size(), 10))
	w.WriteHeader(http.StatusOK)
	if r.Method != http.MethodHead {
		io.Copy(w, from) // an error here means that nobody listens any more
	}
	return nil
}

// packs reports whether files of that type get smaller by packing.
func packs(mime string) bool { return !strings.HasPrefix(mime, "image/png") }
