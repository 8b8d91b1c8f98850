package book

import (
	"strconv"

	"kerfside/calc/journal/fold"
	"kerfside/calc/unit"
)

// workOf tells when it was worked, and how long the arc burned.
func (b *book) workOf(view fold.JobView) Section {
	s := Section{Title: "Work"}
	if len(view.Work) == 0 {
		s.Says = []string{"Nothing of it was begun yet."}
		return s
	}
	for _, w := range view.Work {
		said := b.date(w.Opened) + ", " + b.clock(w.Opened) + " to " + b.until(w.Opened, w.Closed)
		if w.Open {
			said = b.date(w.Opened) + ", from " + b.clock(w.Opened) + ", still open"
		}
		s.Says = append(s.Says, said+", "+b.rig(w.Rig)+".")
	}
	s.Figures = []Figure{{Label: "At work, to the last cut", Text: span(workedMs(view))}, {Label: "Arc time", Text: span(view.Ms)}, {Label: "Starts", Text: strconv.FormatInt(view.Starts, 10)}}
	if view.Drains > 0 {
		s.Figures = append(s.Figures, Figure{Label: "Trap drained", Text: unit.Count(view.Drains, "time", "times")})
	}
	return s
}

// until is a time of day, with its date where that is another than from's.
func (b *book) until(from, to int64) string {
	if b.Zone.at(from).Number == b.Zone.at(to).Number {
		return b.clock(to)
	}
	return b.date(to) + ", " + b.clock(to)
}

// workedMs is how long the job took to its last arc, to the minute: what happened after
// that is watched or driven, and long times without an arc are not of the job.
func workedMs(view fold.JobView) int64 {
	ms := view.Loose.Elapsed
	for _, c := range view.Cuts {
		ms += c.Elapsed
	}
	return (ms + minuteMs/2) / minuteMs * minuteMs
}

// cutsOf tells of each cut of the list how many pieces are done.
func (b *book) cutsOf(view fold.JobView) Section {
	s := Section{Title: "What was cut"}
	for _, c := range view.Cuts {
		said := "Not on the list"
		if row := textsOf(c.Row); len(row) > 0 && !c.Removed {
			said = sayRow(row)
		} else if len(row) > 0 {
			said = sayRow(row) + " (taken off the list)"
		}
		done := "done"
		switch {
		case c.Done == 0:
			done = "not done"
		case c.Done != c.Count && !c.Removed:
			done = strconv.FormatInt(c.Done, 10) + " of " + strconv.FormatInt(c.Count, 10) + " done"
		case c.Removed:
			done = strconv.FormatInt(c.Done, 10) + " done"
		}
		s.Says = append(s.Says, strconv.Itoa(len(s.Says)+1)+". "+said+": "+done)
	}
	if view.Loose.Arcs > 0 {
		s.Says = append(s.Says, "Besides, arcs that belong to no cut of the list: "+span(view.Loose.Ms)+".")
	}
	return s
}
