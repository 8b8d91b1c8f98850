package cutting

import (
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// PaceInput is a speed to walk through, or a timed pass to judge.
type PaceInput struct {
	Speed  unit.Speed    // planned travel speed; 0 if none is given
	Marks  unit.Length   // distance between two chalk marks, > 0
	Length unit.Length   // marked length of a timed pass; 0 if none was timed
	Time   unit.Duration // how long that pass took; 0 if none was timed
	Slack  unit.Ratio    // how far off the plan still counts as right
}

// PaceResult is the plan as a count between marks, and the pass against it.
type PaceResult struct {
	Beat    unit.Duration // time from mark to mark at Speed
	Pace    unit.Pace     // 1/Speed
	Passed  unit.Speed    // speed of the timed pass
	Off     unit.Ratio    // Passed/Speed − 1
	Verdict string        // "too slow", "right", "too fast", or "" without both
}

// ComputePace turns a travel speed into a count and a timed pass into a speed.
//
//	beat = marks / speed        passed = length / time        off = passed/speed − 1
//
// It needs a speed, or a length with a time, or all three. A time beside a speed
// may stand alone: the last arc's is filled in before its length is marked. The
// verdict is "right" while |off| ≤ slack. Plain kinematics; no source needed.
func ComputePace(in PaceInput) (PaceResult, error) {
	timed := in.Length > 0 && in.Time > 0
	if (in.Length > 0) != (in.Time > 0) && (in.Speed <= 0 || in.Length > 0) {
		field, msg := "time", "the pass has a length but no time"
		if in.Time > 0 {
			field, msg = "length", "the pass has a time but no length"
		}
		return PaceResult{}, problem.New(problem.Missing, field, msg, "Enter both, or neither.")
	}
	if in.Speed <= 0 && !timed {
		return PaceResult{}, problem.New(problem.Missing, "speed", "there is nothing to reckon with yet",
			"Enter the planned speed, or the length and the time of a pass.")
	}
	var res PaceResult
	if in.Speed > 0 {
		res.Beat = unit.Duration(float64(in.Marks) / float64(in.Speed))
		res.Pace = unit.Pace(1 / float64(in.Speed))
	}
	if timed {
		res.Passed = unit.Speed(float64(in.Length) / float64(in.Time))
	}
	if in.Speed > 0 && timed {
		res.Off = unit.Ratio(res.Passed/in.Speed - 1)
		switch {
		case res.Off > in.Slack:
			res.Verdict = "too fast"
		case res.Off < -in.Slack:
			res.Verdict = "too slow"
		default:
			res.Verdict = "right"
		}
	}
	return res, nil
}

// TravelPace is the calculator travel-pace.
var TravelPace = form.Declaration{Name: "travel-pace", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Travel pace",
		About: "Turns a travel speed into a count between chalk marks. Turns a timed pass into a speed to compare with the plan.",
		Place: "cut",
		Terms: []string{"speed", "rehearse", "beat", "count", "marks", "too fast", "too slow"},
		Fields: []form.Field{
			{Key: "speed", Label: "Planned speed", Known: "plan.speed", Takes: form.Number[unit.Speed]("mm/min", "in/min"), Optional: true,
				Limits: form.Within(10*unit.MillimetrePerMinute, 20*unit.MetrePerMinute)},
			{Key: "marks", Label: "Distance between marks", Takes: form.Number[unit.Length]("mm", "in").As(unit.Marking), Default: "100mm", Basis: source.Judged,
				Chips: []string{"25mm", "50mm", "100mm"}, ChipsUS: []string{"1in", "2in", "4in"}, Limits: form.Within(5*unit.Millimetre, 2*unit.Metre)},
			{Key: "length", Label: "Length of a timed pass", Takes: form.Number[unit.Length]("mm", "in").As(unit.Marking), Optional: true,
				Limits: form.Within(10*unit.Millimetre, 20*unit.Metre)},
			{Key: "time", Label: "Time it took", Takes: form.Number[unit.Duration]("s", "s"), Optional: true,
				Limits: form.Within(0.2*unit.Second, unit.Hour)},
			{Key: "slack", Label: "Counts as right within", Takes: form.Number[unit.Ratio]("%", "%"), Default: "10%",
				Basis: "common-practice", Fine: true, Limits: form.Within(unit.Percent, 50*unit.Percent)},
		},
		Results: []form.Result{
			{Key: "beat", Label: "From mark to mark", Gives: form.Number[unit.Duration]("s", "s").InDoubt(), Main: true},
			{Key: "pace", Label: "Pace", Gives: form.Number[unit.Pace]("s per 100 mm", "s per 4 in").InDoubt(), Main: true},
			{Key: "passed", Label: "Speed of the pass", Gives: form.Number[unit.Speed]("mm/min", "in/min")},
			{Key: "off", Label: "Against the plan", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "verdict", Label: "Verdict", Gives: form.Text(), Main: true},
		},
		Run: runPace,
	}
}}

func runPace(r *form.Reader, a *form.Answer) error {
	in := PaceInput{
		Speed:  form.Get[unit.Speed](r, "speed"),
		Marks:  form.Get[unit.Length](r, "marks"),
		Length: form.Get[unit.Length](r, "length"),
		Time:   form.Get[unit.Duration](r, "time"),
		Slack:  form.Get[unit.Ratio](r, "slack"),
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputePace(in)
	if err != nil {
		return err
	}
	if in.Speed > 0 {
		form.Put(a, "beat", res.Beat)
		form.Put(a, "pace", res.Pace)
		a.Step("mark to mark = %s ÷ %s = %s", form.Say(a, in.Marks), form.Worked(a, in.Speed, "mm/s", "in/s"), form.Say(a, res.Beat))
	}
	if res.Passed > 0 {
		form.Put(a, "passed", res.Passed)
		a.Step("speed of the pass = %s ÷ %s = %s", form.Say(a, in.Length), form.Say(a, in.Time), form.Worked(a, res.Passed, "mm/min", "in/min"))
	}
	if res.Verdict != "" {
		form.Put(a, "off", res.Off)
		a.PutWord("verdict", res.Verdict)
		a.Step("against the plan = %s ÷ %s − 1 = %s", form.Worked(a, res.Passed, "mm/min", "in/min"), form.Worked(a, in.Speed, "mm/min", "in/min"), form.Say(a, res.Off))
	}
	if res.odd() {
		a.Caution("No hand is that far off the plan. Look at the length and the time first.")
	}
	a.Caution(safety.Rehearse)
	a.Caution(safety.ArcOn)
	return nil
}

// odd reports whether a pass is so far off the plan, three times or a third, that a wrong
// length or a slip with the clock is likelier: judgement.
func (res PaceResult) odd() bool {
	return res.Verdict != "" && (res.Off > 2 || res.Off < -2.0/3)
}
