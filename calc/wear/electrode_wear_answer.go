package wear

import (
	"math"

	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

func runElectrode(r *form.Reader, a *form.Answer) error {
	in := ElectrodeInput{
		Depth: form.Get[unit.Length](r, "depth"), OffCentre: form.GetYes(r, "off_centre"),
		Limit: form.Get[unit.Length](r, "limit"), Insert: form.Get[unit.Length](r, "insert"),
		Now:       Reading{Starts: float64(form.GetCount(r, "starts")), Minutes: float64(form.Get[unit.Duration](r, "minutes") / unit.Minute)},
		JobStarts: float64(form.GetCount(r, "job_starts")), JobMinutes: float64(form.Get[unit.Duration](r, "job_minutes") / unit.Minute),
		Confidence: form.Get[unit.Ratio](r, "confidence"),
	}
	in.DepthRead = r.Given("depth")
	readings, err := parseReadings(form.GetText(r, "readings"))
	if err != nil {
		r.Fail("readings", err)
	}
	in.Readings = readings
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeElectrode(in)
	if err != nil {
		return err
	}
	a.PutWord("verdict", res.Verdict)
	a.PutWord("why", res.Why)
	form.Put(a, "used", res.Used)
	form.Put(a, "limit", res.Limit)
	if in.DepthRead {
		pit := map[string]any{"pit": a.MM(in.Depth, unit.Kerf), "limit": a.MM(res.Limit, unit.Kerf)}
		if in.Insert > 0 {
			pit["insert"] = a.MM(in.Insert, unit.Kerf)
		}
		a.Draw("electrode", pit)
	}
	if res.Wear != nil {
		putWear(a, res.Wear)
	}
	if res.Forecast {
		putForecast(a, in, res)
	}
	sayElectrode(a, in, res)
	return nil
}

func putWear(a *form.Answer, w *WearFit) {
	if w.Told {
		form.Put(a, "per_start", w.PerStart)
		form.Put(a, "per_minute", w.PerMinute)
		a.Step("depth = %s × starts + %s × arc minutes, from %s, none below nothing", form.Worked(a, w.PerStart, "µm", "thou"), form.Worked(a, w.PerMinute, "µm", "thou"), unit.Count(w.Count, "reading", "readings"))
	} else if w.mix > 0 && !math.IsInf(w.mix, 1) {
		a.Step("depth = %s × arc minutes at %s starts a minute: the readings do not tell starts and minutes apart", form.Worked(a, w.PerMinute, "µm", "thou"), unit.Figures(w.mix, 3))
	}
	if w.Free > 0 {
		form.Put(a, "deviation", w.Deviation)
	}
	a.PutCount("rests_on", w.Count)
}

func putForecast(a *form.Answer, in ElectrodeInput, res ElectrodeResult) {
	minute := func(m float64) unit.Duration { return unit.Duration(m) * unit.Minute }
	if res.MinutesLeft > 0 || res.StartsLeft == 0 {
		form.Put(a, "minutes_left", minute(res.MinutesLeft))
	}
	a.PutFactor("starts_left", math.Floor(res.StartsLeft))
	a.Step("left = (%s − %s) ÷ wear at that mix = %s arc min, %s", form.SayAs(a, res.Limit, unit.Kerf), form.SayAs(a, unit.Length(res.Used)*res.Limit, unit.Kerf),
		unit.Figures(res.MinutesLeft, 3), unit.Count(unit.Figures(math.Floor(res.StartsLeft), 3), "start", "starts"))
	if res.Ranged {
		form.Put(a, "minutes_low", minute(res.MinutesLow))
		if !math.IsInf(res.MinutesHigh, 1) {
			form.Put(a, "minutes_high", minute(res.MinutesHigh))
		}
	}
	drawForecast(a, in, res)
	if res.JobVerdict != "" {
		a.PutWord("job", res.JobVerdict)
		form.Put(a, "job_depth", res.JobEnd)
	}
}

// drawForecast plots the pit from now on, with the range of one reading.
func drawForecast(a *form.Answer, in ElectrodeInput, res ElectrodeResult) {
	x, y := form.Axis{Label: "arc from now", Unit: "min"}, form.Axis{Label: "pit", Unit: a.Unit("mm", "in")}
	job := in.JobMinutes
	if job == 0 && (in.JobStarts > 0 || in.Now.Minutes == 0) {
		x, job = form.Axis{Label: "from now", Unit: "starts"}, in.JobStarts
	}
	at := func(more float64, depth unit.Length) form.Point { return form.Point{more, unit.Value(depth, y.Unit)} }
	var pit, band []form.Point
	for _, p := range res.Path {
		pit, band = append(pit, at(p.More, p.Depth)), append(band, at(p.More, p.High))
	}
	for i := range res.Path {
		p := res.Path[len(res.Path)-1-i]
		band = append(band, at(p.More, p.Low))
	}
	end := res.Path[len(res.Path)-1].More
	series := []form.Series{{Name: "range", Band: true, Points: band}, {Name: "pit", Points: pit},
		{Name: "change", Dashed: true, Points: []form.Point{at(0, res.Limit), at(end, res.Limit)}}}
	if !res.Ranged {
		series = series[1:]
	}
	if job > 0 && job < end {
		series = append(series, form.Series{Name: "job", Dashed: true, Points: []form.Point{at(job, 0), at(job, res.JobEnd)}})
	}
	a.DrawPlot(form.Plot{Title: "The pit from now on", X: x, Y: y, Series: series,
		Text: "The pit grows to its limit at this mix of starts and minutes. The shaded range is that of one reading."})
}

func sayElectrode(a *form.Answer, in ElectrodeInput, res ElectrodeResult) {
	a.Step("used = %s ÷ %s = %s", form.SayAs(a, unit.Length(res.Used)*res.Limit, unit.Kerf), form.SayAs(a, res.Limit, unit.Kerf), form.Say(a, res.Used))
	if in.Insert > 0 && in.Insert < in.Limit {
		a.Caution("The insert is only %s deep: that is the limit here.", form.SayAs(a, in.Insert, unit.Kerf))
	}
	if res.Verdict == "change" {
		a.Caution("Change the electrode before the next arc. Past its limit it burns copper and eats tip and torch.")
	}
	if res.Wear != nil && !res.Ranged {
		switch w := res.Wear; {
		case res.Outside:
			a.Caution("The forecast reaches further than any of your readings: no range can be given.")
		case !w.Told && w.Count > 1:
			a.Caution("Your readings cannot tell starts from minutes. Read one electrode from long cuts and one from short ones.")
		case w.Free < 1:
			a.Caution("Too few readings for a range: %d so far. Read every electrode that you take out.", w.Count)
		case res.Forecast:
			a.Caution("One part of the wear came out at nothing, so no range holds. More readings will tell.")
		}
	}
	a.Caution(safety.MadeDead + " The torch's manual wins.")
}
