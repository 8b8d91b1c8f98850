package server

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"kerfside/calc/journal"
	"kerfside/server/store"
)

// world is one run of the simulation: a server with the real handler and the
// real store, phones, and a story of what happened to them.
type world struct {
	seed    uint64
	rand    *rand.Rand
	now     int64 // true time, ms
	skew    int64 // the server's clock minus it
	server  *Server
	store   *store.Store
	opened  int
	phones  []*phone
	copies  []disk // of phones, to be restored
	saved   []int64
	tapped  map[string]bool   // raws that must be everywhere in the end
	ever    map[string]bool   // all raws that were ever tapped
	bad     map[string]bool   // raws that no server may take
	clashes int               // ids that two phones used
	given   map[string]string // id → o in this history of the server
	story   []string
	bug     *plant
}

// plant is a bug that is planted to see that the simulation finds it; nil is
// none.
type plant struct{ name string }

func (p *plant) is(name string) bool { return p != nil && p.name == name }

const crewID = "N0sD1w2aRtY7uIo9PqLm3g"

func newWorld(t testing.TB, seed uint64, bug *plant) *world {
	w := &world{seed: seed, rand: rand.New(rand.NewPCG(seed, 7)), now: 1760731116544, bug: bug,
		tapped: map[string]bool{}, ever: map[string]bool{}, bad: map[string]bool{}, given: map[string]string{}}
	w.server = &Server{now: func() time.Time { return time.UnixMilli(w.now + w.skew) }, log: slog.New(slog.NewTextHandler(io.Discard, nil))}
	t.Cleanup(func() { w.store.Close() })
	if err := w.open(); err != nil {
		t.Fatal(err)
	}
	for i := range 3 + w.rand.IntN(6) {
		p := newPhone(fmt.Sprintf("phone-%c", 'a'+i), 0)
		if w.rand.IntN(3) == 0 {
			p.skew = w.jump()
		}
		w.phones = append(w.phones, p)
	}
	return w
}

// open opens an empty store in memory for the server.
func (w *world) open() error {
	w.opened++
	s, err := store.Open(fmt.Sprintf("file:/sim-%d-%p-%d?vfs=memdb", w.seed, w, w.opened), store.Options{Crew: crewID})
	if err != nil {
		return err
	}
	w.store, w.server.store = s, s
	return nil
}

func (w *world) tell(format string, args ...any) {
	w.story = append(w.story, fmt.Sprintf("%d ", (w.now-1760731116544)/1000)+fmt.Sprintf(format, args...))
}

// jump is how far a clock may be off, from seconds to ten years.
func (w *world) jump() int64 {
	return (w.rand.Int64N(2001) - 1000) * []int64{1, 1000, 86_400_000, 315_360_000}[w.rand.IntN(4)]
}

// step lets one thing happen.
func (w *world) step() error {
	w.now += w.rand.Int64N(600_000)
	p := w.phones[w.rand.IntN(len(w.phones))]
	switch n := w.rand.IntN(100); {
	case n < 40:
		return w.taps(p, 1+w.rand.IntN(4))
	case n < 42:
		return w.taps(p, 100+w.rand.IntN(250))
	case n < 72:
		return w.sync(p, w.fault())
	case n < 74:
		return w.clash(p)
	case n < 78:
		return w.land(p)
	case n < 82:
		_, err := p.work(w.rand.IntN(2) == 0)
		return err
	case n < 85:
		w.tell("%s restarts", p.name)
		return p.restart()
	case n < 88:
		p.skew = w.jump()
		w.tell("%s sets its clock off by %d ms", p.name, p.skew)
	case n < 90:
		w.skew = w.jump() / 10 // at most a year
		w.tell("server's clock is off by %d ms", w.skew)
	case n < 92:
		w.copies = append(w.copies, p.disk.copy())
		w.tell("%s is copied", p.name)
	case n < 94 && len(w.copies) > 0:
		return w.restorePhone(p)
	case n < 95:
		return w.wipe(p)
	case n < 97:
		state, _ := w.store.State(crewID)
		w.saved = append(w.saved, state.Max)
		w.tell("server is backed up at %d", state.Max)
	case n < 99 && len(w.saved) > 0:
		return w.restoreServer()
	default:
		return w.clash(p)
	}
	return nil
}

// fault picks what goes wrong with an exchange.
func (w *world) fault() string {
	faults := []string{"", "", "", "", "lost", "reply lost", "reply cut", "twice", "held", "timeout", "portal", "crash", "cut", "busy"}
	return faults[w.rand.IntN(len(faults))]
}

// taps lets a phone write events.
func (w *world) taps(p *phone, n int) error {
	for range n {
		w.now += w.rand.Int64N(30_000)
		raw := p.tap(w.now, w.event(p), w.id())
		if _, err := journal.Decode([]byte(raw)); err != nil {
			w.bad[raw] = true
			w.tell("%s writes an event that the server must refuse", p.name)
			continue
		}
		w.tapped[raw], w.ever[raw] = true, true
	}
	w.tell("%s taps %d times, clock %v", p.name, n, p.disk.clock)
	return nil
}

func (w *world) id() string {
	var b [16]byte
	for i := range b {
		b[i] = byte(w.rand.Uint32())
	}
	return base64.RawURLEncoding.EncodeToString(b[:])
}

// sync makes one exchange with the server and lets a fault happen to it.
func (w *world) sync(p *phone, fault string) error {
	f := p.read(w.now)
	if f.body == "" { // two servers, it thinks; a person starts it again
		p.disk.meta.Stopped, p.disk.meta.Rewinds = nil, nil
		return nil
	}
	body := f.body
	if w.bug.is("acknowledged before answer") {
		for _, id := range f.x.Sent {
			r := p.disk.records[id]
			r.N, r.Unsent = max(1, p.disk.meta.Cursor), 0
			p.disk.put(r)
		}
	}
	switch fault {
	case "lost", "crash":
		w.tell("%s sends %d at %d: %s", p.name, len(f.x.Sent), f.x.Meta.Cursor, fault)
		if fault == "crash" {
			return p.restart()
		}
		f.x.GotAt = w.now + p.skew
		p.apply(f.x, journal.Apply(f.x), w.bug)
		return nil
	case "portal":
		f.x.Status, f.x.Reply, f.x.GotAt = 200, "<html>Sign in to the yard's network</html>\n", w.now+p.skew
		p.apply(f.x, journal.Apply(f.x), w.bug)
		return nil
	case "busy":
		f.x.Status, f.x.Reply, f.x.GotAt = 503, "upstream is down\n", w.now+p.skew
		p.apply(f.x, journal.Apply(f.x), w.bug)
		return nil
	case "cut":
		body = body[:w.rand.IntN(len(body))]
	}
	status, reply := w.post(body)
	if status == http.StatusConflict && w.bug.is("rewound ignored") {
		status, reply = 200, w.ignoreRewound(body)
	}
	if fault == "twice" {
		status, reply = w.post(body)
	}
	w.now += w.rand.Int64N(5000)
	f.x.GotAt = w.now + p.skew
	switch fault {
	case "reply lost", "timeout":
		f.x.Timeout = fault == "timeout"
	case "reply cut":
		f.x.Status, f.x.Reply = status, reply[:w.rand.IntN(len(reply)+1)]
	default:
		f.x.Status, f.x.Reply = status, reply
	}
	w.tell("%s sends %d at %d (gen %d): %s status %d, %d bytes back", p.name, len(f.x.Sent), f.x.Meta.Cursor, f.x.Meta.Gen, fault, status, len(f.x.Reply))
	if fault == "held" {
		p.held = append(p.held, f)
		return nil
	}
	return w.take(p, f)
}

// take applies a reply; the planted bugs of the phone's transaction are here.
func (w *world) take(p *phone, f *flight) error {
	c := journal.Apply(f.x)
	if w.bug.is("cursor saved before events") && len(c.Put) > 0 && w.rand.IntN(4) == 0 {
		p.disk.meta = c.Meta // and the app is killed before the events are written
		return p.restart()
	}
	w.tell("  %s: in %d, out %d, cursor %d of %d, unsend %d, aside %d, rewinding %t", p.name, c.In, c.Out, c.Meta.Cursor, c.Meta.Max, len(c.Unsend), len(c.Aside), c.Meta.Rewinding)
	p.apply(f.x, c, w.bug)
	return nil
}

// land applies a reply that was held back while others came.
func (w *world) land(p *phone) error {
	if len(p.held) == 0 {
		return nil
	}
	f := p.held[0]
	p.held = p.held[1:]
	w.tell("%s takes in a reply that was late", p.name)
	return w.take(p, f)
}

// post sends a body through the real handler.
func (w *world) post(body string) (int, string) {
	body, undo := w.onRequest(body)
	r := httptest.NewRequest(http.MethodPost, "/api/journal/sync", strings.NewReader(body))
	out := httptest.NewRecorder()
	w.server.as(store.Device{Crew: crewID}, w.server.syncJournal).ServeHTTP(out, r)
	return out.Code, w.onReply(body, undo(out.Body.String()))
}

// held returns every event that a phone or the server holds. What only a copy of
// a phone holds counts as lost until that copy is brought back.
func (w *world) held() (map[string]bool, error) {
	all := map[string]bool{}
	for _, p := range w.phones {
		for _, r := range p.disk.records {
			all[r.Raw] = true
		}
	}
	rows, err := w.rows()
	for _, r := range rows {
		all[string(r.Raw)] = true
	}
	return all, err
}

// lose does something that may destroy events, and strikes from what must
// survive those that nobody holds any more. An event that was entered again
// under another id counts as held.
func (w *world) lose(destroy func() error) error {
	before, err := w.held()
	if err != nil {
		return err
	}
	if err := destroy(); err != nil {
		return err
	}
	after, err := w.held()
	if err != nil {
		return err
	}
	for raw := range w.tapped {
		if stands(before, raw) && !stands(after, raw) {
			delete(w.tapped, raw)
		}
	}
	return nil
}

// stands reports whether raw is among all, under its id or entered again.
func stands(all map[string]bool, raw string) bool {
	if all[raw] {
		return true
	}
	_, again, err := journal.Reenter([]byte(raw))
	return err == nil && all[string(again)]
}

// wipe empties a phone, as a browser that evicts its storage does.
func (w *world) wipe(p *phone) error {
	w.tell("%s is wiped", p.name)
	return w.lose(func() error {
		fresh := newPhone(p.name, p.skew)
		p.disk = fresh.disk
		return p.restart()
	})
}

// restorePhone brings a copy of some phone back onto p, or onto a new phone that
// goes on beside the first as its clone.
func (w *world) restorePhone(p *phone) error {
	i := w.rand.IntN(len(w.copies))
	d := w.copies[i].copy()
	if w.rand.IntN(2) == 0 && len(w.phones) < 9 {
		p = newPhone(fmt.Sprintf("clone-%d", len(w.phones)), w.jump())
		w.phones = append(w.phones, p)
	}
	w.tell("%s gets a copy", p.name)
	return w.lose(func() error {
		p.disk = d
		return p.restart()
	})
}

// restoreServer brings the server back to an earlier arrival.
func (w *world) restoreServer() error {
	n := w.saved[w.rand.IntN(len(w.saved))]
	rows, err := w.rows()
	if err != nil {
		return err
	}
	if n > int64(len(rows)) {
		return nil
	}
	w.tell("server is restored to %d of %d", n, len(rows))
	w.saved = []int64{n}
	return w.lose(func() error {
		old := w.store
		if err := w.open(); err != nil {
			return err
		}
		w.given = map[string]string{}
		var pushes []journal.Push
		for _, r := range rows[:n] {
			e, err := journal.Decode(r.Raw)
			if err != nil {
				return err
			}
			pushes = append(pushes, journal.Push{Event: e, O: r.O, Sum: r.Sum})
		}
		_, err := w.store.Append(wContext, store.Batch{Crew: crewID, Now: 1 << 47, Events: pushes})
		return errors.Join(err, old.Close())
	})
}

// clash gives two phones an event of one id with different bytes.
func (w *world) clash(p *phone) error {
	other := w.phones[w.rand.IntN(len(w.phones))]
	if other == p {
		return nil
	}
	id := w.id()
	for _, q := range []*phone{p, other} {
		raw := q.tap(w.now, func(id string, t journal.Stamp, wall int64) (string, string) {
			return id, line(id, t, wall, q.device, "note.added", "", map[string]any{"text": "clash on " + q.name})
		}, id)
		w.tapped[raw], w.ever[raw] = true, true
	}
	w.clashes++
	w.tell("%s and %s write different events under %s", p.name, other.name, id)
	return nil
}

// rows returns all that the server holds.
func (w *world) rows() ([]store.Row, error) {
	var all []store.Row
	for {
		page, err := w.store.After(wContext, crewID, int64(len(all)), 1000, 1<<30)
		if err != nil || len(page) == 0 {
			return all, err
		}
		all = append(all, page...)
	}
}

// line writes an event as the phone's JavaScript does.
func line(id string, t journal.Stamp, wall int64, device, kind, session string, body map[string]any, more ...any) string {
	var b bytes.Buffer
	fmt.Fprintf(&b, `{"id":%q,"t":"%v","wall":[%d,60],"device":%q,"kind":%q,"v":1`, id, t, max(wall, 0), device, kind)
	if session != "" {
		fmt.Fprintf(&b, `,"in":%q`, session)
	}
	for i := 0; i+1 < len(more); i += 2 {
		value, _ := json.Marshal(more[i+1])
		fmt.Fprintf(&b, `,%q:%s`, more[i], value)
	}
	text, _ := json.Marshal(body)
	fmt.Fprintf(&b, `,"body":%s}`, text)
	return b.String()
}

// deskCall makes a call as the worker does, through JSON both ways.
func deskCall[Out any](d *journal.Desk, name string, in any) (Out, error) {
	var out Out
	text, err := json.Marshal(in)
	if err != nil {
		return out, err
	}
	v, err := d.Call(name, text)
	if err != nil {
		return out, err
	}
	if text, err = json.Marshal(v); err != nil {
		return out, err
	}
	return out, json.Unmarshal(text, &out)
}
