package fold

import (
	"cmp"
	"slices"
)

// byBook orders sessions of the book, newest first.
func byBook(a, b *session) int {
	return cmp.Or(cmp.Compare(b.bookRow.Opened, a.bookRow.Opened), cmp.Compare(b.id, a.id))
}

// updateBook puts the sessions that changed in their places in the book. One whose
// opening was removed is gone, with whatever was entered in it; bringing the
// opening back brings it back whole.
func (x *index) updateBook() {
	for _, s := range x.staleSessions {
		v, stood := s.summary(x), s.bookRow
		if stood == nil {
			continue
		}
		if !s.hidden() && stood.Opened == v.Opened && stood.Open == v.Open {
			s.bookRow = v // in the place that it has
			continue
		}
		x.book.remove(s)
		if stood.Open {
			x.open.remove(s)
		}
		s.bookRow = nil
	}
	for _, s := range x.staleSessions {
		x.stale.book, x.stale.days = true, true
		if s.id == "" || s.hidden() || s.bookRow != nil {
			continue
		}
		s.bookRow = s.summary(x)
		x.book.put(s)
		if s.bookRow.Open {
			x.open.put(s)
		}
	}
	x.staleSessions = x.staleSessions[:0]
}

// bookPage is how many sessions a page of the book holds that is asked for, and
// bookTop how many the view book does: that is made and stored anew at each tap.
const (
	bookPage = 100
	bookTop  = 25
)

// Book is the list of sessions, newest first.
type Book struct {
	Sessions []Session `json:"sessions"`
	Total    int       `json:"total"`
}

// Book returns at most limit sessions that come after the session before in the
// book; "" begins at the newest, limit 0 is a page.
func (f *Fold) Book(before string, limit int) Book {
	if limit <= 0 || limit > 10*bookPage {
		limit = bookPage
	}
	x := f.settled()
	all := x.book.all()
	v := Book{Sessions: []Session{}, Total: len(all)}
	if s := x.sessions[before]; s != nil && s.bookRow != nil {
		i, _ := slices.BinarySearchFunc(all, s, byBook)
		all = all[i+1:]
	}
	for _, s := range all[:min(limit, len(all))] {
		v.Sessions = append(v.Sessions, *s.bookRow)
	}
	return v
}
