package assets

import (
	"bytes"
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
			f.takePacked(c.packed)
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
	app := fstest.MapFS{wasmFile: {Data: bytes.Repeat([]byte{7}, size)}}
	b := build{files: map[string]*file{}}
	address, err := b.addWasm(oneByOne{app}, nil)
	if err != nil {
		t.Fatal(err)
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
