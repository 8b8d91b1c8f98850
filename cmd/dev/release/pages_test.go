package release

import (
	"bytes"
	"compress/gzip"
	"io"
	"strings"
	"testing"
)

// Each page is what the program prints for it, the man page packed as Debian wants.
func TestPageEntries(t *testing.T) {
	all, err := PageEntries(func(args ...string) (string, error) { return strings.Join(args, " "), nil })
	if err != nil || len(all) != len(Pages) {
		t.Fatalf("%d pages, %v", len(all), err)
	}
	for i, e := range all {
		data := e.Data
		if strings.HasSuffix(e.Name, ".gz") {
			r, err := gzip.NewReader(bytes.NewReader(data))
			if err != nil {
				t.Fatal(err)
			}
			if data, err = io.ReadAll(r); err != nil {
				t.Fatal(err)
			}
		}
		if want := strings.Join(Pages[i].Args, " "); string(data) != want || e.Mode != 0o644 {
			t.Errorf("%s has %q, want %q", e.Name, data, want)
		}
	}
	if _, err := PageEntries(func(...string) (string, error) { return "", io.ErrUnexpectedEOF }); err != io.ErrUnexpectedEOF {
		t.Errorf("a program that fails gives %v", err)
	}
}
