package fold

import "kerfside/calc/order"

// Times are how long the crew takes for what it does beside cutting, by sort.
type Times struct {
	Times []TimeOf `json:"times"`
}

// TimeOf is how long one sort of thing takes, in ms.
type TimeOf struct {
	What string `json:"what"`
	Spread
	Left []LeftOut `json:"left"` // times that were not counted
}

// LeftOut is how many times were not counted, and why: "open", nobody said when it ended;
// "long", longer than anybody works at it; "several", more than one thing was done; "no-cut",
// an arc did not name its cut.
type LeftOut struct {
	Why string `json:"why"`
	N   int    `json:"n"`
}

// Times returns the crew's times with that rig; "" is any.
func (f *Fold) Times(rig string) Times { return f.TimesWithout(rig, "") }

// TimesWithout returns them without the sessions of a job.
func (f *Fold) TimesWithout(rig, job string) Times {
	x := f.settled()
	t := &timing{x: x, rig: x.same.of(rig), without: x.same.of(job), all: map[string][]int64{}, left: map[string]map[string]int{}}
	sessions := x.book.all()
	for _, s := range sessions[:min(newestSessions, len(sessions))] {
		if t.isIn(s.id) {
			t.session(s)
		}
	}
	t.guides()
	t.gates()
	v := Times{Times: []TimeOf{}}
	whats := map[string]bool{}
	for what := range t.all {
		whats[what] = true
	}
	for what := range t.left {
		whats[what] = true
	}
	for _, what := range order.Keys(whats) {
		one := TimeOf{What: what, Spread: spreadOf(t.all[what]), Left: []LeftOut{}}
		for _, why := range order.Keys(t.left[what]) {
			one.Left = append(one.Left, LeftOut{Why: why, N: t.left[what][why]})
		}
		v.Times = append(v.Times, one)
	}
	return v
}
