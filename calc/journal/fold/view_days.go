package fold

import (
	"cmp"
	"slices"

	"kerfside/calc/journal/event"
)

// dayPage is how many items a page of the days holds that is asked for, and dayTop
// how many the view days does: that is made and stored anew at each tap. A page ends
// as well where its entries come to dayBytes, for a photo brings a small picture.
const (
	dayPage  = 100
	dayTop   = 40
	dayBytes = 64 << 10
)

// Days is what happened, newest first: sessions, and what was entered outside of any.
// Whoever shows it parts it into days, by the clock of his own place.
type Days struct {
	Items []DayItem `json:"items"`
	More  bool      `json:"more"` // older ones follow
}

// DayItem is a session or an entry outside of any.
type DayItem struct {
	Session *Session     `json:"session,omitempty"`
	Line    *SessionLine `json:"line,omitempty"`
}

// DayMark is where an item stands among the days: when it began, and its id. A page
// begins behind one; the zero mark is in front of the newest.
type DayMark struct {
	At int64  `json:"at"`
	ID string `json:"id"`
}

// isBehind reports whether an item at that mark comes after one at m.
func (m DayMark) isBehind(at int64, id string) bool {
	return m.ID == "" || cmp.Or(cmp.Compare(at, m.At), cmp.Compare(id, m.ID)) < 0
}

// mark is where the item stands.
func (d DayItem) mark() DayMark {
	if d.Session != nil {
		return DayMark{At: d.Session.Opened, ID: d.Session.ID}
	}
	return DayMark{At: d.Line.At, ID: d.Line.ID}
}

// isOutside reports whether an entry belongs to no session by what it says itself; a
// gate may be found one. What a phone sets for itself alone is nothing that happened, and
// a job's list is changed row by row where it stands.
func (x *index) isOutside(e *entry) bool {
	k := event.KindOf(e.kind)
	return e.in == "" && !(onSession(e.kind) && e.about != "") && !(k != nil && (k.About == "device" || k.Name == "job.set"))
}

// Days returns at most limit items that come after the mark before; limit 0 is a page.
func (f *Fold) Days(before DayMark, limit int) Days { return f.FindDays(DayFilter{}, before, limit) }

// FindDays returns those of them that a filter asks for. A page that says that more follow
// has one more of these at least.
func (f *Fold) FindDays(filter DayFilter, before DayMark, limit int) Days {
	if limit <= 0 || limit > 10*dayPage {
		limit = dayPage
	}
	x := f.settled()
	find := newFinder(x, filter)
	sessions := x.book.all()
	i, _ := slices.BinarySearchFunc(sessions, before, func(s *session, m DayMark) int {
		if m.isBehind(s.bookRow.Opened, s.id) {
			return 1
		}
		return -1
	})
	sessions = sessions[i:]
	entries := x.outside.all()
	n, _ := slices.BinarySearchFunc(entries, before, func(e *entry, m DayMark) int {
		if m.isBehind(e.when(), e.id) {
			return -1
		}
		return 1
	})
	entries = entries[:n]
	v := Days{Items: []DayItem{}}
	for bytes := 0; ; {
		for len(entries) > 0 && !(x.hasOwnDayLine(entries[len(entries)-1]) && find.entry(entries[len(entries)-1])) {
			entries = entries[:len(entries)-1]
		}
		for len(sessions) > 0 && !find.session(sessions[0]) {
			sessions = sessions[1:]
		}
		if len(sessions) == 0 && len(entries) == 0 {
			return v
		}
		if v.More = len(v.Items) >= limit || bytes >= dayBytes; v.More {
			return v
		}
		if len(entries) == 0 || len(sessions) > 0 && isNewer(sessions[0], entries[len(entries)-1]) {
			v.Items = append(v.Items, DayItem{Session: sessions[0].bookRow})
			sessions = sessions[1:]
			continue
		}
		line := x.sessionLine(entries[len(entries)-1])
		v.Items = append(v.Items, DayItem{Line: &line})
		bytes += len(line.Body)
		entries = entries[:len(entries)-1]
	}
}

// hasOwnDayLine reports whether an entry outside of sessions is listed by itself: a gate
// is not that was found a session.
func (x *index) hasOwnDayLine(e *entry) bool { return e.session == nil && x.hasOwnLine(e) }

// isNewer reports whether a session stands in front of an entry among the days.
func isNewer(s *session, e *entry) bool {
	return !(DayMark{At: e.when(), ID: e.id}).isBehind(s.bookRow.Opened, s.id)
}
