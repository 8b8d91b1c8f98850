package cutting

import (
	"fmt"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// shares of the planned speed at which the three strips are cut.
var stripShares = [3]unit.Ratio{0.8, 1, 1.2}

// StripsInput is a planned speed and what three trial strips made of it.
type StripsInput struct {
	Speed       unit.Speed // planned
	Most        unit.Speed // just severs, by the plan
	Calibration unit.Ratio // that the plan was made with
	Length      unit.Length
	Strips      [3]Strip
}

// Strip is one trial cut. A Time of 0 stands for one not cut yet.
type Strip struct {
	Time    unit.Duration
	Verdict Verdict
	Kerf    unit.Length // 0 if not measured
}

// StripsResult is what to rehearse, and what the strips have shown.
type StripsResult struct {
	Speeds  [3]unit.Speed
	Times   [3]unit.Duration // to take for Length
	Passed  [3]unit.Speed    // as cut; 0 if not cut
	Done    int
	Learned Learned
	Next    unit.Speed  // recommended from now on
	Kerf    unit.Length // mean of those measured; 0 if none
	Failed  bool        // no strip severed
}

// ComputeStrips reckons three strips.
//
//	speeds = 0.8, 1, 1.2 × plan        time = length / speed
//	calibration = Learn(speed of each strip, plan's severing speed ÷ its calibration, verdict)
//	next = plan · calibration / plan's calibration
//
// With no strip cut it gives the three paces to rehearse and leaves the
// calibration as it was.
func ComputeStrips(in StripsInput) (StripsResult, error) {
	var res StripsResult
	var tries []Try
	kerfs := 0
	res.Failed = true
	for i, s := range in.Strips {
		res.Speeds[i] = in.Speed * unit.Speed(stripShares[i])
		res.Times[i] = unit.Duration(float64(in.Length) / float64(res.Speeds[i]))
		if (s.Time > 0) != (s.Verdict != "") {
			key, msg := fmt.Sprintf("time_%d", i+1), "the strip has a verdict but no time"
			if s.Time > 0 {
				key, msg = fmt.Sprintf("verdict_%d", i+1), "the strip has a time but no verdict"
			}
			return StripsResult{}, problem.New(problem.Missing, key, msg, "Enter both, or leave the strip out.")
		}
		if s.Kerf > 0 {
			res.Kerf += s.Kerf
			kerfs++
		}
		if s.Time == 0 {
			continue
		}
		res.Passed[i] = unit.Speed(float64(in.Length) / float64(s.Time))
		res.Failed = res.Failed && s.Verdict == NotSevered
		tries = append(tries, Try{Speed: res.Passed[i], Most: in.Most / unit.Speed(in.Calibration), Verdict: s.Verdict})
	}
	if kerfs > 0 {
		res.Kerf /= unit.Length(kerfs)
	}
	res.Done, res.Failed = len(tries), res.Failed && len(tries) > 0
	res.Learned = Learn(tries)
	res.Next = in.Speed
	if res.Done > 0 {
		res.Next = in.Speed * unit.Speed(res.Learned.Factor/in.Calibration)
	}
	return res, nil
}

func verdictChoices() *form.Type {
	return form.OneOf("too-slow", "Heavy, bubbly dross below, easily off", "good", "Clean", "too-fast", "Thin hard bead that will not chip off, or a ridge on top", "did-not-sever", "Did not sever")
}

// TrialStrips is the calculator trial-strips.
var TrialStrips = form.Declaration{Name: "trial-strips", Make: func() form.Calculator {
	return form.Calculator{
		Title:   "Trial strips",
		About:   fmt.Sprintf("Make three short cuts in scrap, at %v, %v and %v times the plan. Timed and judged, they calibrate rig and hand.", stripShares[0], stripShares[1], stripShares[2]),
		Place:   "cut",
		Terms:   []string{"scrap", "test cut", "calibrate", "dross", "tune"},
		Fields:  stripFields(),
		Results: stripResults(),
		Sources: []source.ID{"kerf-balance", "gpml-3-9"},
		Run:     runStrips,
	}
}}

func stripResults() []form.Result {
	return []form.Result{
		{Key: "strips", Label: "The three strips", Gives: form.Rows("strip", "Strip", "share", "Times the plan", "speed", "Speed", "time", "Takes", "passed", "Was", "verdict", "Verdict"), Main: true},
		{Key: "calibration", Label: "Calibration", Gives: form.Factor().InDoubt(), Main: true},
		{Key: "calibration_low", Label: "It may be as little as", Gives: form.Factor().InDoubt()},
		{Key: "calibration_high", Label: "or as much as", Gives: form.Factor().InDoubt()},
		{Key: "speed_max", Label: "Just severs at", Gives: form.Number[unit.Speed]("mm/min", "in/min").InDoubt()},
		{Key: "next_speed", Label: "Next, go at", Gives: form.Number[unit.Speed]("mm/min", "in/min").InDoubt(), Main: true},
		{Key: "kerf", Label: "Measured kerf", Gives: form.Number[unit.Length]("mm", "in").As(unit.Kerf)},
		{Key: "cuts", Label: "Strips it rests on", Gives: form.Count()},
	}
}

func stripFields() []form.Field {
	fields := []form.Field{
		{Key: "speed", Label: "Planned speed", Known: "plan.speed", Takes: form.Number[unit.Speed]("mm/min", "in/min"), Limits: form.Within(10*unit.MillimetrePerMinute, 20*unit.MetrePerMinute)},
		{Key: "speed_max", Label: "Just severs, by the plan", Help: "Left empty: what the planned speed and the hand say",
			Takes: form.Number[unit.Speed]("mm/min", "in/min"), Optional: true, Limits: form.Within(10*unit.MillimetrePerMinute, 100*unit.MetrePerMinute)},
		{Key: "hand", Label: "Hand", Takes: form.OneOf("guided", "Along a guide", "freehand", "Freehand", "overhead", "Overhead"), Default: "freehand", Basis: "from-memory"},
		{Key: "calibration", Label: "Calibration of the plan", Takes: form.Factor(), Default: "1", Basis: source.Neutral, Fine: true, Limits: form.Limits{Min: 0.2, Max: 5, Set: true}},
		{Key: "length", Label: "Length of a strip", Takes: form.Number[unit.Length]("mm", "in").As(unit.Marking), Default: "100mm", Basis: source.Judged, Chips: []string{"50mm", "100mm"}, ChipsUS: []string{"2in", "4in"}, Limits: form.Within(20*unit.Millimetre, unit.Metre)},
	}
	for i, name := range []string{"slow", "planned", "fast"} {
		n := fmt.Sprint(i + 1)
		fields = append(fields,
			form.Field{Key: "time_" + n, Label: "Time of the " + name + " strip", Takes: form.Number[unit.Duration]("s", "s"), Optional: true, Limits: form.Within(0.2*unit.Second, 10*unit.Minute)},
			form.Field{Key: "verdict_" + n, Label: "The " + name + " strip", Takes: verdictChoices(), Optional: true},
			form.Field{Key: "kerf_" + n, Label: "Kerf of the " + name + " strip", Takes: form.Number[unit.Length]("mm", "in"), Optional: true, Fine: true, Limits: form.Within(0.3*unit.Millimetre, 15*unit.Millimetre)})
	}
	return fields
}

func readStrips(r *form.Reader) StripsInput {
	in := StripsInput{
		Speed:       form.Get[unit.Speed](r, "speed"),
		Most:        form.Get[unit.Speed](r, "speed_max"),
		Calibration: unit.Ratio(form.GetFactor(r, "calibration")),
		Length:      form.Get[unit.Length](r, "length"),
	}
	hand := form.GetWord(r, "hand")
	if in.Most == 0 {
		in.Most = in.Speed / recommend(1, scatter[hand])
	} else if in.Most < in.Speed {
		r.Fail("speed_max", problem.New(problem.Conflict, "speed_max", "the severing speed is below the planned speed", "Take both from one plan."))
	}
	for i := range in.Strips {
		n := fmt.Sprint(i + 1)
		in.Strips[i] = Strip{Time: form.Get[unit.Duration](r, "time_"+n), Verdict: Verdict(form.GetWord(r, "verdict_"+n)), Kerf: form.Get[unit.Length](r, "kerf_"+n)}
	}
	return in
}

func runStrips(r *form.Reader, a *form.Answer) error {
	in := readStrips(r)
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeStrips(in)
	if err != nil {
		return err
	}
	speed, time := form.Number[unit.Speed]("mm/min", "in/min"), form.Number[unit.Duration]("s", "s")
	a.Draw("strips", map[string]any{"length": a.MM(in.Length, unit.Marking)})
	rows := make([]*form.Row, len(res.Speeds))
	for i := range res.Speeds {
		row := a.NewRow()
		row.PutWord("strip", []string{"slow", "planned", "fast"}[i])
		row.PutFactor("share", float64(stripShares[i]))
		form.PutCell(row, "speed", speed.InDoubt(), res.Speeds[i])
		form.PutCell(row, "time", time.InDoubt(), res.Times[i])
		if res.Passed[i] > 0 {
			form.PutCell(row, "passed", speed, res.Passed[i])
			row.PutWord("verdict", string(in.Strips[i].Verdict))
		}
		rows[i] = row
		a.Step("%s strip: %s × %s = %s, so %s in %s", []string{"slow", "planned", "fast"}[i], unit.Figures(float64(stripShares[i]), 2),
			form.Worked(a, in.Speed, "mm/min", "in/min"), form.Worked(a, res.Speeds[i], "mm/min", "in/min"), form.Say(a, in.Length), form.Say(a, res.Times[i]))
	}
	a.PutRows("strips", rows)
	a.PutCount("cuts", res.Done)
	form.Put(a, "next_speed", res.Next)
	if res.Kerf > 0 {
		form.Put(a, "kerf", res.Kerf)
	}
	a.Caution("Cut the strips from scrap of the same metal and thickness. Use the tip, current and air of the job. Let the torch cool between them.")
	a.Caution(safety.Rehearse)
	a.Caution(safety.ArcOn)
	if res.Done == 0 {
		a.PutFactor("calibration", float64(in.Calibration))
		form.Put(a, "speed_max", in.Most)
		return nil
	}
	a.PutFactor("calibration", float64(res.Learned.Factor))
	a.PutFactor("calibration_low", float64(res.Learned.Low))
	a.PutFactor("calibration_high", float64(res.Learned.High))
	form.Put(a, "speed_max", in.Most*unit.Speed(res.Learned.Factor/in.Calibration))
	a.Step("calibration from %s = %s, nine times in ten between %s and %s", unit.Count(res.Done, "strip", "strips"), about(res.Learned.Factor), about(res.Learned.Low), about(res.Learned.High))
	a.Step("next = %s × %s ÷ %s = %s", form.Worked(a, in.Speed, "mm/min", "in/min"), about(res.Learned.Factor), unit.Figures(float64(in.Calibration), 3), form.Worked(a, res.Next, "mm/min", "in/min"))
	if res.Failed {
		a.Caution("None severed: before you blame the speed, look at tip, electrode and work clamp. Read the air pressure while it flows.")
	}
	return nil
}
