package book

import (
	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/life"
	"kerfside/calc/unit"
	"kerfside/calc/wear"
)

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

// newBore is the bore of a rig's tip when new, 0 where its fields do not tell.
func (b *book) newBore(rig string) unit.Length {
	fields := map[string]any{}
	for key, raw := range b.fieldsOf(rig) {
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
