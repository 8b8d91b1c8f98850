package assets

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"io"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/andybalholm/brotli"
)

// A form that was packed beforehand is sent only if it is the file's own.
func TestTakePacked(t *testing.T) {
	raw := []byte(strings.Repeat("kerf ", 100))
	for _, c := range []struct {
		name   string
		packed []byte
		taken  bool
	}{
		{name: "its own", packed: pack(t, raw, 3), taken: true},
		{name: "of an older build", packed: pack(t, []byte("older"), 3)},
		{name: "none"},
		{name: "not brotli", packed: []byte("calc")},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := newFile("calc.wasm", raw, immutable)
			f.takePacked(c.packed, func() [sha256.Size]byte { return f.sum })
			sent := f.brotli()
			if taken := bytes.Equal(sent, c.packed); taken != c.taken {
				t.Errorf("taken: %v, want %v", taken, c.taken)
			}
			if got, err := io.ReadAll(brotli.NewReader(bytes.NewReader(sent))); err != nil || !bytes.Equal(got, raw) {
				t.Errorf("what is sent unpacks to %q, %v", got, err)
			}
		})
	}
}

// TestLargeFileToMany: a large file is not read anew into memory for each who asks
// for it, since they may be many and slow.
func TestLargeFileToMany(t *testing.T) {
	const size = 4 << 20
	raw := bytes.Repeat([]byte{7}, size)
	var gz bytes.Buffer
	packer := gzip.NewWriter(&gz)
	packer.Write(raw)
	packer.Close()
	app := fstest.MapFS{wasmFile: {Data: gz.Bytes()}}
	b := build{files: map[string]*file{}}
	packed := pack(t, raw, 3)
	address, err := b.addWasm(oneByOne{app}, packed)
	if err != nil {
		t.Fatal(err)
	}
	if f := b.files[address]; !bytes.Equal(f.gzip(), gz.Bytes()) || !bytes.Equal(f.brotli(), packed) || !bytes.Equal(f.raw(), raw) {
		t.Error("a form of it is another file's")
	}
	other := build{files: map[string]*file{}}
	if _, err := other.addWasm(oneByOne{app}, pack(t, raw[1:], 3)); err != nil {
		t.Fatal(err)
	}
	if got, err := io.ReadAll(brotli.NewReader(bytes.NewReader(other.files[address].brotli()))); err != nil || !bytes.Equal(got, raw) {
		t.Errorf("of another file's packed form %d bytes are sent, %v", len(got), err)
	}
	if _, err := other.addWasm(fstest.MapFS{wasmFile: {Data: []byte("cut")}}, nil); err == nil {
		t.Error("a file that was cut off is taken")
	}
	for _, method := range []string{"GET", "HEAD"} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		w := &counting{header: http.Header{}}
		if err := b.files[address].serve(w, httptest.NewRequest(method, address, nil)); err != nil {
			t.Fatal(err)
		}
		runtime.ReadMemStats(&after)
		if got := w.header.Get("Content-Length"); got != strconv.Itoa(size) || (method == "GET") != (w.sent == size) {
			t.Errorf("%s: sent %d of %s", method, w.sent, got)
		}
		if took := after.TotalAlloc - before.TotalAlloc; took > size/8 {
			t.Errorf("%s: it took %d bytes of memory", method, took)
		}
	}
}

// oneByOne is a file system whose files can only be read piece by piece.
type oneByOne struct{ fs.FS }

// counting is a ResponseWriter that counts what is sent.
type counting struct {
	header http.Header
	sent   int
}

func (c *counting) Header() http.Header { return c.header }
func (c *counting) WriteHeader(int)     {}
func (c *counting) Write(b []byte) (int, error) {
	c.sent += len(b)
	return len(b), nil
}

// pack packs a text at that level; 3 is none that newFile takes.
func pack(t *testing.T, raw []byte, level int) []byte {
	t.Helper()
	var b bytes.Buffer
	w := brotli.NewWriterLevel(&b, level)
	if _, err := w.Write(raw); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
