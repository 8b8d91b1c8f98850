package book

import (
	"encoding/json"
	"math"
	"strconv"

	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/job"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/life"
	"kerfside/calc/unit"
	"kerfside/calc/wear"
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

// wear tells how the bore or the pit goes on, by this part's readings and those of such
// parts before it in the same rig: the answer first, then the plot.
func (b *book) wear(p fold.Part, last fold.PartFit) ([]Section, []string) {
	if last.Slot != "tip" && last.Slot != "electrode" {
		return nil, nil
	}
	if len(p.Readings) == 0 {
		return nil, []string{"Nobody has read it yet."}
	}
	w := b.wornSo(p, last)
	newest := p.Readings[len(p.Readings)-1]
	s := Section{Title: "Readings", Says: []string{"Read " + b.day(newest.At) + ": " + b.reading(last.Slot, event.ReadBody(newest.Body), w.fresh) + "."}}
	switch {
	case last.Slot == "tip" && w.fresh == 0:
		return []Section{s}, []string{"The rig does not say how wide its tip is when new: enter its tips to see how the bore goes on."}
	case len(w.points) == 0:
		return []Section{s}, []string{"Its readings fit no such part: read it again."}
	}
	s.Pictures = []form.Picture{b.plotWear(w)}
	s.Cautions = w.cautions
	return []Section{s}, []string{w.says()}
}

// wornPart is a part's wear so far and what is made of it. Wear is a pit in metres, or
// what a bore has grown by as a share of the new one.
type wornPart struct {
	slot     string
	fresh    unit.Length // of the bore; 0 if it is not known
	limit    float64
	points   []form.Point // arc minutes, wear
	so       life.Use     // at the last reading
	since    float64      // arc minutes since it
	out      wear.Outlook
	used     unit.Ratio
	cautions []string
	isOut    bool
}

// wornSo reads the wear of a part off its readings and the crew's others.
func (b *book) wornSo(p fold.Part, last fold.PartFit) wornPart {
	w := wornPart{slot: last.Slot, fresh: b.newBore(last.Rig), isOut: last.To > 0}
	worn := func(body event.Body) (float64, bool) {
		if w.slot == "electrode" {
			um, ok := body.IntIn("pit", 0, 10_000)
			return float64(unit.Length(um) * unit.Micrometre), ok
		}
		bore := boreOf(body)
		if bore == 0 || w.fresh == 0 || wear.CheckReading(w.fresh, bore) != nil {
			return 0, false
		}
		return float64(bore/w.fresh - 1), true
	}
	var others []wear.Reading
	for _, l := range b.fold.NewestLives(mostRead, w.slot)[w.slot] {
		if l.Part == p.Part || l.Rigs[len(l.Rigs)-1] != last.Rig {
			continue
		}
		for i := len(l.Readings) - 1; i >= 0; i-- { // the last one counts: those of one part hang together
			if depth, ok := worn(event.ReadBody(l.Readings[i].Body)); ok && l.Readings[i].Ms+l.Readings[i].Starts > 0 {
				others = append(others, wear.Reading{Starts: float64(l.Readings[i].Starts), Minutes: float64(l.Readings[i].Ms) / minuteMs, Depth: depth})
				break
			}
		}
	}
	var now wear.Reading
	for _, read := range p.Readings {
		if depth, ok := worn(event.ReadBody(read.Body)); ok {
			now = wear.Reading{Minutes: float64(read.Ms) / minuteMs, Starts: float64(read.Starts), Depth: depth}
			w.points = append(w.points, form.Point{now.Minutes, depth})
		}
	}
	if len(w.points) == 0 {
		return w
	}
	w.so, w.since = life.Use{Minutes: now.Minutes, Starts: now.Starts}, float64(p.Ms)/minuteMs-now.Minutes
	if w.slot == "electrode" {
		w.ofPit(now, others)
	} else {
		w.ofBore(now, others, event.ReadBody(p.Readings[len(p.Readings)-1].Body))
	}
	return w
}

// mostRead is how many parts' readings a forecast rests on, the newest.
const mostRead = 60

// ofPit forecasts a pit.
func (w *wornPart) ofPit(now wear.Reading, others []wear.Reading) {
	r := form.NewReader(wear.ElectrodeWear.Calculator(), nil)
	in := wear.ElectrodeInput{Depth: unit.Length(now.Depth), DepthRead: true, Limit: form.Get[unit.Length](r, "limit"), Now: now, Readings: others, Confidence: form.Get[unit.Ratio](r, "confidence")}
	res, err := wear.ComputeElectrode(in)
	w.limit = float64(in.Limit)
	if err != nil {
		return
	}
	w.out, w.used = res.Outlook, res.Used
	w.cautions = wear.OutlookCautions(res.Wear, res.Outlook, "electrode")
}

// ofBore forecasts a bore.
func (w *wornPart) ofBore(now wear.Reading, others []wear.Reading, body event.Body) {
	if w.fresh == 0 {
		return
	}
	r := form.NewReader(wear.TipWear.Calculator(), nil)
	off, _ := body.IntIn("error", 0, 2000)
	in := wear.TipInput{New: w.fresh, Largest: w.fresh * unit.Length(1+now.Depth), Error: unit.Length(off) * unit.Micrometre,
		GrowthLimit: form.Get[unit.Ratio](r, "growth_limit"), OvalLimit: form.Get[unit.Ratio](r, "oval_limit"), Current: 40, Metal: "mild-steel", Speed: form.Get[unit.Speed](r, "speed"),
		Minutes: unit.Duration(now.Minutes) * unit.Minute, Starts: now.Starts, Readings: others, Sure: form.Get[unit.Ratio](r, "confidence")}
	w.limit = float64(in.GrowthLimit)
	res, err := wear.ComputeTip(in)
	if err != nil {
		return
	}
	w.out, w.used = res.Outlook, unit.Ratio(now.Depth/w.limit)
	w.cautions = wear.OutlookCautions(res.Wear, res.Outlook, "tip")
}

// says is what the readings say of how long it still lasts. Only a look tells of a nick
// or of a pit off centre.
func (w *wornPart) says() string {
	look := " Nicks and ovals: only a look tells."
	if w.slot == "electrode" {
		look = " A pit off centre: only a look tells."
	}
	switch {
	case w.used >= 1-1e-9:
		return "Its last reading is at the limit: change it."
	case w.isOut:
		return unit.Say(w.used, "%", unit.InDoubt) + " of its limit was used."
	case !w.out.Forecast:
		return unit.Say(w.used, "%", unit.InDoubt) + " of its limit is used." + look
	}
	return "By its wear it has " + w.left() + " of arc left." + look
}

// left is the arc time that the forecast leaves, from now on and not from the last
// reading, no finer than it is known.
func (w *wornPart) left() string {
	o := w.out
	low, at, high := max(o.MinutesLow-w.since, 0), max(o.MinutesLeft-w.since, 0), max(o.MinutesHigh-w.since, 0)
	switch {
	case (o.Ranged || o.ByReading) && math.IsInf(o.MinutesHigh, 1):
		return "at least " + unit.Say(unit.Duration(low)*unit.Minute, "min", unit.InDoubt)
	case o.Ranged || o.ByReading:
		return job.SayRange(unit.Duration(low)*unit.Minute, unit.Duration(high)*unit.Minute)
	}
	return wear.Some(at) + " min"
}

// plotWear draws the readings, how they go on, and where the limit is.
func (b *book) plotWear(w wornPart) form.Picture {
	y := form.Axis{Label: "grown by", Unit: "%"}
	scale := func(v float64) float64 { return 100 * v }
	if w.slot == "electrode" {
		y = form.Axis{Label: "pit", Unit: "mm"}
		if b.Units == unit.US {
			y.Unit = "in"
		}
		scale = func(v float64) float64 { return unit.Value(unit.Length(v), y.Unit) }
	}
	from := w.points[len(w.points)-1][0]
	at := func(more, v float64) form.Point { return form.Point{from + more, scale(v)} }
	var dots, line, band []form.Point
	for _, p := range w.points {
		dots = append(dots, form.Point{p[0], scale(p[1])})
	}
	end := 1.25 * max(from, 1)
	for _, p := range w.out.Path {
		line, band = append(line, at(p.More, p.At)), append(band, at(p.More, p.High))
		end = max(end, from+p.More)
	}
	for i := range w.out.Path {
		p := w.out.Path[len(w.out.Path)-1-i]
		band = append(band, at(p.More, p.Low))
	}
	var series []form.Series
	if w.out.Ranged && len(line) > 0 {
		series = append(series, form.Series{Name: "range", Band: true, Points: band})
	}
	if len(line) > 0 {
		series = append(series, form.Series{Name: "goes on", Points: line})
	}
	series = append(series, form.Series{Name: "read", Dots: true, Points: dots},
		form.Series{Name: "change", Dashed: true, Points: []form.Point{{0, scale(w.limit)}, {end, scale(w.limit)}}},
		form.Series{Name: "today", Dashed: true, Points: []form.Point{{from + w.since, 0}, {from + w.since, scale(w.limit)}}})
	text := "What was read after so much arc, and where the limit is."
	if w.out.Ranged {
		text = "What was read after so much arc, how it goes on, and where the limit is. The shaded range is that of one reading."
	}
	return form.Plot{Title: "Wear of this " + slot(w.slot), X: form.Axis{Label: "arc on it", Unit: "min"}, Y: y, Series: series, Text: text}.Picture()
}

// lifeOf tells how long such parts last, with today's mark.
func (b *book) lifeOf(p fold.Part, last fold.PartFit) []Section {
	key := livesKeys[last.Slot]
	if key == "" {
		return nil
	}
	known := map[string]string{}
	if addLives(b.fold, last.Rig, known, last.Slot) != nil {
		return nil
	}
	values := map[string]any{"part": last.Slot, "minutes": minutes(p.Ms), "starts": strconv.FormatInt(p.Starts, 10), "units": string(b.Units)}
	if lives := known[key]; lives != "" {
		values["lives"] = lives
	}
	a, err := life.PartLife.Calculator().CalculateValues(values)
	if err != nil {
		return nil
	}
	s := Section{Title: "How long such parts last", Pictures: a.Pictures(), Lengths: a.Lengths(), Cautions: a.Cautions()[:len(a.Cautions())-1]}
	keys := []string{"left", "typical", "b10", "least", "rests_on", "shape_says", "wears"}
	if last.To > 0 {
		keys = keys[1:]
	}
	for _, key := range keys {
		if label, text, ok := a.Told(key); ok {
			s.Figures = append(s.Figures, Figure{Label: label, Text: text})
		}
	}
	return []Section{s}
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

// newBore is the bore of a rig's tip when new, 0 where its fields do not tell.
func (b *book) newBore(rig string) unit.Length {
	fields := map[string]any{}
	for key, raw := range b.rigs[rig].Fields.Fields {
		if text := textOf(raw); text != "" && (key == "tips" || key == "fitted") {
			fields[key] = text
		}
	}
	tip, ok := cutting.FittedTip(form.NewReader(cutting.CutPlan.Calculator(), fields))
	if !ok {
		return 0
	}
	return tip.Orifice
}

// used is how much of its limit a part's last reading has used.
func (b *book) used(rig string, p fold.PartNow) (unit.Ratio, bool) {
	body := event.ReadBody(p.Reading)
	switch p.Slot {
	case "electrode":
		if um, ok := body.IntIn("pit", 0, 10_000); ok {
			limit := form.Get[unit.Length](form.NewReader(wear.ElectrodeWear.Calculator(), nil), "limit")
			return unit.Ratio(unit.Length(um) * unit.Micrometre / limit), true
		}
	case "tip":
		if bore, fresh := boreOf(body), b.newBore(rig); bore > 0 && fresh > 0 {
			limit := form.Get[unit.Ratio](form.NewReader(wear.TipWear.Calculator(), nil), "growth_limit")
			return max(unit.Ratio(bore/fresh-1)/limit, 0), true
		}
	}
	return 0, false
}

// photoOf is the photo that a reading was read off, nil if there is none.
func (b *book) photoOf(reading json.RawMessage) *Photo {
	if p := b.fold.Photo(event.ReadBody(reading).Text("photo")); p != nil {
		return &Photo{ID: p.ID, Body: p.Body}
	}
	return nil
}
