package server

import (
	"bytes"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
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
	if out := post(s, strings.NewReader(request(exchange.Mark{}, note, photo))); out.Code != 200 {
		t.Fatalf("push: %s", out.Body)
	}
	if _, err := s.store.Erase(t.Context(), crewID, "Qk3vZ0mJ8cW1xT5rLb2hYA", "", "", start); err != nil {
		t.Fatal(err)
	}
	if _, kind := ask(phone, "GET", photoPath(file), nil); kind != problem.NotFound {
		t.Errorf("get: %s, want not-found", kind)
	}
	if w, kind := ask(phone, "PUT", photoPath(file), bytes.NewReader(file)); kind != problem.Refused {
		t.Errorf("put again: %d %s, want refused", w.Code, kind)
	}
	old := post(s, strings.NewReader(request(exchange.Mark{}))).Body.String()
	if !strings.Contains(old, "Ak3vZ0mJ8cW1xT5rLb2hYA") || strings.Contains(old, "Qk3vZ0mJ8cW1xT5rLb2hYA") {
		t.Errorf("an older app is handed\n%s", old)
	}
	gone := strings.Replace(request(exchange.Mark{}), `"count"`, `"gone":"","count"`, 1)
	if all := post(s, strings.NewReader(gone)).Body.String(); !strings.Contains(all, `"erased":true,"photo":"`+store.PictureName(file)) || strings.Contains(all, "photo.added") {
		t.Errorf("this app is handed\n%s", all)
	}
}

// TestOwnerErases: what an owner erases is gone from the next exchange of every
// phone of that crew, the audit says who did it, and another crew's entry of the
// same id stays.
func TestOwnerErases(t *testing.T) {
	p := newCast(t)
	stranger, member, owner := p.askers[2], p.askers[3], p.askers[4]
	if out := stranger.send("POST", "/api/journal/sync", syncOf(p.other, note(1))); out.Code != 200 {
		t.Fatal(out.Body)
	}
	erase := func(id string) (int, string, problem.Kind) {
		out := owner.send("DELETE", "/api/entries/"+id, "")
		return out.Code, strings.TrimSpace(out.Body.String()), kind(out)
	}
	if code, body, _ := erase(castEntry); code != 200 || body != `{"entries":1,"picture":false}` {
		t.Fatalf("erase = %d %s", code, body)
	}
	if code, _, kind := erase(castEntry); code != 422 || kind != problem.Conflict {
		t.Errorf("erase again = %d %s, want 422 conflict", code, kind)
	}
	removed := line("removed000000000000000", event.StampOf(start), start, "phone-b", "void", "", map[string]any{"of": castEntry, "on": true, "why": "the name of a man"})
	if out := member.send("POST", "/api/journal/sync", syncOf(crewID, removed)); out.Code != 200 {
		t.Fatal(out.Body)
	}
	if code, body, _ := erase(castEntry); code != 200 || body != `{"entries":1,"picture":false}` {
		t.Errorf("erase what a phone said of it later = %d %s", code, body)
	}
	if code, _, kind := erase("nobody"); code != 404 || kind != problem.NotFound {
		t.Errorf("erase what is not there = %d %s, want 404 not-found", code, kind)
	}
	stub := fmt.Sprintf(`"kind":%q`, event.ErasedKind)
	taken := func(who client, crew string) string {
		head := strings.Replace(syncOf(crew), `"count"`, `"gone":"","count"`, 1)
		return who.send("POST", "/api/journal/sync", head).Body.String()
	}
	if got := taken(member, crewID); !strings.Contains(got, stub) || strings.Contains(got, "note.added") || strings.Contains(got, "a man") {
		t.Errorf("a member takes in\n%s", got)
	}
	if got := taken(stranger, p.other); strings.Contains(got, stub) || !strings.Contains(got, "note.added") {
		t.Errorf("another crew takes in\n%s", got)
	}
	lines, err := p.server.store.AuditLines(t.Context(), crewID, 1)
	if want := (store.AuditLine{At: start, What: store.Erased, Who: "owner", About: castEntry}); err != nil || len(lines) != 1 || lines[0] != want {
		t.Errorf("the audit says %+v, want %+v; %v", lines, want, err)
	}
}
