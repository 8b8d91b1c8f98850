package server

import (
	"bytes"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"kerfside/calc/journal"
	"kerfside/calc/problem"
	"kerfside/server/store"
)

// TestErasedPicture: a picture whose entry was erased is not handed out, not
// taken again, and an app that knows of no erasures is handed what stands before.
func TestErasedPicture(t *testing.T) {
	s, phone := photoServer(t, 1e6)
	file := asPNG(t, gray(8, 8, 9))
	if w, kind := ask(phone, "PUT", photoPath(file), bytes.NewReader(file)); w.Code != http.StatusNoContent {
		t.Fatalf("put: %d %s", w.Code, kind)
	}
	note := `{"id":"Ak3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b3000000","device":"phone-a","kind":"note.added","v":1,"body":{}}`
	photo := fmt.Sprintf(`{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","device":"phone-a","kind":"photo.added","v":1,"body":{"sha256":%q}}`, store.PictureName(file))
	if out := post(s, strings.NewReader(request(journal.Mark{}, note, photo))); out.Code != 200 {
		t.Fatalf("push: %s", out.Body)
	}
	if _, err := s.store.Erase(t.Context(), crewID, "Qk3vZ0mJ8cW1xT5rLb2hYA", "", start); err != nil {
		t.Fatal(err)
	}
	if _, kind := ask(phone, "GET", photoPath(file), nil); kind != problem.NotFound {
		t.Errorf("get: %s, want not-found", kind)
	}
	if w, kind := ask(phone, "PUT", photoPath(file), bytes.NewReader(file)); kind != problem.Refused {
		t.Errorf("put again: %d %s, want refused", w.Code, kind)
	}
	old := post(s, strings.NewReader(request(journal.Mark{}))).Body.String()
	if !strings.Contains(old, "Ak3vZ0mJ8cW1xT5rLb2hYA") || strings.Contains(old, "Qk3vZ0mJ8cW1xT5rLb2hYA") {
		t.Errorf("an older app is handed\n%s", old)
	}
	gone := strings.Replace(request(journal.Mark{}), `"count"`, `"gone":"","count"`, 1)
	if all := post(s, strings.NewReader(gone)).Body.String(); !strings.Contains(all, `"erased":true,"photo":"`+store.PictureName(file)) || strings.Contains(all, "photo.added") {
		t.Errorf("this app is handed\n%s", all)
	}
}
