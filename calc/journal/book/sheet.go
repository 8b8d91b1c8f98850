package book

import "kerfside/calc/journal/fold"

// crewCopy is the copy of a sheet that has the crew's own cost on it; without it in the
// address a sheet is the customer's.
const crewCopy = "crew"

// sheet reports what was done of a job.
func (b *book) sheet() (Report, error) {
	view, err := b.fold.Job(b.ID)
	if err != nil {
		return Report{}, err
	}
	r := b.paper("Job sheet", view)
	own := b.Query["copy"] == crewCopy
	head := &r.Sections[0]
	head.Figures = b.forWhom(view, b.siteOf(view))
	if view.Billed > 0 {
		head.Actions = append(head.Actions, Action{Label: "Not billed after all", Act: "billed", With: map[string]string{"at": ""}})
	} else {
		head.Actions = append(head.Actions, Action{Label: "Mark as billed", Act: "billed", With: map[string]string{"at": "now"}})
	}
	r.Sections = append(r.Sections, b.workOf(view), b.cutsOf(view))
	for _, s := range []Section{b.partsOf(view), b.watchesOf(view), b.checksOf(view), b.faultsOf(view)} {
		if len(s.Says)+len(s.Sign) > 0 {
			r.Sections = append(r.Sections, s)
		}
	}
	if len(view.Photos) > 0 {
		s := Section{Title: "Photos", Screen: own} // on paper the crew's cost has their room
		for _, p := range view.Photos[max(0, len(view.Photos)-mostPhotos):] {
			s.Photos = append(s.Photos, Photo{ID: p.ID, Body: p.Body})
		}
		r.Sections = append(r.Sections, s)
	}
	other := Action{Label: "Show the crew’s copy, with its cost", Href: "/book/sheet/" + b.ID + "?copy=" + crewCopy}
	if own {
		r.Sections = append(r.Sections, b.notesOf(view), b.costOf(view))
		other = Action{Label: "Show the customer’s copy", Href: "/book/sheet/" + b.ID}
	}
	r.Sections = append(r.Sections, Section{Sign: []string{"Seen and taken over: customer, date", "For " + b.crewName("the crew") + ", date"}},
		Section{Title: "What stands on it", Screen: true, Rows: b.onPaper(view, "crew_name", "number", "customer"), Actions: []Action{other, {Label: "The quote", Href: "/book/quote/" + b.ID}, {Label: "The job", Href: "/job/" + b.ID}}})
	return r, nil
}

// mostPhotos is how many photos find room on the page, the newest.
const mostPhotos = 6

// setBilled answers "Mark as billed".
func (b *book) setBilled(in Act) (Done, error) {
	e := Entry{Kind: "job.set", About: b.ID, Body: map[string]any{"billed": nil}}
	said := "Not billed."
	if in.of("at") != "" {
		e.Body["billed"], said = b.Now, "Billed."
	}
	return Done{Said: said, Entries: []Entry{e}}, nil
}

// notesOf are the crew's notes.
func (b *book) notesOf(view fold.JobView) Section {
	s := Section{Title: "Notes"}
	for _, n := range view.Notes {
		s.Says = append(s.Says, b.clock(n.At)+" "+n.Text)
	}
	if len(s.Says) == 0 {
		s.Says = []string{"None."}
	}
	return s
}
