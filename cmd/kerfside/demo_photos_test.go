package main

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/server/store"
)

// TestDemoPictures: each picture that is told of lies where the server looks for it, and
// its small one is one that a phone shows.
func TestDemoPictures(t *testing.T) {
	path := filepath.Join(t.TempDir(), "kerfside.db")
	if err := demo(path, io.Discard); err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(path, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	d, n := newDemo(time.Now()), 0
	for _, e := range d.events {
		if e.Event.Kind != "photo.added" {
			continue
		}
		n++
		b := event.ReadBody(e.Event.Body)
		file, err := os.ReadFile(filepath.Join(photoFolder(path), store.PictureFile(s.Crew(), b.Text("sha256"))))
		if bytes, _ := b.Int("bytes"); err != nil || store.PictureName(file) != b.Text("sha256") || bytes != int64(len(file)) {
			t.Errorf("a picture of %d bytes: %v", len(file), err)
		}
		if thumb := b.Text("thumb"); !strings.HasPrefix(thumb, "data:image/jpeg;base64,") || len(thumb) > 4096 {
			t.Errorf("a small picture of %d characters: %.40s", len(thumb), thumb)
		}
	}
	if n < 3 {
		t.Errorf("%d pictures", n)
	}
}
