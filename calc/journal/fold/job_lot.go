package fold

import "kerfside/calc/order"

// Lot are pieces of one cut that were told as done together, with the arcs since those
// told before them.
type Lot struct {
	Cut        string
	Session    string
	Pieces     int64
	Ms, Starts int64
}

// Lots returns the lots of a job that have an arc, the oldest first. Pieces that are told
// with no arc since the last belong to those; arcs after the last piece told belong to
// a piece that is not done.
func (f *Fold) Lots(id string) []Lot {
	x := f.settled()
	j := x.jobs[x.same.of(id)]
	if j == nil {
		return nil
	}
	var all []Lot
	for _, s := range j.byOpening(x) {
		all = append(all, s.lots(x)...)
	}
	return all
}

// lots returns those of a session of a job.
func (s *session) lots(x *index) []Lot {
	var told []*entry
	for _, e := range visible(s.entries) {
		if e.counts("cut.done") && x.same.of(e.about) == s.job.id {
			told = append(told, e)
		}
	}
	order.Sort(told, byPlace)
	list := s.stretches(x)
	var all []Lot
	last := map[string]int{} // of each cut, its last lot
	used := make([]bool, len(list))
	for _, e := range told {
		lot := Lot{Cut: e.body.Text("cut"), Session: s.id, Pieces: e.pieces}
		any := false
		for i, st := range list {
			if used[i] || st.cut != lot.Cut || st.start >= e.when() {
				continue
			}
			used[i], any = true, true
			lot.Ms, lot.Starts = lot.Ms+st.stop-st.start, lot.Starts+st.starts
		}
		before, known := last[lot.Cut]
		switch {
		case any:
			last[lot.Cut] = len(all)
			all = append(all, lot)
		case known:
			all[before].Pieces += lot.Pieces
		}
	}
	return all
}
