package book

import (
	"math"

	"kerfside/calc/form"
	"kerfside/calc/job"
	"kerfside/calc/journal/event"
	"kerfside/calc/unit"
	"kerfside/calc/wear"
)

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
