package book

import (
	"fmt"

	"kerfside/calc/ics"
)

// evening is when a trap is drained at the end of a working day, by the clock on the wall.
const evening = "17:00"

// calendar writes what is due by a date, the drain at the end of each day and the fire
// watches that run, for the phone's own calendar: it reminds when this app is shut.
// What is due by arc or by hours at work has no date, and is left out.
func (b *book) calendar(Act) (Done, error) {
	var events []ics.Event
	left := 0
	for _, d := range b.upkeepOf() {
		about, name := "upkeep."+d.rig+"."+d.word, d.name+", "+b.rig(d.rig)
		switch {
		case d.at > 0:
			events = append(events, ics.Due(about, b.stamp(d.at)[:len("2026-11-30")], name+": due", b.saysDue(d)[1]))
		case d.word == "drain":
			events = append(events, ics.Daily(about, b.stamp(b.Now)[:len("2026-11-30")], evening, 1, name+": drain", "Bleed the receiver too. "+b.saysDue(d)[1]))
		default:
			left++
		}
	}
	for _, w := range b.fold.Now().Watch {
		if w.Ends > b.Now && !w.Running {
			events = append(events, ics.FireWatch("watch."+w.ID, w.From, w.Ends, "Fire watch, "+b.rig(w.Rig), "An arc starts it anew: then take the file again."))
		}
	}
	text, err := ics.Calendar(events, b.Now)
	if err != nil {
		return Done{}, err
	}
	d := Done{Name: "kerfside-upkeep.ics", Text: text, Type: "text/calendar"}
	if left > 0 {
		d.Said = fmt.Sprintf("Saved. %d tasks have no date yet.", left)
	}
	return d, nil
}
