package book

import (
	"cmp"
	"strconv"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/job"
	"kerfside/calc/journal/fold"
	"kerfside/calc/unit"
)

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

// fittedIn counts the parts that were fitted, by their place.
func fittedIn(view fold.JobView) map[string]int {
	n := map[string]int{}
	for _, p := range view.Parts {
		if p.Kind == "part.fitted" {
			n[p.Slot]++
		}
	}
	return n
}

// partsOf tells the parts that were used.
func (b *book) partsOf(view fold.JobView) Section {
	s := Section{Title: "Parts used"}
	var said []string
	n := fittedIn(view)
	for _, word := range slotOrder {
		if n[word] > 0 {
			said = append(said, unit.Count(n[word], slot(word), slot(word)+"s"))
		}
	}
	if len(said) > 0 {
		s.Says = []string{strings.Join(said, ", ") + "."}
	}
	return s
}

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

// checksOf tells which guides were answered, and what may-i-cut said.
func (b *book) checksOf(view fold.JobView) Section {
	s := Section{Title: "Checks"}
	for _, g := range view.Checks.Guides {
		var results []string
		for _, share := range g.Results {
			results = append(results, strconv.Itoa(int(share.N))+" "+spaced(share.Word))
		}
		said := capital(spaced(g.Guide)) + ": " + strings.Join(results, ", ")
		if g.Fails > 0 {
			said += "; " + unit.Count(g.Fails, "failed check was", "failed checks were") + " not cleared"
		}
		s.Says = append(s.Says, said+".")
	}
	for _, g := range view.Checks.Gates {
		said := "May I cut, " + b.clock(g.At) + ": "
		switch {
		case len(g.Stops) > 0:
			said += unit.Count(len(g.Stops), "stop", "stops")
		case g.Verdict == "conditions":
			said += "yes, with conditions"
		default:
			said += "yes"
		}
		s.Says = append(s.Says, said+".")
		for _, stop := range g.Stops {
			s.Says = append(s.Says, b.sayStop(stop, g.Device))
		}
	}
	return s
}

// sayStop tells a stop: whose it was to clear, and how it was cleared.
func (b *book) sayStop(stop fold.JobStop, device string) string {
	said := capital(stop.Says)
	if stop.By != "" && stop.By != "you" {
		said += ", for " + strings.Replace(stop.By, "you ", "the crew ", 1) + " to clear"
	}
	if stop.Cleared == "" {
		return said + ": not cleared."
	}
	said += ": cleared " + b.clock(stop.ClearedAt)
	if stop.ClearedBy != device {
		said += " on another phone"
	}
	if stop.How != "" {
		said += ", " + stop.How
	}
	return strings.TrimSuffix(said, ".") + "."
}

// faultsOf tells the faults of which a cause was found.
func (b *book) faultsOf(view fold.JobView) Section {
	s := Section{Title: "Faults found"}
	for _, f := range view.Faults {
		said := cause(f.Cause)
		switch {
		case f.Mended:
			said += ", mended"
		case f.Helped != "":
			said += ", mended in part"
		}
		s.Says = append(s.Says, said+".")
	}
	return s
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

// charge is a line of a sum of money.
type charge struct {
	label string
	money int64 // hundredths
}

// costs adds up what a job cost as it was done, by the crew's prices: as job-cost does, but
// for what nobody measured, such as energy. Each line is rounded half up to hundredths, and
// the total is the sum of the lines as they stand.
func (b *book) costs(view fold.JobView) (lines []charge, total int64, missing []string) {
	in := map[string]any{}
	for _, key := range [...]string{"labour", "overhead", "watch_rate", "set_price", "material"} {
		if text := cmp.Or(textOf(view.Fields.Fields[key]), b.setting(key)); text != "" {
			in[key] = text
		}
	}
	r := form.NewReader(job.JobPlan.Calculator(), in)
	perHour := func(key string) float64 { return float64(form.Get[unit.MoneyRate](r, key)) * 3600 * 100 }
	line := func(label string, hundredths int64) {
		if hundredths > 0 {
			lines, total = append(lines, charge{label, hundredths}), total+hundredths
		}
	}
	hours := func(rate float64, ms int64) int64 { return halfUp(rate * float64(ms/minuteMs) / 60) }
	worked := workedMs(view)
	labour, overhead := perHour("labour"), perHour("overhead")
	if labour == 0 {
		missing = append(missing, "What an hour costs is not said: the job’s page asks for it.")
	}
	line("Labour, "+span(worked), hours(labour, worked))
	line("Overhead, "+span(worked), hours(overhead, worked))
	watched := int64(0)
	for _, w := range view.Watches {
		if !w.Open {
			watched += max(0, w.To-w.From)
		}
	}
	watched = (watched + minuteMs/2) / minuteMs * minuteMs
	line("Fire watch, "+span(watched), hours(cmp.Or(perHour("watch_rate"), labour+overhead), watched))
	parts, unpriced := b.partsCost(view, int64(halfUp(float64(form.Get[unit.Money](r, "set_price"))*100)))
	line("Parts", parts)
	if unpriced > 0 {
		missing = append(missing, "The price of "+unit.Count(unpriced, "part", "parts")+" is not said.")
	}
	line("Bought for it", halfUp(float64(form.Get[unit.Money](r, "material"))*100))
	return lines, total, missing
}

// partsCost is what the parts cost that were fitted: each the price of its stock line; of
// tips and electrodes without one a set, of which each has one.
func (b *book) partsCost(view fold.JobView, set int64) (cost int64, unpriced int) {
	prices := map[string]int64{}
	for _, l := range b.fold.Stocks().Lines {
		for _, id := range append([]string{l.ID}, l.Same...) {
			prices[id] = l.Price
		}
	}
	loose := map[string]int{}
	for _, p := range view.Parts {
		if p.Kind != "part.fitted" {
			continue
		}
		if price := prices[p.Line]; price > 0 {
			cost += price
			continue
		}
		loose[p.Slot]++
	}
	sets := max(loose["tip"], loose["electrode"])
	for word, n := range loose {
		if set == 0 || word != "tip" && word != "electrode" {
			unpriced += n
		}
	}
	return cost + set*int64(sets), unpriced
}

// costOf tells what it cost beside what was quoted.
func (b *book) costOf(view fold.JobView) Section {
	s := Section{Title: "Cost, for the crew alone"}
	lines, total, missing := b.costs(view)
	for _, l := range lines {
		s.Figures = append(s.Figures, Figure{Label: l.label, Text: b.money(l.money)})
	}
	s.Figures = append(s.Figures, Figure{Label: "Cost", Text: b.money(total), Main: true})
	if q, ok := quotedFor(view); ok {
		tax := taxOn(q.price, q.tax)
		s.Figures = append(s.Figures, Figure{Label: "Quoted", Text: inCurrency(q.currency, q.price)}, Figure{Label: "Left of it", Text: inCurrency(q.currency, q.price-total), Main: true},
			Figure{Label: "Tax, " + sayRate(q.tax), Text: inCurrency(q.currency, tax)}, Figure{Label: "To bill", Text: inCurrency(q.currency, q.price+tax)})
	}
	s.Says = append(missing, "Energy and driving are not in it.")
	return s
}
