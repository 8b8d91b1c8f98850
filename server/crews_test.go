package server

import (
	"database/sql"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
	"kerfside/server/store"
)

// TestCrewsNeverMeet: two crews use everything there is, with equal ids where
// they may choose them; in what one gets, nothing is of the other.
func TestCrewsNeverMeet(t *testing.T) {
	p := newShop(t)
	type side struct {
		client
		crew, invite string
		marks        []string // texts that only this side may see
		got          string
	}
	sides := []*side{{crew: crewID}, {crew: p.other}}
	for i, s := range sides {
		name := fmt.Sprintf("phone-of-side-%d", i)
		s.client = p.join(s.crew, store.Owner, name)
		event := line(fmt.Sprintf("event-of-side-%08d", i), event.StampOf(start), start, name, "note.added", "", map[string]any{"text": fmt.Sprintf("words of side %d", i)})
		if out := s.send("POST", "/api/journal/sync", syncOf("", event, note(7))); out.Code != 200 {
			t.Fatal(out.Body)
		}
		photo := asJPEG(t, gray(16, 16, uint8(9+99*i)))
		if out := s.send("PUT", photoPath(photo), string(photo)); out.Code != 204 {
			t.Fatal(out.Body)
		}
		invite := told[struct{ ID, Link, Code string }](t, s.send("POST", "/api/invites", `{"role":"member"}`))
		s.invite = invite.ID
		s.marks = []string{s.crew, name, fmt.Sprintf("event-of-side-%08d", i), fmt.Sprintf("words of side %d", i), string(photo)}
		p.secret = append(p.secret, invite.Link[strings.Index(invite.Link, "#")+1:], strings.ReplaceAll(invite.Code, "-", ""), invite.Code)
	}
	for i, s := range sides {
		theirs := sides[1-i]
		var all strings.Builder
		for _, out := range []*httptest.ResponseRecorder{
			s.send("POST", "/api/journal/sync", syncOf(s.crew)), s.send("GET", "/api/devices", ""), s.send("GET", "/api/status", ""),
			s.send("GET", photoPath([]byte(s.marks[4])), ""),
		} {
			if out.Code != 200 {
				t.Errorf("side %d: %d %s", i, out.Code, out.Body)
			}
			all.WriteString(out.Body.String())
		}
		if out := s.send("GET", photoPath([]byte(theirs.marks[4])), ""); out.Code != 404 {
			t.Errorf("side %d asks for the other's picture: %d", i, out.Code)
		}
		if out := s.send("DELETE", "/api/invites/"+theirs.invite, ""); out.Code != 204 {
			t.Errorf("side %d takes back an invitation that it cannot know: %d", i, out.Code)
		}
		if out := s.send("DELETE", "/api/devices/"+theirs.id, ""); out.Code != 404 {
			t.Errorf("side %d revokes the other's phone: %d", i, out.Code)
		}
		s.got = all.String()
		for _, mark := range s.marks {
			if !strings.Contains(s.got, mark) {
				t.Errorf("side %d does not see its own %.40q", i, mark)
			}
		}
		for _, mark := range theirs.marks {
			if strings.Contains(s.got, mark) {
				t.Errorf("side %d sees %.40q of the other", i, mark)
			}
		}
	}
	for i, s := range sides {
		if out := s.send("DELETE", "/api/devices/"+s.id, ""); kind(out) != problem.Refused {
			t.Errorf("side %d is not there as it was: %d %s", i, out.Code, out.Body)
		}
	}
	for i := range p.secret {
		if strings.Contains(p.log.String(), p.secret[i]) {
			t.Errorf("the log holds secret %d", i)
		}
	}
	if !strings.Contains(p.log.String(), "a phone joined") || strings.Contains(p.log.String(), "words of side") {
		t.Errorf("the log: %s", p.log.String())
	}
}

// TestInviteOverHTTP: an invitation works once, by link or by code; when it has
// been used, its code was guessed at five times or it is too old, nothing tells
// which. The link of a code that was guessed at still works.
func TestInviteOverHTTP(t *testing.T) {
	p := newShop(t)
	boss, nobody := p.join(crewID, store.Owner, "boss"), client{shop: p}
	type invite struct {
		Link, Code string
		Expires    int64
		QR         struct {
			Size int
			Rows []string
		}
	}
	make := func() invite {
		t.Helper()
		return told[invite](t, boss.send("POST", "/api/invites", `{"role":"member"}`))
	}
	enrol := func(body string) *httptest.ResponseRecorder { return nobody.send("POST", "/api/enrol", body) }
	byLink := func(v invite) string {
		return fmt.Sprintf(`{"secret":%q,"name":"a"}`, strings.TrimPrefix(v.Link, "http://localhost:8480/join#"))
	}
	byCode := func(code string) string { return fmt.Sprintf(`{"code":%q,"name":"a"}`, code) }

	v := make()
	if v.Expires != p.now.Add(10*time.Minute).UnixMilli() || v.QR.Size < 21 || len(v.QR.Rows) != v.QR.Size || len(v.QR.Rows[0]) != v.QR.Size {
		t.Errorf("invitation = %+v", v)
	}
	if out := enrol(byCode(strings.ToLower(v.Code))); out.Code != 201 {
		t.Fatalf("by code: %d %s", out.Code, out.Body)
	}
	answers := map[string]bool{enrol(byCode(v.Code)).Body.String(): true, enrol(byLink(v)).Body.String(): true}

	guessed := make()
	for i := range 5 {
		wrong := guessed.Code[:10] + string("0123456789"[(int(guessed.Code[10])+1+i)%10])
		if wrong == guessed.Code {
			wrong = guessed.Code[:10] + "Z"
		}
		answers[enrol(byCode(wrong)).Body.String()] = true
	}
	answers[enrol(byCode(guessed.Code)).Body.String()] = true
	if out := enrol(byLink(guessed)); out.Code != 201 {
		t.Errorf("by the link of a code that was guessed at: %d %s", out.Code, out.Body)
	}
	answers[enrol(byLink(guessed)).Body.String()] = true

	old := make()
	p.now = p.now.Add(10 * time.Minute)
	answers[enrol(byLink(old)).Body.String()] = true
	answers[enrol(byCode(old.Code)).Body.String()] = true
	answers[enrol(byCode("00000-00000")).Body.String()] = true
	answers[enrol(`{"secret":"AAAAAAAAAAAAAAAAAAAAAA","name":"a"}`).Body.String()] = true
	if len(answers) != 1 {
		t.Errorf("there are %d different answers: %v", len(answers), answers)
	}
	for answer := range answers {
		if !strings.Contains(answer, `"kind":"not-found","field":"code"`) {
			t.Errorf("answer: %s", answer)
		}
	}
	if devices, err := p.server.store.Devices(t.Context(), crewID); err != nil || len(devices) != 3 {
		t.Errorf("phones: %+v, %v, want three", devices, err)
	}
}

func TestEnrolRefuses(t *testing.T) {
	p := newShop(t)
	for name, c := range map[string]struct {
		body string
		kind problem.Kind
	}{
		"empty":                 {``, problem.Malformed},
		"a list":                {`[]`, problem.Malformed},
		"two objects":           {`{"code":"00000-00000","name":"a"}{}`, problem.Malformed},
		"a crew of its":         {`{"code":"00000-00000","name":"a","crew":"` + crewID + `"}`, problem.Malformed},
		"a role":                {`{"code":"00000-00000","name":"a","role":"owner"}`, problem.Malformed},
		"no code":               {`{"name":"a"}`, problem.Missing},
		"both":                  {`{"code":"00000-00000","secret":"AAAAAAAAAAAAAAAAAAAAAA","name":"a"}`, problem.Missing},
		"a short code":          {`{"code":"00000","name":"a"}`, problem.Malformed},
		"no name":               {`{"code":"00000-00000"}`, problem.Malformed},
		"a long name":           {`{"code":"00000-00000","name":"` + strings.Repeat("é", 41) + `"}`, problem.Malformed},
		"a name of a page":      {`{"code":"00000-00000","name":"` + strings.Repeat("\\u00e9", 10_000) + `"}`, problem.Malformed},
		"a name of two lines":   {`{"code":"00000-00000","name":"a\nb"}`, problem.Malformed},
		"a device with a quote": {`{"code":"00000-00000","name":"a","device":"a'b"}`, problem.Malformed},
		"huge":                  {`{"name":"` + strings.Repeat("x", maxAccessBody) + `"}`, problem.TooLarge},
	} {
		if out := (client{shop: p}).send("POST", "/api/enrol", c.body); kind(out) != c.kind {
			t.Errorf("%s: %d %s, want %s", name, out.Code, out.Body, c.kind)
		}
		p.now = p.now.Add(time.Minute)
	}
}

// TestCookie: RFC 6265bis, the prefix __Host- wants Secure, the path / and no domain.
func TestCookie(t *testing.T) {
	p := newShop(t)
	for name, c := range map[string]struct {
		change func(*http.Request)
		want   string
	}{
		"plain loopback": {func(*http.Request) {}, "kerfside-8480=TOKEN; Path=/; Max-Age=34560000; HttpOnly; SameSite=Strict"},
		"https": {func(r *http.Request) {
			*r = *httptest.NewRequest("POST", "https://localhost/api/enrol", r.Body)
			r.Header.Set("X-Kerfside", "1")
		},
			"__Host-kerfside=TOKEN; Path=/; Max-Age=34560000; HttpOnly; Secure; SameSite=Strict\n" +
				"kerfside_crew=" + crewID + "; Path=/; Max-Age=34560000; HttpOnly; Secure; SameSite=Strict"},
	} {
		v, err := p.server.store.Invite(crewID, store.Member, "", start)
		if err != nil {
			t.Fatal(err)
		}
		out := (client{shop: p}).send("POST", "/api/enrol", fmt.Sprintf(`{"secret":%q,"name":"a"}`, v.Secret), c.change)
		cookies := out.Result().Cookies()
		if out.Code != 201 || len(cookies) == 0 {
			t.Fatalf("%s: %d %s", name, out.Code, out.Body)
		}
		if got := strings.Replace(strings.Join(out.Header().Values("Set-Cookie"), "\n"), cookies[0].Value, "TOKEN", 1); got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
		if strings.Contains(out.Body.String(), cookies[0].Value) {
			t.Errorf("%s: the reply shows the token to scripts", name)
		}
	}
}

// TestCookieLastsWithUse: a phone in use gets its cookie anew once a day.
func TestCookieLastsWithUse(t *testing.T) {
	p := newShop(t)
	c := p.join(crewID, store.Member, "phone-a")
	if out := c.send("GET", "/api/devices", ""); len(out.Result().Cookies()) != 0 {
		t.Errorf("at once: %v", out.Result().Cookies())
	}
	p.now = p.now.Add(25 * time.Hour)
	if got := c.send("GET", "/api/devices", "").Result().Cookies(); len(got) != 1 || got[0].Value != c.token {
		t.Errorf("a day later: %v", got)
	}
	if got := c.send("GET", "/api/devices", "").Result().Cookies(); len(got) != 0 {
		t.Errorf("and then: %v", got)
	}
}

func TestRolesAndNames(t *testing.T) {
	p := newShop(t)
	boss, hand := p.join(crewID, store.Owner, "boss"), p.join(crewID, store.Member, "hand")
	type list struct {
		Me      string
		Crew    struct{ ID, Name string }
		Devices []struct {
			ID, Name, Role       string
			Since, Seen, Revoked int64
		}
	}
	if got := told[list](t, hand.send("GET", "/api/devices", "")); got.Me != "hand" || got.Crew.ID != crewID || len(got.Devices) != 1 || got.Devices[0].ID != "hand" {
		t.Errorf("a member sees %+v", got)
	}
	for _, step := range []struct {
		who          client
		method, path string
		body         string
		want         int
	}{
		{who: hand, method: "PATCH", path: "/api/devices/hand", body: `{"name":"Truck 2"}`, want: 200},
		{who: hand, method: "PATCH", path: "/api/devices/hand", body: `{"role":"owner"}`, want: 403},
		{who: hand, method: "PATCH", path: "/api/devices/hand", body: `{"name":"Truck 2","role":"owner"}`, want: 403},
		{who: boss, method: "PATCH", path: "/api/devices/hand", body: `{"role":"king"}`, want: 422},
		{who: boss, method: "PATCH", path: "/api/devices/hand", body: `{}`, want: 422},
		{who: boss, method: "PATCH", path: "/api/devices/hand", body: `{"name":""}`, want: 422},
		{who: boss, method: "PATCH", path: "/api/devices/boss", body: `{"name":"not kept","role":"member"}`, want: 422}, // all or nothing
		{who: boss, method: "PATCH", path: "/api/devices/boss", body: `{"role":"member"}`, want: 422},                   // the last owner
		{who: boss, method: "DELETE", path: "/api/devices/boss", want: 422},
		{who: boss, method: "PATCH", path: "/api/devices/hand", body: `{"role":"owner"}`, want: 200},
		{who: hand, method: "PATCH", path: "/api/devices/boss", body: `{"role":"member"}`, want: 200},
		{who: boss, method: "POST", path: "/api/invites", body: `{"role":"member"}`, want: 403}, // at once
		{who: boss, method: "DELETE", path: "/api/devices/boss", want: 204},                     // leaves
		{who: boss, method: "GET", path: "/api/devices", want: 403},
		{who: hand, method: "DELETE", path: "/api/devices/boss", want: 204}, // again
	} {
		if out := step.who.send(step.method, step.path, step.body); out.Code != step.want {
			t.Errorf("%s: %s %s %s = %d %s, want %d", step.who.id, step.method, step.path, step.body, out.Code, out.Body, step.want)
		}
	}
	got := told[list](t, hand.send("GET", "/api/devices", ""))
	if len(got.Devices) != 2 || got.Devices[0].Revoked != start || got.Devices[0].Name != "boss" || got.Devices[1].Name != "Truck 2" || got.Devices[1].Role != "owner" {
		t.Errorf("in the end: %+v", got)
	}
}

// TestSyncNotesTheRelay: who brought an event is noted, whoever wrote it.
func TestSyncNotesTheRelay(t *testing.T) {
	p := newShop(t)
	if out := p.join(crewID, store.Member, "carrier").send("POST", "/api/journal/sync", syncOf(crewID, note(1))); out.Code != 200 {
		t.Fatal(out.Body)
	}
	db, err := sql.Open("sqlite3", p.path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	var relay string
	if err := db.QueryRow(`SELECT relay FROM event WHERE n = 1`).Scan(&relay); err != nil || relay != "carrier" {
		t.Errorf("relay = %q, %v, want carrier", relay, err)
	}
}

// TestBackupOnTheSameDisk: phones hear of a backup beside the database as one that
// is not elsewhere.
func TestBackupOnTheSameDisk(t *testing.T) {
	p := newCast(t)
	if err := store.NoteBackup(t.Context(), p.path, map[string]int64{crewID: 1}, true); err != nil {
		t.Fatal(err)
	}
	if err := p.server.store.NoteBackups(t.Context()); err != nil {
		t.Fatal(err)
	}
	out := p.askers[3].send("POST", "/api/journal/sync", syncOf(crewID))
	if head, _, _ := strings.Cut(out.Body.String(), "\n"); !strings.Contains(head, `"max":1,"backedUp":0,"sameDisk":1`) {
		t.Errorf("the head of the reply is %s", head)
	}
}
