package fold

import (
	"slices"
	"strings"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// session is a stretch of work, from its opening to its closing.
type session struct {
	id         string
	fields     register
	moves      []*entry             // session.opened and session.closed
	entries    []*entry             // all that was entered in it, and its own events
	priorGates []*entry             // gates that were answered before it was opened
	timelines  map[string]*timeline // its arcs, by rig
	sums       sums

	cached  *Session // its summary; nil if something changed since
	bookRow *Session // its summary as the book lists it, nil if the book does not
	job     *job     // of whose list its cuts are, nil if of none
	opening *opening // its opening as gates find it, nil if it was never opened
	working working  // when it was at work, as last computed

	lookedIn *found // what is looked for in it, as last computed; nil until somebody looks
}

// Session is a session in short, as the book lists it.
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
	Parts   int    `json:"parts"`  // fitted
	Drains  int    `json:"drains"` // of the trap
	Notes   int    `json:"notes"`  // and photos
	Entries int    `json:"entries"`
	Fails   int    `json:"fails"` // failed checks that are not cleared
}

// onSession reports whether events of that kind are about a session itself.
func onSession(kind string) bool { return strings.HasPrefix(kind, "session.") }

// session returns the session of that id, a new one if need be.
func (x *index) session(id string) *session {
	s := x.sessions[id]
	if s == nil {
		s = &session{id: id, fields: register{}, timelines: map[string]*timeline{}}
		x.sessions[id] = s
		x.staleSessions = append(x.staleSessions, s)
	}
	return s
}

// invalidateSession drops what was computed from a session.
func (x *index) invalidateSession(s *session) {
	if s.cached != nil {
		s.cached = nil
		x.staleSessions = append(x.staleSessions, s)
	}
}

var sessionFamily = family{kinds: []string{"session.opened", "session.closed", "session.set"}, add: (*index).addSession, drop: (*index).dropSession}

// addSession takes an event about a session itself.
func (x *index) addSession(e *entry) {
	s := x.session(x.same.of(e.about))
	was := s.rig(x)
	s.fields.set(e)
	if e.kind != "session.set" {
		s.moves = append(s.moves, e)
	}
	x.invalidateSession(s)
	x.refile(s, was)
}

// dropSession takes an event about a session itself out again.
func (x *index) dropSession(e *entry) {
	s := x.session(x.same.of(e.about))
	was := s.rig(x)
	s.fields.unset(e)
	s.moves = without(s.moves, e)
	x.invalidateSession(s)
	x.refile(s, was)
}

// refile files the entries of a session anew that belong to its rig, if that is another
// than it was.
func (x *index) refile(s *session, was string) {
	if s.rig(x) == was {
		return
	}
	x.gate = nil
	for _, e := range s.entries {
		if k := event.KindOf(e.kind); k != nil && k.About != "session" && k.Lasts != event.OfThings && k.Says("rig") {
			x.unfile(e)
			x.file(e)
		}
	}
}

// rig returns the session's rig.
func (s *session) rig(x *index) string { return x.same.of(s.fields.text("rig")) }

// timeline returns the timeline of the session's arcs of a rig, a new one if need be.
func (s *session) timeline(rig string) *timeline {
	t := s.timelines[rig]
	if t == nil {
		t = newTimeline()
		s.timelines[rig] = t
	}
	return t
}

// when returns when the session was opened first and, unless the last move
// opened it again, when it was closed. A session of which only entries are here
// begins with the first of them.
func (s *session) when() (opened, closed int64, open bool) {
	moves := visible(s.moves)
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
	opened, any := earliest(visible(s.entries))
	return opened, closed, len(moves) == 0 && any
}

// hidden reports whether nothing of the session is to be shown.
func (s *session) hidden() bool {
	opened, hidden := 0, 0
	for _, e := range s.moves {
		if e.kind == "session.opened" {
			opened++
			if e.hidden {
				hidden++
			}
		}
	}
	return opened > 0 && opened == hidden || !slices.ContainsFunc(s.entries, func(e *entry) bool { return !e.hidden })
}

// summary returns the session in short. What it points at is replaced, never changed.
func (s *session) summary(x *index) *Session {
	if s.cached != nil {
		return s.cached
	}
	v := Session{ID: s.id, Title: s.fields.text("title"), Rig: s.rig(x), Site: x.same.of(s.fields.text("site")), Job: x.same.of(s.fields.text("job")),
		Entries: s.sums.entries, Cuts: s.sums.cuts, Fails: s.sums.fails, Parts: s.sums.parts, Drains: s.sums.drains, Notes: s.sums.notes}
	v.Opened, v.Closed, v.Open = s.when()
	for _, t := range s.timelines {
		ms, starts := t.total()
		v.Ms, v.Starts, v.Arcs = v.Ms+ms, v.Starts+starts, v.Arcs+len(t.union())
	}
	s.cached = &v
	return s.cached
}
