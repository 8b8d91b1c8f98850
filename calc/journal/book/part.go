package book

import (
	"encoding/json"
	"strconv"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
)

// part reports one part: what it has done, how its wear goes on, how long such parts
// last, and where it was.
func (b *book) part() (Report, error) {
	p, err := b.fold.Part(b.ID)
	if err != nil {
		return Report{}, err
	}
	r := Report{Title: "Part"}
	if len(p.Fits) == 0 {
		r.Says = []string{"It was read, and never said to be fitted."}
		return r, nil
	}
	last := p.Fits[len(p.Fits)-1]
	in := last.To == 0
	r.Title = capital(slot(last.Slot))
	state := "In " + b.rig(last.Rig) + " since " + b.day(last.From) + "."
	if !in {
		state = "Came out of " + b.rig(last.Rig) + " " + b.day(last.To) + "."
		if last.Why != "" {
			state = "Came out of " + b.rig(last.Rig) + " " + b.day(last.To) + ": " + reason(last.Why) + "."
		}
	}
	s := Section{Figures: []Figure{{Label: "Arc time", Text: span(p.Ms), Main: true}, {Label: "Starts", Text: strconv.FormatInt(p.Starts, 10), Main: true}}}
	for _, w := range p.Check {
		r.Cautions = append(r.Cautions, capital(w.Msg)+".")
	}
	worn, words := b.wear(p, last)
	r.Says = append(words, state)
	r.Sections = append(r.Sections, s)
	r.Sections = append(r.Sections, worn...)
	r.Sections = append(r.Sections, b.lifeOf(p, last)...)
	r.Sections = append(r.Sections, b.partHistory(p))
	if in {
		with := map[string]string{"rig": last.Rig, "slot": last.Slot, "part": p.Part}
		r.Actions = []Action{
			{Label: "Fitted a new one", Act: "new-part", With: with, Ask: b.asksOfNew(last.Rig, last.Slot)},
			{Label: "Taken out", Act: "pulled", With: with, Ask: []Ask{whyAsk()}},
		}
	}
	return r, nil
}

// partHistory is where the part was and what was read of it, the newest first.
func (b *book) partHistory(p fold.Part) Section {
	type moment struct {
		at  int64
		row Row
	}
	s := Section{Title: "History"}
	var all []moment
	for _, f := range p.Fits {
		all = append(all, moment{f.From, Row{Title: "Fitted to " + b.rig(f.Rig), Says: []string{b.when(f.From)}}})
		if f.To > 0 {
			why := "Taken out"
			if f.Why != "" {
				why += ": " + reason(f.Why)
			}
			all = append(all, moment{f.To, Row{Title: why, Says: []string{b.when(f.To), "after " + span(f.Ms) + " of arc there"}}})
		}
	}
	for _, read := range p.Readings {
		all = append(all, moment{read.At, Row{Title: "Read: " + b.reading("", event.ReadBody(read.Body), 0), Says: []string{b.when(read.At), "after " + span(read.Ms) + " of arc"}, Photo: b.photoOf(read.Body)}})
	}
	for i := range all { // few: the newest first, what came first of one moment last
		for j := i; j > 0 && all[j].at >= all[j-1].at; j-- {
			all[j], all[j-1] = all[j-1], all[j]
		}
	}
	for _, m := range all {
		s.Rows = append(s.Rows, m.row)
	}
	return s
}

// when is a day and a time.
func (b *book) when(ms int64) string { return capital(b.day(ms)) + ", " + b.clock(ms) }

// photoOf is the photo that a reading was read off, nil if there is none.
func (b *book) photoOf(reading json.RawMessage) *Photo {
	if p := b.fold.Photo(event.ReadBody(reading).Text("photo")); p != nil {
		return &Photo{ID: p.ID, Body: p.Body}
	}
	return nil
}
