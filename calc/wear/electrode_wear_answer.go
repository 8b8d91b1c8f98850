package wear

import (
	"math"

	"kerfside/calc/form"
	"kerfside/calc/life"
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
		start, minute := unit.Length(w.PerStart), unit.Length(w.PerMinute)
		form.Put(a, "per_start", start)
		form.Put(a, "per_minute", minute)
		a.Step("depth = %s × starts + %s × arc minutes, from %s, none below nothing", form.Worked(a, start, "µm", "thou"), form.Worked(a, minute, "µm", "thou"), unit.Count(w.Count, "reading", "readings"))
	} else if w.mix > 0 && !math.IsInf(w.mix, 1) {
		a.Step("depth = %s × arc minutes at %s starts a minute: the readings do not tell starts and minutes apart", form.Worked(a, unit.Length(w.PerMinute), "µm", "thou"), unit.Figures(w.mix, 3))
	}
	if w.Free > 0 {
		form.Put(a, "deviation", unit.Length(w.Deviation))
	}
	a.PutCount("rests_on", w.Count)
}

func putForecast(a *form.Answer, in ElectrodeInput, res ElectrodeResult) {
	putOutlook(a, res.Outlook)
	if !res.Guessed {
		a.Step("left = (%s − %s) ÷ wear at that mix = %s arc min, %s", form.SayAs(a, res.Limit, unit.Kerf), form.SayAs(a, unit.Length(res.Used)*res.Limit, unit.Kerf),
			unit.Figures(res.MinutesLeft, 3), unit.Count(unit.Figures(math.Floor(res.StartsLeft), 3), "start", "starts"))
	}
	if res.JobVerdict != "" {
		form.Put(a, "job_depth", unit.Length(res.AtJobEnd))
	}
	y := a.Unit("mm", "in")
	plotted{title: "The pit from now on", wear: "pit", unit: y, scale: func(d float64) float64 { return unit.Value(unit.Length(d), y) }, limit: float64(res.Limit),
		so: life.Use{Minutes: in.Now.Minutes, Starts: in.Now.Starts}, job: life.Use{Minutes: in.JobMinutes, Starts: in.JobStarts}}.draw(a, res.Outlook)
}

func sayElectrode(a *form.Answer, in ElectrodeInput, res ElectrodeResult) {
	a.Step("used = %s ÷ %s = %s", form.SayAs(a, unit.Length(res.Used)*res.Limit, unit.Kerf), form.SayAs(a, res.Limit, unit.Kerf), form.Say(a, res.Used))
	if in.Insert > 0 && in.Insert < in.Limit {
		a.Caution("The insert is only %s deep: that is the limit here.", form.SayAs(a, in.Insert, unit.Kerf))
	}
	if res.Verdict == "change" {
		a.Caution("Change the electrode before the next arc. Past its limit it burns copper and eats tip and torch.")
	}
	sayOutlook(a, res.Wear, res.Outlook, "electrode")
	a.Caution(safety.MadeDead + " The torch's manual wins.")
}
