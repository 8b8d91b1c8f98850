package life

import (
	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

func minutesOf(t float64) unit.Duration { return unit.Duration(t) * unit.Minute }

func putTold(a *form.Answer, key string, t Told) {
	if t.Interval == (Interval{}) {
		form.Put(a, key, minutesOf(t.At))
		return
	}
	form.PutBetween(a, key, minutesOf(t.Low), minutesOf(t.At), minutesOf(t.High))
}

func putLives(a *form.Answer, r PartLifeResult) {
	if r.How != Assumed { // else nothing of the crew's own says when parts go
		putTold(a, "left", r.Left)
		putTold(a, "typical", r.Typical)
		putTold(a, "b10", r.B10)
	}
	if r.Least > 0 {
		form.Put(a, "least", minutesOf(r.Least))
	}
	if r.MeanLeft > 0 {
		form.Put(a, "mean_left", minutesOf(r.MeanLeft))
	}
	start := r.Model.PerStartRange()
	form.PutBetween(a, "per_start", minutesOf(start.Low), minutesOf(r.Model.PerStart()), minutesOf(start.High))
	a.PutWord("rests_on", r.RestsOn())
}

// RestsOn is how much history there is.
func (r PartLifeResult) RestsOn() string {
	if r.Model.Parts == 0 {
		return "what is assumed; none of your own parts yet"
	}
	said := unit.Count(r.Model.Failures, "worn out", "worn out") + " of " + unit.Count(r.Model.Parts, "part", "parts")
	if r.How == Assumed || r.How == ShapeOnly {
		return said + ", and mostly on what is assumed"
	}
	return said
}

func putShape(a *form.Answer, r PartLifeResult) {
	a.PutWord("shape_says", r.ShapeSays())
	if r.Fit == nil {
		return
	}
	a.PutFactor("shape", r.Fit.Shape)
	a.PutFactor("shape_low", r.Shape.Low)
	a.PutFactor("shape_high", r.Shape.High)
	form.Put(a, "scale", minutesOf(r.Fit.Scale))
}

func putEffects(a *form.Answer, in PartLifeInput, r PartLifeResult) {
	if r.Model.Parts == 0 {
		return
	}
	a.PutWord("wears", r.Wears(in.Slot))
	var rows []*form.Row
	for _, e := range r.Effects {
		row := a.NewRow()
		row.PutWord("cause", e.Cause(in.Slot))
		row.PutWord("says", e.Says())
		row.PutFactor("failures", float64(e.Failures))
		row.PutFactor("ratio", e.Ratio)
		row.PutFactor("low", e.Range.Low)
		row.PutFactor("high", e.Range.High)
		row.PutYes("sure", e.Sure)
		rows = append(rows, row)
	}
	if len(rows) > 0 {
		a.PutRows("effects", rows)
	}
}

func sayPartLife(a *form.Answer, in PartLifeInput, r PartLifeResult) {
	p, start := r.Model.Prior, minutesOf(r.Model.PerStart())
	a.Step("use = arc minutes + %s × starts: %s so far, %s in the job", form.Worked(a, start, "min", "min"),
		form.Worked(a, minutesOf(r.Model.Equivalent(in.Age)), "min", "min"), form.Worked(a, minutesOf(r.Model.Equivalent(in.Job)), "min", "min"))
	a.Step("assumed before any history: 2 in 3 are gone by %s, 1 chance in 20 that it is %s; shape about %s; a start counts as about %s",
		form.Worked(a, minutesOf(p.Scale), "min", "min"), form.Worked(a, minutesOf(p.Low), "min", "min"), unit.Figures(p.Shape, 2), form.Worked(a, minutesOf(p.PerStart), "min", "min"))
	if r.Model.Failures > 0 {
		w := r.Assumed
		a.Step("at shape %s: 2 in 3 are gone by (Σ use^shape ÷ %d)^(1/shape) = %s, at least %s (95 %%)", unit.Figures(w.Shape, 2), w.Failures,
			form.Worked(a, minutesOf(w.Scale()), "min", "min"), form.Worked(a, minutesOf(w.Lower(0.95)), "min", "min"))
	}
	if r.Fit != nil {
		a.Step("likeliest: shape %s (%s to %s by the likelihood ratio, 95 %%), 2 in 3 gone by %s", unit.Figures(r.Fit.Shape, 3), unit.Figures(r.Shape.Low, 3), unit.Figures(r.Shape.High, 3),
			form.Worked(a, minutesOf(r.Fit.Scale), "min", "min"))
	}
	switch r.How {
	case Assumed, ShapeOnly:
		a.Caution("Too few of your parts have worn out: the answer rests mostly on what is assumed. Enter each part that you take out.")
	case Weak:
		a.Caution("Too few failures to tell a shape: it is assumed. In truth the ranges are wider.")
	case Few:
		a.Caution("With under ten failures the shape comes out too high, as a rule: about %s is nearer.", unit.Figures(r.Fit.Unbiased(), 2))
	}
	if !r.StartTold {
		a.Caution("Your parts cannot tell yet what a start costs: it is assumed. Parts from long cuts and from short ones would tell.")
	}
	a.Caution("A chance is no look at the part. " + safety.MadeDead)
}

// plotLife draws how many parts last how long, with today's mark.
func plotLife(a *form.Answer, in PartLifeInput, r PartLifeResult) {
	const steps = 12
	now := r.Model.Equivalent(in.Age)
	then := now + r.Model.Equivalent(in.Job)
	end := max(1.2*then, 2.5*r.Typical.At)
	var line, band []form.Point
	var low []form.Point
	for i := range steps + 1 {
		t := end * float64(i) / steps
		c := r.Model.Lasts(Use{}, Use{Minutes: t})
		line = append(line, form.Point{t, 100 * c.P})
		band = append(band, form.Point{t, 100 * c.High})
		low = append(low, form.Point{t, 100 * c.Low})
	}
	for i := range low {
		band = append(band, low[len(low)-1-i])
	}
	series := []form.Series{{Name: "range", Band: true, Points: band}, {Name: "parts", Points: line}}
	mark := func(name string, t float64) {
		series = append(series, form.Series{Name: name, Dashed: true, Points: []form.Point{{t, 0}, {t, 100}}})
	}
	if now > 0 {
		mark("today", now)
	}
	if r.Asked {
		mark("job done", then)
	}
	a.DrawPlot(form.Plot{Title: "How many new parts last", X: form.Axis{Label: "arc, starts counted in", Unit: "min"}, Y: form.Axis{Label: "still good", Unit: "%"}, Series: series,
		Text: "Of new parts on this work, how many are still good after so much arc. The shaded range says how well that is known."})
}
