package journal

import (
	"cmp"
	"slices"

	"kerfside/calc/order"
)

// bookPage is how many sessions the view book holds.
const bookPage = 100

// guidePage is how many goings through a guide the view guides holds.
const guidePage = 50

// Book is the list of sessions, newest first.
type Book struct {
	Sessions []Session `json:"sessions"`
	Total    int       `json:"total"`
}

// book returns all sessions, newest first. One whose opening was removed is
// gone, with whatever was entered in it; bringing the opening back brings it
// back whole.
func (x *index) book() []Session {
	list := []Session{}
	for id, s := range x.sessions {
		if id == "" || s.gone() {
			continue
		}
		list = append(list, s.summary(x))
	}
	order.Sort(list, func(a, b Session) int { return cmp.Or(cmp.Compare(b.Opened, a.Opened), cmp.Compare(b.ID, a.ID)) })
	return list
}

// gone reports whether nothing of the session is to be shown.
func (s *session) gone() bool {
	opened, hidden := 0, 0
	for _, e := range s.moves {
		if e.kind == "session.opened" {
			opened++
			if e.hidden {
				hidden++
			}
		}
	}
	return opened > 0 && opened == hidden || len(standing(s.entries)) == 0
}

// Book returns at most limit sessions that come after the session before in the
// book; "" begins at the newest, limit 0 is the length of the view.
func (f *Fold) Book(before string, limit int) Book {
	if limit <= 0 || limit > 10*bookPage {
		limit = bookPage
	}
	all := f.ix().book()
	v := Book{Total: len(all)}
	if before != "" {
		if i := slices.IndexFunc(all, func(s Session) bool { return s.ID == before }); i >= 0 {
			all = all[i+1:]
		}
	}
	v.Sessions = all[:min(limit, len(all))]
	return v
}

// Guides is how far guides were gone through, the last touched first.
type Guides struct {
	Progress []Progress `json:"progress"`
}

// Guides returns at most limit goings through a guide.
func (f *Fold) Guides(limit int) Guides {
	x := f.ix()
	list := []Progress{}
	for key, g := range x.guides {
		if len(standing(g.opened))+len(standing(g.answers)) > 0 && key.guide != gateGuide {
			list = append(list, g.progress(x, key))
		}
	}
	order.Sort(list, func(a, b Progress) int {
		return cmp.Or(cmp.Compare(b.Last, a.Last), cmp.Compare(a.In, b.In), cmp.Compare(a.Guide, b.Guide))
	})
	return Guides{list[:min(limit, len(list))]}
}
