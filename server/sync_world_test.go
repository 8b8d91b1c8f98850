package server

import (
	"database/sql"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/server/store"
)

// world is one run of the simulation: a server with the real handler and the
// real store, phones, and a story of what happened to them.
type world struct {
	seed      uint64
	rand      *rand.Rand // of this step alone, so that a step can be left out and the others stay
	now       int64      // true time, ms
	skew      int64      // the servers' clock minus it
	big       bool       // phones also enter hundreds at once
	hosts     []*host    // the server, and at times a second one under its name
	opened    int
	page      int // arrivals in a reply
	phones    []*phone
	other     *host // of another crew
	copies    []copied
	strays    []stray
	tapped    map[string]bool // raws that must be everywhere in the end
	ever      map[string]bool // all raws that were ever tapped in the crew or in none
	foreign   map[string]bool // raws of the other crew
	bad       map[string]bool // raws that no server may take
	clashes   int             // ids that two phones used
	erased    map[string]bool // raws that an owner erased, and what they would be entered again as
	erasedIDs map[string]bool
	telling   bool
	story     []string
	bug       *plant
}

// host is one server.
type host struct {
	crew   string
	server *Server
	store  *store.Store
	file   *sql.DB           // what the store keeps
	saved  []int64           // numbers at which it was backed up
	given  map[string]string // id → o in this history
	seen   int64             // arrivals of it that were checked
	chain  event.Chain       // at seen
}

// copied is a backup of a phone.
type copied struct {
	crew string
	disk memory
}

// stray is a request that the network delivers once more, later.
type stray struct {
	host *host
	body string
}

// plant is a bug that is planted to see that the simulation finds it; nil is
// none.
type plant struct{ name string }

func (p *plant) is(name string) bool { return p != nil && p.name == name }

const (
	crewID   = "N0sD1w2aRtY7uIo9PqLm3g"
	otherID  = "Wr5Xb8kLz1TfQe3nGh7jVc"
	simBegin = 1760731116544
)

func newWorld(seed uint64, bug *plant) (*world, error) {
	w := &world{seed: seed, now: simBegin, bug: bug,
		tapped: map[string]bool{}, ever: map[string]bool{}, foreign: map[string]bool{}, bad: map[string]bool{}, erased: map[string]bool{}, erasedIDs: map[string]bool{}}
	w.turn(0)
	w.page = []int{5, 20, 80}[seed%3]
	w.big = w.rand.IntN(5) == 0
	h, err := w.newHost(crewID)
	if err != nil {
		return nil, err
	}
	w.hosts = []*host{h}
	if w.other, err = w.newHost(otherID); err != nil {
		return nil, errors.Join(err, w.close())
	}
	for i := range 3 + w.rand.IntN(6) {
		p := newPhone(fmt.Sprintf("phone-%c", 'a'+i), 0, bug)
		p.reach, p.old = w.page, i == 1
		if w.rand.IntN(3) == 0 {
			p.skew = w.jump()
		}
		p.crew = []string{crewID, crewID, crewID, crewID, crewID, "", "", otherID}[w.rand.IntN(8)]
		w.phones = append(w.phones, p)
	}
	return w, nil
}

// turn gives step number i its own chances.
func (w *world) turn(i int) { w.rand = rand.New(rand.NewPCG(w.seed, uint64(i))) }

// newHost opens a server with an empty store in memory.
func (w *world) newHost(crew string) (*host, error) {
	w.opened++
	path := fmt.Sprintf("file:/sim-%d-%p-%d?vfs=memdb", w.seed, w, w.opened)
	s, err := store.Open(path, store.Options{Crew: crew, Erased: w.erasedPath(), Stretch: 1 + int(w.seed%40)})
	if err != nil {
		return nil, err
	}
	file, err := sql.Open("sqlite3", path)
	if err != nil {
		return nil, errors.Join(err, s.Close())
	}
	now := func() time.Time { return time.UnixMilli(w.now + w.skew) }
	return &host{crew: crew, store: s, file: file, given: map[string]string{},
		server: &Server{store: s, now: now, log: slog.New(slog.NewTextHandler(io.Discard, nil)), page: w.page, erasures: 1 + int(w.seed%7), early: w.early()}}, nil
}

// early is what the next server has of early arrivals: little, so that each stage has
// several pages, or none at all, as an earlier version.
func (w *world) early() store.EarlyLimits {
	if (int(w.seed)+w.opened)%5 == 0 {
		return store.EarlyLimits{Spare: 1 << 40}
	}
	return store.EarlyLimits{Spare: int64(w.seed % 30), Recent: 5 + int64(w.seed%50), Things: 3, Stands: 6, Open: 2, Page: 1 + int(w.seed%9), Size: 3000}
}

func (h *host) close() error { return errors.Join(h.file.Close(), h.store.Close()) }

// close ends all servers.
func (w *world) close() error {
	var err error
	hosts := w.hosts
	if w.other != nil {
		hosts = append(hosts, w.other)
	}
	for _, h := range hosts {
		err = errors.Join(err, h.close())
	}
	if gone := os.Remove(w.erasedPath()); !errors.Is(gone, fs.ErrNotExist) {
		err = errors.Join(err, gone)
	}
	return err
}

func (w *world) tell(format string, args ...any) {
	if w.telling {
		w.story = append(w.story, fmt.Sprintf("%6d s  ", (w.now-simBegin)/1000)+fmt.Sprintf(format, args...))
	}
}

// jump is how far a clock may be off, from seconds to ten years.
func (w *world) jump() int64 {
	return (w.rand.Int64N(2001) - 1000) * []int64{1, 1000, 86_400_000, 315_360_000}[w.rand.IntN(4)]
}

func (w *world) phone() *phone { return w.phones[w.rand.IntN(len(w.phones))] }

// step lets one thing happen.
func (w *world) step() error {
	w.now += w.rand.Int64N(600_000)
	p := w.phone()
	switch n := w.rand.IntN(100); {
	case n < 2 && w.big:
		return w.taps(p, 100+w.rand.IntN(250))
	case n == 2 && w.rand.IntN(6) == 0:
		return w.forget(p)
	case n == 2:
		return w.erase()
	case n < 38:
		return w.taps(p, 1+w.rand.IntN(4))
	case n < 68:
		return w.sync(p, w.rand.IntN(2), w.fault())
	case n < 69:
		return w.clash(p)
	case n < 71:
		return w.join(p, w.rand.IntN(4) == 0)
	case n < 75:
		return w.land(p)
	case n < 80:
		return w.fold(p)
	case n < 83:
		w.tell("%s restarts", p.name)
		p.restart()
	case n < 86:
		p.skew = w.jump()
		w.tell("%s sets its clock off by %d ms", p.name, p.skew)
	case n < 88:
		w.skew = w.jump() / 10 // at most a year
		w.tell("the server's clock is off by %d ms", w.skew)
	case n < 90:
		if p.crew != "" { // a copy from before it joined may join elsewhere, and nobody can know
			w.copies = append(w.copies, copied{p.crew, p.disk.copy()})
			w.tell("%s is copied", p.name)
		}
	case n < 92 && len(w.copies) > 0:
		return w.restorePhone(p)
	case n < 93:
		return w.wipe(p)
	case n < 95:
		h := w.hosts[0]
		state, _ := h.store.State(crewID)
		h.saved = append(h.saved, state.Max)
		w.tell("the server is backed up at %d", state.Max)
	case n == 96 && len(w.hosts) == 1 && w.rand.IntN(2) == 0:
		return w.moveServer()
	case n < 97:
		return w.restoreServer()
	case n < 98:
		return w.secondServer()
	case n < 99:
		return w.oneServerLess()
	default:
		return w.deliverStray()
	}
	return nil
}

// taps lets a phone write events.
func (w *world) taps(p *phone, n int) error {
	for range n {
		w.now += w.rand.Int64N(30_000)
		raw := p.tap(w.now, w.event(p), w.id())
		if _, err := event.Decode([]byte(raw)); err != nil {
			w.bad[raw] = true
			w.tell("%s writes an event that the server must refuse", p.name)
			continue
		}
		w.note(p, raw)
	}
	w.tell("%s writes %d, its clock is at %v", p.name, n, p.disk.clock)
	return nil
}

// note files what a phone wrote with its crew.
func (w *world) note(p *phone, raw string) {
	if p.crew == otherID {
		w.foreign[raw] = true
		return
	}
	w.tapped[raw], w.ever[raw] = true, true
}

func (w *world) id() string {
	var b [16]byte
	for i := range b {
		b[i] = byte(w.rand.Uint32())
	}
	return base64.RawURLEncoding.EncodeToString(b[:])
}

// fold lets a tab fold what is new; it may be killed before it stored its segments.
func (w *world) fold(p *phone) error {
	b, err := p.tab(w.rand.IntN(2))
	if err != nil {
		return err
	}
	if err := p.foldNew(b, w.rand.IntN(2) == 0); err != nil {
		return err
	}
	if w.rand.IntN(6) == 0 {
		w.tell("%s is killed after a fold", p.name)
		p.restart()
		return nil
	}
	p.storeSegments(b)
	return nil
}

// post sends a body through the real handler.
func (w *world) post(h *host, body string) (int, string) {
	body, undo := w.onRequest(h, body)
	r := httptest.NewRequest(http.MethodPost, "/api/journal/sync", strings.NewReader(body))
	out := httptest.NewRecorder()
	h.server.as(store.Device{Crew: h.crew}, h.server.syncJournal).ServeHTTP(out, r)
	return out.Code, w.onReply(h, body, undo(out.Body.String()))
}
