package server

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	_ "image/png"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
)

// installPicture is a picture that the manifest names.
type installPicture struct{ Src, Sizes, Type, Label string }

// What the manifest names is there: pictures as large as it says, screens that the app has,
// and an address that takes what is shared. No phone keeps what only who installs it sees.
func TestManifestNamesWhatIsThere(t *testing.T) {
	s := guardedServer(t, Options{})
	var m struct {
		Icons, Screenshots []installPicture
		Shortcuts          []struct {
			URL   string
			Icons []installPicture
		}
		Share struct{ Action string } `json:"share_target"`
	}
	if err := json.Unmarshal(call(s, "http://localhost/manifest.webmanifest").Body.Bytes(), &m); err != nil {
		t.Fatal(err)
	}
	kept := call(s, "http://localhost/sw.js").Body.String()
	look := func(p installPicture, isKept bool) {
		got := call(s, "http://localhost"+p.Src)
		found, _, err := image.DecodeConfig(bytes.NewReader(got.Body.Bytes()))
		if size := fmt.Sprintf("%dx%d", found.Width, found.Height); err != nil || size != p.Sizes || got.Header().Get("Content-Type") != p.Type {
			t.Errorf("%s is %s, %s, %v; the manifest says %s, %s", p.Src, size, got.Header().Get("Content-Type"), err, p.Sizes, p.Type)
		}
		if strings.Contains(kept, p.Src) != isKept {
			t.Errorf("that phones keep %s is %v, want %v", p.Src, !isKept, isKept)
		}
	}
	for _, p := range m.Icons {
		look(p, true)
	}
	for _, p := range m.Screenshots {
		look(p, false)
		if p.Label == "" {
			t.Errorf("nothing says what %s shows", p.Src)
		}
	}
	var opens []string
	for _, short := range m.Shortcuts {
		opens = append(opens, short.URL)
		if got := call(s, "http://localhost"+short.URL); got.Code != http.StatusOK {
			t.Errorf("%s answers %d", short.URL, got.Code)
		}
		for _, p := range short.Icons {
			look(p, false)
		}
	}
	if want := []string{"/cut", "/fix", "/worst-day"}; !slices.Equal(opens, want) {
		t.Errorf("shortcuts open %q, want %q", opens, want)
	}
	if m.Share.Action != sharePath {
		t.Errorf("what is shared goes to %q, want %q", m.Share.Action, sharePath)
	}
}

// A picture that no service worker took is read to its end and led to the screen that says
// so, whoever posts it: what another app shares comes from nowhere.
func TestSharedToTheServer(t *testing.T) {
	s := guardedServer(t, Options{})
	for _, from := range []string{"", "none", "cross-site"} {
		body := strings.NewReader(strings.Repeat("x", 1<<20))
		r := httptest.NewRequest("POST", "http://localhost/share", body)
		r.Header.Set("Content-Type", "multipart/form-data; boundary=x")
		if from != "" {
			r.Header.Set("Sec-Fetch-Site", from)
		}
		w := httptest.NewRecorder()
		s.ServeHTTP(w, r)
		if w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/share" || body.Len() != 0 {
			t.Errorf("from %q: %d to %q with %d bytes unread", from, w.Code, w.Header().Get("Location"), body.Len())
		}
	}
	if got := call(s, "http://localhost/share"); got.Code != http.StatusOK {
		t.Errorf("the screen answers %d", got.Code)
	}
}
