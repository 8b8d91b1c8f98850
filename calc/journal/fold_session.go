package journal

import (
	"slices"
	"strings"

	"kerfside/calc/order"
)

// session is a spell of work.
type session struct {
	id      string
	fields  register
	moves   []*entry // session.opened and session.closed
	entries []*entry // all that was entered in it, and its own events
	arcs    []*arc
	rigless bool // some entry names no rig and has the session's

	done *Session // computed; nil if something changed since
}

// Session is the line of a session in the book.
type Session struct {
	ID      string `json:"id"`
	Title   string `json:"title"`
	Rig     string `json:"rig"`
	Site    string `json:"site"`
	Job     string `json:"job"`
	Open    bool   `json:"open"`
	Opened  int64  `json:"opened"`
	Closed  int64  `json:"closed"` // 0 while open
	Ms      int64  `json:"ms"`     // arc time
	Starts  int64  `json:"starts"`
	Arcs    int    `json:"arcs"`
	Cuts    int    `json:"cuts"`
	Entries int    `json:"entries"`
	Fails   int    `json:"fails"` // failed checks that are not cleared
}

// onSession reports whether events of that kind are about a session itself.
func onSession(kind string) bool { return strings.HasPrefix(kind, "session.") }

// session returns the session of that id, a new one if need be.
func (x *index) session(id string) *session {
	s := x.sessions[id]
	if s == nil {
		s = &session{id: id, fields: register{}}
		x.sessions[id] = s
	}
	return s
}

// outdate drops what was computed from a session. It makes none: which sessions
// there are must not depend on what came first, or on what was looked at.
func (x *index) outdate(id string) {
	if s := x.sessions[id]; s != nil {
		s.done = nil
	}
}

// list puts an entry on the list of its session.
func (x *index) list(e *entry) {
	id := e.in
	if onSession(e.kind) && e.about != "" {
		id = e.about
	}
	if id == "" {
		return
	}
	s := x.session(x.same.of(id))
	s.entries = append(s.entries, e)
	s.done = nil
}

// addSession takes an event about a session itself.
func (x *index) addSession(e *entry) bool {
	s := x.session(x.same.of(e.about))
	s.fields.set(e)
	if e.kind != "session.set" {
		s.moves = append(s.moves, e)
	}
	x.settled = false
	return !s.rigless
}

// rig returns the session's rig.
func (s *session) rig(x *index) string { return x.same.of(s.fields.text("rig")) }

// when returns when the session was opened first and, unless the last move
// opened it again, when it was closed. A session of which only entries are here
// begins with the first of them.
func (s *session) when() (opened, closed int64, open bool) {
	moves := standing(s.moves)
	order.Sort(moves, byPlace)
	for _, e := range moves {
		open = e.kind == "session.opened"
		if closed = 0; !open {
			closed = e.when()
		}
	}
	if i := slices.IndexFunc(moves, func(e *entry) bool { return e.kind == "session.opened" }); i >= 0 {
		return moves[i].when(), closed, open
	}
	opened, any := earliest(standing(s.entries))
	return opened, closed, len(moves) == 0 && any
}

// summary returns the session's line in the book.
func (s *session) summary(x *index) Session {
	if s.done != nil {
		return *s.done
	}
	v := Session{ID: s.id, Title: s.fields.text("title"), Rig: s.rig(x), Site: x.same.of(s.fields.text("site")), Job: x.same.of(s.fields.text("job"))}
	v.Opened, v.Closed, v.Open = s.when()
	byRig := map[string][]*arc{}
	for _, a := range s.arcs {
		byRig[a.rig] = append(byRig[a.rig], a)
	}
	for _, arcs := range byRig {
		u := union(arcs)
		ms, starts := u.total()
		v.Ms, v.Starts, v.Arcs = v.Ms+ms, v.Starts+starts, v.Arcs+len(u.list)
	}
	for _, e := range standing(s.all(x)) {
		if !x.tells(e) {
			continue
		}
		v.Entries++
		if e.counts("cut.tried") {
			v.Cuts++
		}
		if x.fails(e) {
			v.Fails++
		}
	}
	s.done = &v
	return v
}

// all returns the entries of a session with the gates that were answered before
// it was opened.
func (s *session) all(x *index) []*entry {
	return slices.Concat(x.early[s.id], s.entries)
}

// tells reports whether an entry has a line of its own in the list of its
// session: all but the stop of an arc whose start is there.
func (x *index) tells(e *entry) bool {
	if !e.counts("arc.stopped") {
		return true
	}
	a := x.arcs[e.body.text("of")]
	return a == nil || a.start == nil
}
