package server

import (
	"fmt"
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// TestOwnerForgets: an owner is told what goes, then asks until nothing is left; a
// phone that has synced before hears of it bit by bit, and the server's log does not
// say which phone it was.
func TestOwnerForgets(t *testing.T) {
	p := newShop(t)
	p.server.erasures = 7 // lines of the list in a reply; each entry has two
	owner, lost := p.join(crewID, store.Owner, "boss"), p.join(crewID, store.Member, "phone-b")
	var events []string
	for i := range 12 {
		events = append(events, strings.Replace(note(i), `"device":"phone-a"`, `"device":"phone-b"`, 1))
	}
	if out := lost.send("POST", "/api/journal/sync", syncOf(crewID, events...)); out.Code != 200 {
		t.Fatal(out.Body)
	}
	if out := lost.send("GET", "/api/devices/boss/entries", ""); out.Code != 403 {
		t.Errorf("a member counts: %d", out.Code)
	}
	if out := owner.send("GET", "/api/devices/phone-b/entries", ""); out.Code != 200 || strings.TrimSpace(out.Body.String()) != `{"entries":12,"pictures":0}` {
		t.Errorf("told beforehand: %d %s", out.Code, out.Body)
	}
	if out := owner.send("DELETE", "/api/devices/boss/entries", ""); kind(out) != problem.Refused {
		t.Errorf("a phone forgets itself: %d %s", out.Code, out.Body)
	}
	p.log.Reset()
	if out := owner.send("DELETE", "/api/devices/phone-b/entries", ""); out.Code != 200 || strings.TrimSpace(out.Body.String()) != `{"entries":12,"left":0}` {
		t.Fatalf("forgotten: %d %s", out.Code, out.Body)
	}
	if text := p.log.String(); !strings.Contains(text, "forgotten") || strings.Contains(text, "phone-b") {
		t.Errorf("the log says %s", text)
	}
	if out := lost.send("POST", "/api/journal/sync", syncOf(crewID)); kind(out) != problem.NoToken {
		t.Errorf("the phone syncs: %d %s", out.Code, out.Body)
	}
	if out := owner.send("GET", "/api/devices", ""); strings.Contains(out.Body.String(), "phone-b") {
		t.Errorf("the list has it: %s", out.Body)
	}
	if out := owner.send("DELETE", "/api/devices/phone-b/entries", ""); out.Code != 404 {
		t.Errorf("once more: %d", out.Code)
	}
	// A phone at the journal's end is told of all, in several replies.
	state, _ := p.server.store.State(crewID)
	told, digest := 0, ""
	for replies := 0; ; replies++ {
		body := fmt.Sprintf(`{"proto":1,"crew":%q,"now":%d,"gen":0,"at":{"n":%d,"h":"%v"},"gone":%q,"count":0}`+"\n", crewID, start, state.Max, state.Head, digest)
		out := owner.send("POST", "/api/journal/sync", body)
		if out.Code != 200 || replies > 10 {
			t.Fatalf("%d %s", out.Code, out.Body)
		}
		told += strings.Count(out.Body.String(), `"erased":true`)
		head := strings.SplitN(out.Body.String(), "\n", 2)[0]
		_, next, _ := strings.Cut(head, `"gone":"`)
		if next, _, _ = strings.Cut(next, `"`); next == digest {
			if told != 12 || replies < 3 || digest != p.server.store.ErasuresDigest(crewID) {
				t.Errorf("told of %d in %d replies, to %s", told, replies, digest)
			}
			return
		}
		digest = next
	}
}
