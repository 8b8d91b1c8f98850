package book

import (
	"strconv"
	"strings"

	"kerfside/calc/unit"
)

// due reports in a line what is due.
func (b *book) due() (Report, error) {
	if b.Coming > 0 {
		return Report{Title: "Upkeep", Says: []string{"Older entries are still coming"}}, nil
	}
	return Report{Title: "Upkeep", Says: []string{b.dueLine(b.upkeepOf())}}, nil
}

// upkeep reports what is due, by rig.
func (b *book) upkeep() (Report, error) {
	r := Report{Title: "Upkeep"}
	all := b.upkeepOf()
	r.Says = []string{b.dueLine(all)}
	last := ""
	for _, d := range all {
		if d.rig != last || len(r.Sections) == 0 {
			r.Sections = append(r.Sections, Section{Title: b.rig(d.rig), Actions: b.upkeepActions(d.rig, all)})
			last = d.rig
		}
		s := &r.Sections[len(r.Sections)-1]
		row := Row{Title: d.name, Says: b.saysDue(d), Action: b.doneAction(d)}
		switch {
		case d.isDue():
			row.Tag = "due"
		case d.used >= soon:
			row.Tag = "soon"
		}
		i := len(s.Rows) // what is due stands first
		for i > 0 && row.Tag == "due" && s.Rows[i-1].Tag != "due" {
			i--
		}
		s.Rows = append(s.Rows[:i], append([]Row{row}, s.Rows[i:]...)...)
	}
	if len(all) == 0 {
		r.Says = []string{"No rig is known yet. Enter one to keep its upkeep."}
		r.Actions = []Action{{Label: "Rigs", Href: "/rigs"}}
		return r, nil
	}
	r.Sections = append(r.Sections, Section{Says: []string{"The machine's and the compressor's book come first: enter what they say under How often.", "At work counts the time of sessions: so long the compressor may have run."},
		Actions: []Action{{Label: "Into the phone's calendar", Act: "calendar"}}})
	if t := b.upkeepTable(); len(t.Rows) > 0 {
		r.Sections = append(r.Sections, Section{Title: "When it was done", Folded: true, Table: &t})
	}
	return r, nil
}

// dueLine is what is due, in a line.
func (b *book) dueLine(all []due) string {
	var names, next []string
	never := 0
	for _, d := range all {
		name := lower(d.name)
		if len(b.rigUpkeep()) > 1 {
			name += ", " + b.rig(d.rig)
		}
		switch {
		case d.isDue():
			names = append(names, name)
		case d.used >= soon:
			next = append(next, name)
		case d.never:
			never++
		}
	}
	switch {
	case len(names) > 2:
		return "Due: " + names[0] + ", and " + strconv.Itoa(len(names)-1) + " more."
	case len(names) > 0:
		return "Due: " + strings.Join(names, "; ") + "."
	case len(next) > 0:
		return "Soon: " + next[0] + "."
	case never > 0 && never == len(all):
		return "Nothing was ever logged: nobody knows what is due."
	case never > 0:
		return "Nothing that is known is due; " + unit.Count(never, "task was", "tasks were") + " never logged."
	}
	return "Nothing is due."
}
