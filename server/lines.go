package server

import (
	"bytes"
	"io"
	"net/http"
	"runtime"
	"strconv"
	"strings"
	"sync"

	"github.com/klauspost/compress/gzip"
)

// press writes a reply's lines and zips them. The library is twice as fast as
// the standard one at the same size, and zipping is most of what a busy server
// does.
type press struct {
	text []byte
	zip  *gzip.Writer
}

// presses are as many as the machine can use at once. Each holds a megabyte or
// two, and so does the page that is read into it; more of them would only wait
// for each other.
var presses = make(chan *press, runtime.GOMAXPROCS(0))

func init() {
	for range cap(presses) {
		presses <- &press{}
	}
}

// printed are buffers at rest for replies that wait for the line.
var printed = sync.Pool{New: func() any { return new(bytes.Buffer) }}

// sendLines sends JSON lines, gzipped if the phone takes that. fill writes them
// into the memory that it is given and returns them.
func sendLines(w http.ResponseWriter, r *http.Request, fill func(room []byte) ([]byte, error)) error {
	zipped := strings.Contains(r.Header.Get("Accept-Encoding"), "gzip")
	out := printed.Get().(*bytes.Buffer)
	defer printed.Put(out)
	out.Reset()
	if err := printTo(out, zipped, fill); err != nil {
		return err
	}
	h := w.Header()
	h.Set("Content-Type", "application/x-ndjson; charset=utf-8")
	h.Set("Cache-Control", "no-store")
	h.Add("Vary", "Accept-Encoding")
	h.Set("Content-Length", strconv.Itoa(out.Len()))
	if zipped {
		h.Set("Content-Encoding", "gzip")
	}
	w.Write(out.Bytes()) // an error here means that nobody listens any more
	return nil
}

// printTo fills a press and writes what it holds to out. A slow line does not
// keep the press.
func printTo(out *bytes.Buffer, zipped bool, fill func(room []byte) ([]byte, error)) error {
	p := <-presses
	defer func() { presses <- p }()
	text, err := fill(p.text)
	if err != nil {
		return err
	}
	p.text = text
	if !zipped {
		out.Write(text)
		return nil
	}
	if p.zip == nil {
		p.zip, _ = gzip.NewWriterLevel(io.Discard, gzip.BestSpeed) // fails on an unknown level only
	}
	p.zip.Reset(out)
	p.zip.Write(text)
	p.zip.Close()
	return nil
}
