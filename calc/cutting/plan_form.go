package cutting

import (
	"fmt"
	"slices"

	"kerfside/calc/form"
	"kerfside/calc/material"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// The fields that planning calculators share: what is cut, the rig (rigFields),
// how it is cut, and the figures behind the plan.

func metalField() form.Field {
	return form.Field{Key: "metal", Label: "Metal", Default: "mild-steel", Takes: material.WithNames(form.OneOf(
		"mild-steel", "Mild steel", "stainless", "Stainless", "aluminium", "Aluminium", "copper", "Copper",
		"brass", "Brass", "cast-iron", "Cast iron", "galvanised", "Galvanised"))}
}

func alloyField() form.Field {
	return form.Field{Key: "alloy", Label: "Alloy", Help: "If it is not known, it counts as 1100, the slowest", Default: "unknown",
		Takes: form.OneOf("unknown", "not known", "1100", "1100, nearly pure", "5052", "5052, marine sheet", "6061", "6061, structural"),
		Only:  form.When("metal", "aluminium")}
}

func thicknessField() form.Field {
	return form.Field{Key: "thickness", Label: "Thickness", Help: "Square through one plate. Sheet may be entered as a gauge; the metal decides which",
		Takes: form.Number[unit.Length]("mm", "in").As(unit.Plate), Gauge: true, Chips: []string{"1.5mm", "3mm", "5mm", "6mm", "10mm", "12mm"}, ChipsUS: []string{"16ga", "1/8in", "3/16in", "1/4in", "3/8in", "1/2in"},
		Limits: form.Within(0.3*unit.Millimetre, 200*unit.Millimetre)}
}

func wayFields() []form.Field {
	return []form.Field{
		{Key: "angle", Label: "Bevel", Help: "Tilt of the cut against square", Takes: form.Number[unit.Angle]("°", "°"), Default: "0", Basis: source.Neutral, Fine: true,
			Chips: []string{"30", "45"}, Limits: form.Within(0, 60*unit.Degree)},
		{Key: "layers", Label: "Layers", Help: "Plates cut in one go, clamped tight", Takes: form.Count(), Default: "1", Basis: source.Neutral, Fine: true, Limits: form.WithinCount(1, 4)},
		{Key: "surface", Label: "Surface", Takes: form.OneOf("clean", "Clean", "rusty", "Rusty or scaled", "painted", "Painted", "galvanised", "Galvanised"), Optional: true},
		{Key: "position", Label: "Position", Takes: form.OneOf("flat", "Flat", "vertical", "Vertical", "overhead", "Overhead"), Default: "flat"},
		{Key: "hand", Label: "Hand", Help: fmt.Sprintf("How steady the speed is: %.0f %% guided, %.0f %% freehand, %.0f %% overhead", 100*scatter["guided"], 100*scatter["freehand"], 100*scatter["overhead"]),
			Takes: form.OneOf("guided", "Along a guide", "freehand", "Freehand", "overhead", "Overhead"), Default: "freehand", Basis: "from-memory"},
		{Key: "start", Label: "Start", Takes: form.OneOf("edge", "At the edge", "pierce", "Pierce"), Default: "edge"},
		{Key: "calibration", Label: "Calibration", Help: "Speed factor from your own cuts; 1 until you have some", Takes: form.Factor(), Default: "1", Basis: source.Neutral, Owner: form.OfRig,
			Limits: form.Limits{Min: 0.2, Max: 5, Set: true}},
		{Key: "kerf_measured", Label: "Measured kerf", Help: fmt.Sprintf("From trial strips; left empty: %v times the tip's bore", kerfRatio), Takes: form.Number[unit.Length]("mm", "in").As(unit.Kerf), Optional: true,
			Fine: true, Basis: "from-memory", Limits: form.Within(0.3*unit.Millimetre, 15*unit.Millimetre)},
	}
}

func figureFields() []form.Field {
	return []form.Field{
		{Key: "hand_limit", Label: "The hand follows up to", Help: "Left empty: " + unit.In(guidedLimit, "m/min") + " along a guide, " + unit.In(freeLimit, "m/min") + " otherwise", Takes: form.Number[unit.Speed]("m/min", "in/min"),
			Optional: true, Fine: true, Basis: "from-memory", Limits: form.Within(0.3*unit.MetrePerMinute, 20*unit.MetrePerMinute)},
		{Key: "efficiency", Label: "Share of the arc's power in the kerf", Takes: form.Number[unit.Ratio]("%", "%"), Default: unit.In(DefaultEfficiency, "%"), Fine: true,
			Basis: "kerf-balance", Limits: form.Within(10*unit.Percent, 90*unit.Percent)},
		{Key: "brisk", Label: "Speed to keep when choosing a current", Takes: form.Number[unit.Speed]("m/min", "in/min"), Default: unit.In(UsualBounds.Brisk, "m/min"), Fine: true,
			Basis: "from-memory", Limits: form.Within(0.2*unit.MetrePerMinute, 5*unit.MetrePerMinute)},
		{Key: "clean_speed", Label: "Slowest clean speed", Takes: form.Number[unit.Speed]("m/min", "in/min"), Default: unit.In(UsualBounds.Clean, "m/min"), Fine: true,
			Basis: "from-memory", Limits: form.Within(0.05*unit.MetrePerMinute, 2*unit.MetrePerMinute)},
		{Key: "sever_speed", Label: "Slowest severing speed", Takes: form.Number[unit.Speed]("m/min", "in/min"), Default: unit.In(UsualBounds.Sever, "m/min"), Fine: true,
			Basis: "from-memory", Limits: form.Within(0.02*unit.MetrePerMinute, 2*unit.MetrePerMinute)},
		{Key: "sever_share", Label: "Sever limit at most, times the clean limit", Takes: form.Number[unit.Ratio]("×", "×"), Default: unit.In(UsualBounds.SeverShare, "×"), Fine: true,
			Basis: "from-memory", Limits: form.Within[unit.Ratio](1, 3)},
		{Key: "pierce_share", Label: "Pierce limit, share of the clean limit", Takes: form.Number[unit.Ratio]("%", "%"), Default: unit.In(UsualBounds.PierceShare, "%"), Fine: true,
			Basis: "common-practice", Limits: form.Within(10*unit.Percent, 100*unit.Percent)},
	}
}

// PlanFields are what ReadPlan reads; calculators of other packages that rest on
// a plan share them.
func PlanFields() []form.Field {
	return slices.Concat([]form.Field{metalField(), alloyField(), thicknessField()}, rigFields(), wayFields(), figureFields())
}

// readMetal reads metal and alloy.
func readMetal(r *form.Reader) (material.Metal, material.Alloy) {
	alloy := material.Alloy(form.GetWord(r, "alloy"))
	if alloy == "unknown" {
		alloy = ""
	}
	return material.Metal(form.GetWord(r, "metal")), alloy
}

// readThickness reads a thickness or a gauge of that metal.
func readThickness(r *form.Reader, key string, metal material.Metal) unit.Length {
	return form.GetSheet(r, key, func(number string) (unit.Length, error) { return material.Gauge(metal, number) })
}

// ReadPlan reads all of PlanFields.
func ReadPlan(r *form.Reader) (PlanInput, error) {
	in := readPlanButThickness(r)
	in.Thickness = readThickness(r, "thickness", in.Metal)
	if err := r.Err(); err != nil {
		return PlanInput{}, err
	}
	return in, nil
}

// readPlanButThickness reads PlanFields without the thickness; troubles stay in r.
func readPlanButThickness(r *form.Reader) PlanInput {
	return readWay(r, ReadSetup(r))
}

// ReadSetup reads what is the same for all cuts of a job: the rig and the figures behind
// the plan. Troubles stay in r.
func ReadSetup(r *form.Reader) PlanInput {
	in := PlanInput{
		Angle:   form.Get[unit.Angle](r, "angle"),
		Layers:  form.GetCount(r, "layers"),
		Kerf:    form.Get[unit.Length](r, "kerf_measured"),
		Balance: Balance{Efficiency: form.Get[unit.Ratio](r, "efficiency"), Calibration: unit.Ratio(form.GetFactor(r, "calibration"))},
		Bounds: Bounds{
			Clean:       form.Get[unit.Speed](r, "clean_speed"),
			Sever:       form.Get[unit.Speed](r, "sever_speed"),
			SeverShare:  form.Get[unit.Ratio](r, "sever_share"),
			PierceShare: form.Get[unit.Ratio](r, "pierce_share"),
			Brisk:       form.Get[unit.Speed](r, "brisk"),
		},
		HandLimit: form.Get[unit.Speed](r, "hand_limit"),
		Rig:       readRig(r),
		System:    r.System(),
	}
	in.Calibrated = in.Balance.Calibration != 1
	if in.Bounds.Sever > in.Bounds.Clean {
		r.Fail("sever_speed", problem.New(problem.Conflict, "sever_speed", "severing ends at a slower speed than clean cutting",
			"Enter a severing speed below the clean speed."))
	}
	return in
}

// ReadCut reads one cut of a job that is set up like that, from its row. It returns
// the row's first trouble.
func ReadCut(row *form.Reader, setup PlanInput) (PlanInput, error) {
	in := readWay(row, setup)
	in.Thickness = readThickness(row, "thickness", in.Metal)
	return in, row.Err()
}

// readWay reads metal and alloy, and how it is cut.
func readWay(r *form.Reader, in PlanInput) PlanInput {
	in.Metal, in.Alloy = readMetal(r)
	in.Pierce = form.GetWord(r, "start") == "pierce"
	hand := form.GetWord(r, "hand")
	if form.GetWord(r, "position") == "overhead" {
		hand = "overhead"
	}
	in.Scatter, in.Overhead = scatter[hand], hand == "overhead"
	in.Surface = form.GetWord(r, "surface")
	if in.HandLimit == 0 {
		in.HandLimit = freeLimit
		if hand == "guided" {
			in.HandLimit = guidedLimit
		}
	}
	return in
}

// How fast a hand can follow a line. From memory.
const (
	freeLimit   = 1.5 * unit.MetrePerMinute
	guidedLimit = 2.5 * unit.MetrePerMinute
)

// scatter is the standard deviation of the hand's speed over its mean. Assumed,
// from memory.
var scatter = map[string]unit.Ratio{"guided": 0.10, "freehand": 0.20, "overhead": 0.25}
