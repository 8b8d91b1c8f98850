package cutting

import (
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/material"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// CutPlan is the calculator cut-plan.
var CutPlan = form.Declaration{Name: "cut-plan", Make: func() form.Calculator {
	return form.Calculator{
		Title:  "Cut plan",
		About:  "Tells what to set for a metal and a thickness, and how fast to move. It says what the rig can do at most.",
		Place:  "ready",
		Terms:  []string{"settings", "amps", "current", "speed", "pressure", "psi", "tip", "nozzle", "thickness", "plate", "sheet", "pierce", "kerf", "capacity", "how thick"},
		Fields: PlanFields(),
		Results: []form.Result{
			{Key: "grade", Label: "This rig", Gives: GradeChoice(), Main: true},
			{Key: "current", Label: "Current", Gives: form.Number[unit.Current]("A", "A"), Main: true},
			{Key: "tip", Label: "Tip rated", Gives: form.Text(), Main: true},
			{Key: "plate", Label: "By its plate for", Gives: form.Text()},
			{Key: "orifice", Label: "Bore of the tip", Gives: form.Number[unit.Length]("mm", "in").As(unit.Bore)},
			{Key: "pressure", Label: "Air pressure, while it flows", Gives: form.Number[unit.Pressure]("bar", "psi"), Main: true},
			{Key: "speed", Label: "Travel speed", Gives: form.Number[unit.Speed]("mm/min", "in/min").InDoubt(), Main: true},
			{Key: "pace", Label: "Pace", Gives: form.Number[unit.Pace]("s per 100 mm", "s per 4 in").InDoubt(), Main: true},
			{Key: "pace_4in", Label: "Pace over 4 in", Gives: form.Number[unit.Duration]("s", "s").InDoubt()},
			{Key: "speed_low", Label: "It may want as little as", Gives: form.Number[unit.Speed]("mm/min", "in/min").InDoubt()},
			{Key: "speed_high", Label: "or as much as", Gives: form.Number[unit.Speed]("mm/min", "in/min").InDoubt()},
			{Key: "speed_range", Label: "It may want", Gives: form.Number[unit.Speed]("mm/min", "in/min").InDoubt()},
			{Key: "speed_max", Label: "Just severs at", Gives: form.Number[unit.Speed]("mm/min", "in/min").InDoubt()},
			{Key: "start", Label: "Start", Gives: form.Text(), Main: true},
			{Key: "lean", Label: "Torch to the work at the start", Gives: form.Number[unit.Angle]("°", "°")},
			{Key: "how", Label: "How to start", Gives: form.Text()},
			{Key: "standoff", Label: "Standoff", Gives: form.Number[unit.Length]("mm", "in").As(unit.Plate)},
			{Key: "kerf", Label: "Kerf", Gives: form.Number[unit.Length]("mm", "in").As(unit.Kerf)},
			{Key: "path", Label: "Metal along the torch", Gives: form.Number[unit.Length]("mm", "in").As(unit.Plate)},
			{Key: "limit_clean", Label: "Cuts clean up to", Gives: form.Number[unit.Length]("mm", "in").As(unit.Plate)},
			{Key: "limit_sever", Label: "Severs up to", Gives: form.Number[unit.Length]("mm", "in").As(unit.Plate)},
			{Key: "limit_pierce", Label: "Pierces up to", Gives: form.Number[unit.Length]("mm", "in").As(unit.Plate)},
			{Key: "power", Label: "Arc power", Gives: form.Number[unit.Power]("kW", "kW").InDoubt()},
			{Key: "heat", Label: "Heat in the cut", Gives: form.Number[unit.LineEnergy]("J/mm", "kJ/in").InDoubt()},
			{Key: "standing", Label: "It rests on", Gives: form.Text()},
			{Key: "confidence", Label: "How sure", Gives: form.Text()},
		},
		Sources: []source.ID{"kerf-balance", "iec-60974-1-load", source.CommonPractice, "from-memory"},
		Run:     runPlan,
	}
}}

// Standoff where the tip is not made for dragging: common practice.
const (
	standoffLow  = 1.5 * unit.Millimetre
	standoffHigh = 3 * unit.Millimetre
)

func runPlan(r *form.Reader, a *form.Answer) error {
	in, err := ReadPlan(r)
	if err != nil {
		return err
	}
	res, err := ComputePlan(in)
	if err != nil {
		return err
	}
	AnswerPlan(a, in, res)
	return nil
}

// AnswerPlan fills in the answer of cut-plan.
func AnswerPlan(a *form.Answer, in PlanInput, res PlanResult) {
	a.PutWord("grade", string(res.Grade))
	form.Put(a, "current", res.Arc.Current)
	a.PutWord("tip", unit.In(res.Tip.Rated, "A"))
	if in.Rig.Inlet.Other != nil {
		a.PutWord("plate", in.Rig.Inlet.Name())
	}
	form.Put(a, "orifice", res.Tip.Orifice)
	putPressure(a, in.Rig.Gas, res)
	form.Put(a, "speed", res.Speed)
	form.Put(a, "pace", res.Pace)
	form.Put(a, "pace_4in", unit.Duration(float64(4*unit.Inch)/float64(res.Speed)))
	if res.Low > 0 && res.Low < res.High {
		form.Put(a, "speed_low", res.Low)
		form.Put(a, "speed_high", res.High)
		form.PutBetween(a, "speed_range", res.Low, res.Speed, res.High)
	}
	form.Put(a, "speed_max", res.Most)
	putStart(a, in, res)
	a.Draw(map[bool]string{false: "lean-edge", true: "lean-pierce"}[res.Pierce], nil)
	a.Draw("kerf", map[string]any{"kerf": a.MM(res.Kerf, unit.Kerf), "thickness": a.MM(in.Thickness, unit.Plate), "bore": a.MM(res.Tip.Orifice, unit.Bore)})
	form.PutBetween(a, "standoff", standoffLow, standoffLow, standoffHigh)
	form.Put(a, "kerf", res.Kerf)
	form.Put(a, "path", res.Path)
	putLimits(a, res.Band)
	form.Put(a, "power", res.Arc.Power())
	form.Put(a, "heat", res.Heat)
	if text := standing(in, res.Arc.Current, res.Settled); text != "" {
		a.PutWord("standing", text)
	}
	a.PutWord("confidence", confidence(in, res.Off))
	showPlan(a, in, res)
	cautionPlan(a, in, res)
	h, _ := in.Metal.Heat(in.Alloy)
	for _, id := range h.Sources {
		a.Cite(id)
	}
}

func putPressure(a *form.Answer, g Gas, res PlanResult) {
	switch {
	case res.Pressure > 0:
		form.Put(a, "pressure", res.Pressure)
	case g.Kind == "automatic":
		a.PutWord("pressure", "set by the machine")
	case g.Kind == "table":
		a.PutWord("pressure", "not in your table")
	default:
		a.PutWord("pressure", "as the torch's plate says")
	}
}

func putStart(a *form.Answer, in PlanInput, res PlanResult) {
	if res.Pierce {
		a.PutWord("start", "pierce")
		form.Put(a, "lean", 60*unit.Degree)
		a.PutWord("how", "Hold the torch at about 60° to the work, 30° from upright. The melt then blows into the waste, away from you and the lead. Bring it upright as the hole goes through, then move.")
		return
	}
	a.PutWord("start", "edge")
	form.Put(a, "lean", 90*unit.Degree)
	how := "Set the middle of the tip on the edge, torch upright. Move off when sparks leave the bottom."
	if in.Pierce {
		how = "Too thick to pierce: start at an edge, or drill a hole to start in. " + how
		a.Caution("Do not pierce this: %s is not clear of the pierce limit of %s. That is about half of the clean limit (common practice). The melt would come back at the tip and at you.", form.Say(a, res.Path), Between(a, res.Band, PierceLimit))
	}
	a.PutWord("how", how)
}

// putLimits tells the limits as the ranges that they are.
func putLimits(a *form.Answer, b LimitBand) {
	for i, key := range [...]string{"limit_clean", "limit_sever", "limit_pierce"} {
		form.PutBetween(a, key, *b.Least.list()[i], *b.About.list()[i], *b.Most.list()[i])
	}
}

// Which of LimitBand's limits.
const (
	CleanLimit = iota
	SeverLimit
	PierceLimit
)

// Between says where a limit lies.
func Between(a *form.Answer, b LimitBand, limit int) string {
	return b.say(limit, a.Unit("mm", "in"))
}

func (b LimitBand) say(limit int, in string) string {
	return unit.Length(0).Quantity().Between(float64(*b.Least.list()[limit]), float64(*b.Most.list()[limit]), in, unit.Doubt{Sort: unit.Plate})
}

// confidence says how far off the speed may be.
func confidence(in PlanInput, off unit.Ratio) string {
	if in.Calibrated {
		return "set by your own cuts: expect to be within a factor of about " + unit.Figures(float64(off), 3)
	}
	return "reckoned, not measured: expect to be within a factor of about " + unit.Figures(float64(off), 2) + ", two times in three; cut trial strips first"
}

// standing says in a line that fits under a reading whether anything printed covers
// the plan, and what settles it where nothing does.
func standing(in PlanInput, i unit.Current, settled bool) string {
	switch from := printedFrom[in.Metal]; {
	case in.Calibrated && settled:
		return ""
	case !in.Calibrated && (from == 0 || i < from):
		return "No published row covers " + strings.ReplaceAll(string(in.Metal), "-", " ") + " at " + unit.In(i, "A") + ": trial strips settle it."
	case !settled:
		return "A trial strip settles it."
	}
	return ""
}

// printedFrom is the least current of the printed rows of a metal; there is none by
// hand below 60 A, and for mild steel none at all. How the balance stands against the
// rows: of rowsAll, rowsNear lie within the factor rowsWithin. TestHandbookRows
// counts.
var printedFrom = map[material.Metal]unit.Current{material.Stainless: 300, material.Aluminium: 115}

const (
	rowsAll    = 28
	rowsNear   = 19
	rowsWithin = 1.5
	rowWorst   = "12.5 mm of aluminium, by a factor of 2.4 too slow at 300 A and too fast at 120 A"
)

// showPlan puts down the sum as a person would check it.
func showPlan(a *form.Answer, in PlanInput, res PlanResult) {
	metal, alloy := in.Metal, in.Alloy
	if w := meltWidth * res.Tip.Orifice; in.Balance.need(metal, alloy, w, res.Most) != in.Balance.own(metal, alloy, w, res.Most) {
		why := "which it is never slower than, since its kerf burns"
		if metal == material.CastIron {
			why = "which it is held to from above"
		}
		a.Step("%s is reckoned with the figures of stainless, %s", metal, why)
		metal, alloy = material.Stainless, ""
	}
	h, _ := metal.Heat(alloy)
	rho, _, _ := metal.Density()
	if res.Path != in.Thickness {
		a.Step("metal along the torch = %d × %s ÷ cos %s = %s", in.Layers, form.Say(a, in.Thickness), form.Say(a, in.Angle), form.Say(a, res.Path))
	}
	power := float64(res.Arc.Power())
	a.Step("arc power = %s × %s = %s", form.Say(a, res.Arc.Volts), form.Say(a, res.Arc.Current), form.Say(a, res.Arc.Power()))
	have := float64(in.Balance.Efficiency) * power / float64(res.Path) / 1000
	a.Step("into the kerf, per mm of depth = %s × %s ÷ %s = %s W/mm", form.Say(a, in.Balance.Efficiency), form.Say(a, res.Arc.Power()), unit.In(res.Path, "mm"), unit.Figures(have, 3))
	loss := lossShare * float64(h.Conductivity) * float64(h.Rise()) / 1000
	a.Step("carried off by the plate = %v × %s × %s K = %s W/mm", lossShare, form.Say(a, h.Conductivity), unit.Figures(float64(h.Rise()), 3), unit.Figures(loss, 3))
	w := meltWidth * res.Tip.Orifice
	melt := float64(rho) * float64(h.Melt+h.Hotter) * float64(w) * 1e-6
	a.Step("to melt out 1 mm/s = %s × %s × %s = %s W/mm", form.SayIn(a, rho, "kg/m³", "kg/m³"), form.Say(a, h.Melt+h.Hotter), unit.In(w, "mm"), unit.Figures(melt, 3))
	cal := ""
	if in.Balance.Calibration != 1 {
		cal = " × " + unit.Figures(float64(in.Balance.Calibration), 3)
	}
	a.Step("just severs = (%s − %s) ÷ %s%s = %s = %s", unit.Figures(have, 3), unit.Figures(loss, 3), unit.Figures(melt, 3), cal, unit.In(res.Most, "mm/s"), form.Worked(a, res.Most, "mm/min", "in/min"))
	a.Step("recommended = just severs ÷ (1 + %v × %s) = %s", quantile95, form.Say(a, in.Scatter), form.Worked(a, recommend(res.Most, in.Scatter), "mm/min", "in/min"))
	if !in.Calibrated {
		a.Step("of %d printed rows, %d lie within a factor of %v of this figure; worst is %s. So results are told to two figures at most", rowsAll, rowsNear, rowsWithin, rowWorst)
	}
	if res.Capped {
		a.Step("the hand follows up to %s, so that is the speed", form.Worked(a, res.Speed, "mm/min", "in/min"))
	}
	a.Step("heat = %s ÷ %s = %s", form.Say(a, res.Arc.Power()), unit.In(res.Speed, "mm/s"), form.Worked(a, res.Heat, "J/mm", "kJ/in"))
}
