package assets

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"mime"
	"net/http"
	"path"
	"strconv"
	"strings"
	"sync"
)

// immutable is the Cache-Control of what is named by content.
const immutable = "public, max-age=31536000, immutable"

// file is one file ready to be sent, raw or packed. It is packed when first
// asked for, so that a start waits for nothing.
type file struct {
	raw     func() []byte
	sum     [sha256.Size]byte // of raw, or of another form that it is made from
	mime    string
	caching string
	tag     string // ETag, for files that are always checked

	brotli, gzip func() []byte

	open func() (from io.ReadCloser, size int64, err error) // of a large file, whose raw form nobody holds; nil for others
}

func newFile(name string, raw []byte, caching string) *file {
	return newFileOf(name, func() []byte { return raw }, sha256.Sum256(raw), caching)
}

// newFileOf is newFile for what is better read again when asked for than held.
func newFileOf(name string, raw func() []byte, sum [sha256.Size]byte, caching string) *file {
	f := &file{raw: raw, sum: sum, mime: mimeOf(name), caching: caching, tag: `"` + hex.EncodeToString(sum[:])[:8] + `"`}
	f.brotli = sync.OnceValue(f.packBrotli)
	f.gzip = sync.OnceValue(f.packGzip)
	return f
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
	from, size, err := f.open()
	if err != nil {
		return err
	}
	defer from.Close()
	w.Header().Set("Content-Length", strconv.FormatInt(size, 10))
	w.WriteHeader(http.StatusOK)
	if r.Method != http.MethodHead {
		io.Copy(w, from) // an error here means that nobody listens any more
	}
	return nil
}
