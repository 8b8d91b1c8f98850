package server

import (
	"bytes"
	"io"
	"strings"
	"testing"

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
		{"its own", pack(t, raw, 3), true},
		{"of an older build", pack(t, []byte("older"), 3), false},
		{"none", nil, false},
		{"not brotli", []byte("calc"), false},
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
