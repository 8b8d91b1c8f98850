package server

import (
	"compress/gzip"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
	"kerfside/server/store"
)

const start = 1760731116700 // the server's clock in these tests, ms

// syncServer returns a server with an empty store on disk.
func syncServer(t *testing.T) *Server {
	db, err := store.Open(filepath.Join(t.TempDir(), "journal.db"), store.Options{Crew: crewID})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	now := func() time.Time { return time.UnixMilli(start) }
	return &Server{store: db, now: now, log: slog.New(slog.NewTextHandler(io.Discard, nil)), limits: newLimits(now)}
}

// phoneA is the phone that these tests sync from.
var phoneA = store.Device{Crew: crewID, ID: "phone-a", Role: store.Member}

// as is a handler behind the gate that access.go puts before it.
func (s *Server) as(who store.Device, f func(http.ResponseWriter, *http.Request, store.Device) error) http.Handler {
	return s.handle(func(w http.ResponseWriter, r *http.Request) error { return f(w, r, who) })
}

// post sends a body to the sync and returns the answer.
func post(s *Server, body io.Reader) *httptest.ResponseRecorder {
	out := httptest.NewRecorder()
	s.as(phoneA, s.syncJournal).ServeHTTP(out, httptest.NewRequest("POST", "/api/journal/sync", body))
	return out
}

// request writes a request of these events from a phone at n with chain h.
func request(at exchange.Mark, events ...string) string {
	head, _ := json.Marshal(exchange.RequestHead{Proto: 1, Now: start, At: at, Count: len(events)})
	return string(head) + "\n" + strings.Join(append(events, ""), "\n")
}

// note is an event number i.
func note(i int) string {
	return line(fmt.Sprintf("note%018d", i), event.StampOf(start-1000), start-1000, "phone-a", "note.added", "", map[string]any{"text": i})
}

// TestSyncWorkedExample is the first exchange of calc/journal/protocol.md;
// its sum and its chain were computed with Python's hashlib.
func TestSyncWorkedExample(t *testing.T) {
	s := syncServer(t)
	const raw = `{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","wall":[1760731116544,60],"device":"phone-a","kind":"note.added","v":1,"in":"S7d2mKx0PqLw9Zr4Tt1uVg","body":{"text":"tip changed"}}`
	body := `{"proto":1,"crew":"","now":1760731116600,"gen":0,"at":{"n":0,"h":"00000000000000000000000000000000"},"count":1}` + "\n" + raw + "\n"
	const want = `{"proto":1,"crew":"N0sD1w2aRtY7uIo9PqLm3g","now":1760731116700,"max":1,"backedUp":0}
{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","n":1,"o":"0199f3c0b4000000"}
{"n":1,"o":"0199f3c0b4000000","id":"Qk3vZ0mJ8cW1xT5rLb2hYA","sum":"9eddaf0de18c0a80da4ec01676456b971b6b02fea7a0730c126a5935475bf9d9"}
{"n":1,"h":"2bf3474b71340c9f19a9e7aa6ea08c53"}
`
	if got := post(s, strings.NewReader(body)); got.Code != 200 || got.Body.String() != want {
		t.Errorf("status %d, reply\n%s\nwant\n%s", got.Code, got.Body, want)
	}
	again := post(s, strings.NewReader(body))
	if !strings.Contains(again.Body.String(), `"n":1,"o":"0199f3c0b4000000"}`) || strings.Contains(again.Body.String(), `"max":2`) {
		t.Errorf("sent again: %s", again.Body)
	}
	other := post(s, strings.NewReader(request(exchange.Mark{})))
	if !strings.Contains(other.Body.String(), `{"n":1,"o":"0199f3c0b4000000","raw":`+raw+`}`+"\n") {
		t.Errorf("another phone gets %s", other.Body)
	}
}

func TestSyncRefuses(t *testing.T) {
	ok := note(1)
	for name, c := range map[string]struct {
		body  string
		kind  problem.Kind
		field string
	}{
		"empty body":            {kind: problem.Cut, field: "head"},
		"head without its end":  {body: `{"proto":1}`, kind: problem.Cut, field: "head"},
		"head that is no JSON":  {body: "hello\n", kind: problem.Malformed, field: "head"},
		"newer protocol":        {body: `{"proto":2,"count":0}` + "\n", kind: problem.OldApp, field: "head"},
		"another crew":          {body: `{"proto":1,"crew":"someone-else","count":0}` + "\n", kind: problem.WrongCrew, field: "crew"},
		"crew with a quote":     {body: `{"proto":1,"crew":"a'b","count":0}` + "\n", kind: problem.Malformed, field: "head"},
		"negative count":        {body: `{"proto":1,"count":-1}` + "\n", kind: problem.Malformed, field: "head"},
		"negative cursor":       {body: `{"proto":1,"at":{"n":-1},"count":0}` + "\n", kind: problem.Malformed, field: "head"},
		"huge count":            {body: `{"proto":1,"count":501}` + "\n", kind: problem.TooLarge, field: "count"},
		"one event missing":     {body: strings.Replace(request(exchange.Mark{}, ok), `"count":1`, `"count":2`, 1), kind: problem.Cut, field: "count"},
		"one event too many":    {body: strings.Replace(request(exchange.Mark{}, ok), `"count":1`, `"count":0`, 1), kind: problem.Cut, field: "count"},
		"last event cut":        {body: strings.TrimSuffix(request(exchange.Mark{}, ok), "}\n"), kind: problem.Cut, field: "count"},
		"an event is a list":    {body: request(exchange.Mark{}, ok, "[]"), kind: problem.Malformed, field: "raw"},
		"an event without kind": {body: request(exchange.Mark{}, ok, strings.Replace(note(2), `"kind"`, `"sort"`, 1)), kind: problem.Malformed, field: "kind"},
		"an event too long":     {body: request(exchange.Mark{}, strings.Replace(ok, `"text":1`, `"text":"`+strings.Repeat("x", event.MaxEvent)+`"`, 1)), kind: problem.TooLarge, field: "raw"},
		"bad stamp offered":     {body: request(exchange.Mark{}, `{"o":"tomorrow","raw":`+ok+`}`), kind: problem.Malformed, field: "o"},
		"a cursor to come":      {body: request(exchange.Mark{N: 7, H: event.Chain{1}}, ok), kind: problem.Rewound, field: "at"},
		"a forged chain":        {body: request(exchange.Mark{H: event.Chain{1}}, ok), kind: problem.Rewound, field: "at"},
		"marks and events":      {body: `{"proto":1,"marks":[{"n":0,"h":""}],"count":1}` + "\n" + ok + "\n", kind: problem.Malformed, field: "head"},
	} {
		t.Run(strings.ReplaceAll(name, " ", "-"), func(t *testing.T) {
			s := syncServer(t)
			out := post(s, strings.NewReader(c.body))
			var e problem.Envelope
			if err := json.Unmarshal(out.Body.Bytes(), &e); err != nil || e.Error == nil {
				t.Fatalf("status %d: %s", out.Code, out.Body)
			}
			if e.Error.Kind != c.kind || e.Error.Field != c.field || e.Error.Hint == "" || out.Code != statusOf(c.kind) {
				t.Errorf("status %d, %+v, want %s %s with a hint", out.Code, *e.Error, c.kind, c.field)
			}
			if state, _ := s.store.State(crewID); state.Max != 0 {
				t.Errorf("%d events were stored all the same", state.Max)
			}
		})
	}
}

func TestSyncBodyThatBreaksOff(t *testing.T) {
	s := syncServer(t)
	body := request(exchange.Mark{}, note(1), note(2))
	out := post(s, io.MultiReader(strings.NewReader(body[:len(body)-9]), iotest.ErrReader(io.ErrUnexpectedEOF)))
	if !strings.Contains(out.Body.String(), `"kind":"cut"`) {
		t.Errorf("broken off: %s", out.Body)
	}
	out = post(s, strings.NewReader(strings.Repeat("x", maxSyncBody+1)))
	if out.Code != http.StatusRequestEntityTooLarge || !strings.Contains(out.Body.String(), `"kind":"too-large"`) {
		t.Errorf("too large: status %d, %s", out.Code, out.Body)
	}
	if state, _ := s.store.State(crewID); state.Max != 0 {
		t.Errorf("%d events were stored", state.Max)
	}
}

// TestSyncPages pulls 2,350 events: pages of 1,000, a mark after each 100 and at
// the end of a page.
func TestSyncPages(t *testing.T) {
	s := syncServer(t)
	for i := 0; i < 2350; i += 470 {
		var events []string
		for j := range 470 {
			events = append(events, note(i+j))
		}
		if out := post(s, strings.NewReader(request(exchange.Mark{}, events...))); out.Code != 200 {
			t.Fatal(out.Body)
		}
	}
	at := exchange.Mark{}
	for _, want := range []struct{ arrivals, marks int }{{1000, 10}, {1000, 10}, {350, 4}, {0, 0}} {
		out := post(s, strings.NewReader(request(at)))
		arrivals, marks := strings.Count(out.Body.String(), `"raw":`), strings.Count(out.Body.String(), `"h":`)
		if arrivals != want.arrivals || marks != want.marks {
			t.Errorf("after %d: %d arrivals and %d marks, want %+v", at.N, arrivals, marks, want)
		}
		if marks > 0 {
			list := strings.Split(strings.TrimSpace(out.Body.String()), "\n")
			if err := json.Unmarshal([]byte(list[len(list)-1]), &at); err != nil {
				t.Fatal(err)
			}
		}
	}
	if at.N != 2350 {
		t.Errorf("the last mark is at %d", at.N)
	}
}

// TestSyncNamesTheLastCommonMark: of true, old and forged marks the highest true
// one is named, and nothing follows.
func TestSyncNamesTheLastCommonMark(t *testing.T) {
	s := syncServer(t)
	var events []string
	for i := range 300 {
		events = append(events, note(i))
	}
	post(s, strings.NewReader(request(exchange.Mark{}, events...)))
	chain := func(n int64) event.Chain {
		h, _, err := s.store.At(t.Context(), crewID, n)
		if err != nil {
			t.Fatal(err)
		}
		return h
	}
	for name, c := range map[string]struct {
		marks []exchange.Mark
		want  int64
	}{
		"all true":   {[]exchange.Mark{{}, {N: 100, H: chain(100)}, {N: 300, H: chain(300)}}, 300},
		"last ahead": {[]exchange.Mark{{}, {N: 100, H: chain(100)}, {N: 400, H: event.Chain{4}}}, 100},
		"parted":     {[]exchange.Mark{{}, {N: 100, H: chain(100)}, {N: 200, H: event.Chain{2}}, {N: 300, H: event.Chain{3}}}, 100},
		"none":       {[]exchange.Mark{{}, {N: 1, H: event.Chain{2}}}, 0},
		"all forged": {[]exchange.Mark{{N: 1, H: event.Chain{2}}}, 0},
	} {
		head, _ := json.Marshal(exchange.RequestHead{Proto: 1, Marks: c.marks})
		out := post(s, strings.NewReader(string(head)+"\n"))
		var reply exchange.ReplyHead
		if err := json.Unmarshal(out.Body.Bytes(), &reply); err != nil || reply.Rewound == nil {
			t.Errorf("%s: %s", name, out.Body)
			continue
		}
		if reply.Rewound.N != c.want || reply.Rewound.H != chain(c.want) {
			t.Errorf("%s: rewound to %+v, want %d", name, *reply.Rewound, c.want)
		}
	}
}

// TestSyncClamps: a phone a year ahead is dated by the server, one behind is
// believed, and the server's time is never behind what it has stored.
func TestSyncClamps(t *testing.T) {
	s := syncServer(t)
	const year = 365 * 86400 * 1000
	ahead := line("ahead00000000000000000", event.StampOf(start+year), start, "phone-a", "note.added", "", map[string]any{})
	behind := line("behind0000000000000000", event.StampOf(start-year), start, "phone-a", "note.added", "", map[string]any{})
	out := post(s, strings.NewReader(request(exchange.Mark{}, ahead, behind))).Body.String()
	for _, want := range []string{
		`"n":1,"o":"` + event.LastStampOf(start).String(), `"n":2,"o":"` + event.StampOf(start-year).String(),
	} {
		if !strings.Contains(out, want) {
			t.Errorf("reply lacks %s:\n%s", want, out)
		}
	}
	s.now = func() time.Time { return time.UnixMilli(start - 5000) }
	out = post(s, strings.NewReader(request(exchange.Mark{}))).Body.String()
	if !strings.Contains(out, fmt.Sprintf(`"now":%d`, start)) || !strings.Contains(out, `"behind":5000`) {
		t.Errorf("clock set back by 5 s: %s", out)
	}
}

func TestSyncZips(t *testing.T) {
	s := syncServer(t)
	r := httptest.NewRequest("POST", "/api/journal/sync", strings.NewReader(request(exchange.Mark{}, note(1))))
	r.Header.Set("Accept-Encoding", "gzip")
	out := httptest.NewRecorder()
	s.as(phoneA, s.syncJournal).ServeHTTP(out, r)
	z, err := gzip.NewReader(out.Body)
	if err != nil || out.Header().Get("Content-Encoding") != "gzip" {
		t.Fatalf("not zipped: %v, %v", out.Header(), err)
	}
	text, err := io.ReadAll(z)
	if err != nil || !strings.HasPrefix(string(text), `{"proto":1`) {
		t.Errorf("unzipped: %q, %v", text, err)
	}
}

// FuzzSync: whatever comes in, the answer is a whole reply or one error of the
// one shape, and the phone's side can take any part of it without harm.
func FuzzSync(f *testing.F) {
	f.Add(request(exchange.Mark{}, note(1), `{"o":"0199f3c0b4000000","raw":`+note(2)+`}`), 100)
	f.Add(`{"proto":1,"marks":[{"n":1,"h":"00"}]}`+"\n", 10)
	db, err := store.Open("file:/fuzz-sync?vfs=memdb", store.Options{Crew: crewID})
	if err != nil {
		f.Fatal(err)
	}
	f.Cleanup(func() { db.Close() })
	s := &Server{store: db, now: func() time.Time { return time.UnixMilli(start) }, log: slog.New(slog.NewTextHandler(io.Discard, nil))}
	f.Fuzz(func(t *testing.T, body string, cut int) {
		out := post(s, strings.NewReader(body))
		if out.Code >= 500 {
			t.Fatalf("status %d: %s", out.Code, out.Body)
		}
		reply := out.Body.String()
		if cut >= 0 && cut < len(reply) {
			reply = reply[:cut]
		}
		c := exchange.Apply(exchange.Exchange{Status: out.Code, Reply: reply})
		for _, r := range c.Put {
			if r.N > c.Meta.Cursor || r.N < 1 {
				t.Fatalf("put %d past the cursor %d", r.N, c.Meta.Cursor)
			}
		}
	})
}
