package fold

import "slices"

// bookPage is how many sessions a page of the book holds that is asked for, and
// bookTop how many the view book does: that is made and stored anew at each tap.
const (
	bookPage = 100
	bookTop  = 25
)

// guidePage is how many goings through a guide the view guides holds.
const guidePage = 50

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

// Guides is how far guides were gone through, the last touched first.
type Guides struct {
	Progress []Progress `json:"progress"`
}

// Guides returns at most limit goings through a guide.
func (f *Fold) Guides(limit int) Guides {
	x := f.settled()
	v := Guides{Progress: []Progress{}}
	all := x.guidesByLast.all()
	for _, g := range all[:min(limit, len(all))] {
		v.Progress = append(v.Progress, g.progress(x))
	}
	return v
}
