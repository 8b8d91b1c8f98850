package book

import "kerfside/calc/journal/fold"

// watchesOf tells each fire watch. Who watched is known to the phone alone that began it;
// on any other paper there is a line to sign.
func (b *book) watchesOf(view fold.JobView) Section {
	s := Section{Title: "Fire watch"}
	for _, w := range view.Watches {
		said := b.date(w.From) + ", from " + b.clock(w.From) + ", not ended yet"
		if !w.Open {
			said = b.date(w.From) + ", " + b.clock(w.From) + " to " + b.until(w.From, max(w.From, w.To))
			if short := w.Ms - (w.To - w.From); short >= minuteMs {
				said += ", " + span(short) + " less than was set"
			}
		}
		if w.Device == b.Device && b.Watcher != "" && w.Device != "" {
			said += ", by " + b.Watcher
		} else {
			s.Sign = []string{"Who watched the fire"}
		}
		s.Says = append(s.Says, said+".")
	}
	return s
}
