package site

import (
	"kerfside/calc/form"
	"slices"

	"kerfside/calc/air"
	"kerfside/calc/cutting"
	"kerfside/calc/guess"
	"kerfside/calc/margin"
	"kerfside/calc/power"
	"kerfside/calc/unit"
)

// Input is a planned cut, the rig's plates and what the site has. What is not
// known stays zero, and its check is left out.
type Input struct {
	Plan    cutting.PlanInput
	Typed   *form.Typed   // what a person entered, to be told as he did
	Share   unit.Ratio    // of the time that the arc burns
	Longest unit.Length   // of a single cut
	After   unit.Duration // after-flow behind each cut

	// The rig's plates.
	AirNeed   unit.Flow     // while the valve is open; 0 if not known
	AirLeast  unit.Pressure // gauge, at the machine's inlet while air flows
	Plate     power.Plate   // duty cycle; nil if not known
	Machine   power.Machine
	TipNow    unit.Length // largest diameter read of the bore; 0 if not read
	TipNew    unit.Length // bore of that tip when new
	TipGrowth unit.Ratio  // growth at which a tip is changed
	Pit       unit.Length // depth read of the electrode's pit; 0 if not read
	PitLimit  unit.Length

	// The site.
	Compressor  air.TankInput // Free 0 if not known; Demand, Share and Needed are filled in here
	Regulator   unit.Pressure // gauge, before the hose, while air flows; 0 for the compressor's cut-in
	Hose        air.Line      // Bore 0 if not known
	Reference   air.Reference
	Volts       unit.Voltage // at the socket or the generator; 0 if not known
	Cord        power.Cord   // Length 0 if not known
	Strand      power.Strand
	Idle        unit.Current // drawn between the cuts
	LeastVolts  unit.Voltage // that the machine runs on; 0 if not known
	Advice      unit.Ratio   // of Volts that the cord may lose
	Breaker     unit.Current // 0 if not known
	Generator   power.GeneratorInput
	Started     bool       // the compressor on the generator starts before the arc, not during it
	Humidity    unit.Ratio // relative; with Damp only
	Damp        bool       // Humidity is known
	Altitude    unit.Length
	Temperature unit.Temperature

	// Given tells whether a field was entered, defaults aside, Said prints a text
	// of one, and With reads all anew with other texts in some of them.
	Given func(key string) bool
	Said  func(key, text string) string
	With  func(texts map[string]string) (Input, error)
}

// Check is one thing that can give out first.
type Check struct {
	Key    string // "hose", "compressor", "tank", "cord", "volts", "breaker", "generator", "duty", "thickness", "tip", "electrode"
	Group  string // "air", "power", "duty" or "parts"
	Margin unit.Ratio
	Rests  []guess.Guess // a short one: what nobody has read and would turn it

	way           string // of giving out, in sentences; "" for the one of Key
	there, needed figure
	judged        margin.Verdict // "" for what the margin says
	note          string         // what a check in doubt rests on, with a space before it
}

// Verdict judges the check.
func (c Check) Verdict() margin.Verdict {
	switch {
	case c.judged != "":
		return c.judged
	case len(c.Rests) > 0:
		return margin.Doubt
	}
	return margin.Judge(c.Margin)
}

// Result is the question of the day, answered.
type Result struct {
	Plan     cutting.PlanResult
	Verdict  margin.Verdict
	Checks   []Check // all that could be made
	Binding  Check   // the worst of them, by verdict and then by margin
	Unknowns []Need  // what it would take to judge the rest
	Remedies []Remedy
	CutTime  unit.Duration   // of the longest single cut
	Open     unit.Ratio      // share of the time that the air valve is open
	Rhythm   air.Rhythm      // that the air allows; zero if it keeps up or is not known
	Water    air.WaterResult // of the air; zero without Damp, a compressor and an air need
	Largest  unit.Current    // at which power and duty hold; 0 if they hold as planned or nothing does
}

// groups in the order in which they are shown.
var groups = []string{"air", "power", "duty", "parts"}

// worse orders verdicts, the worst last.
var worse = [...]margin.Verdict{margin.OK, margin.Tight, margin.Unknown, margin.Doubt, margin.Fails}

func rank(v margin.Verdict) int { return slices.Index(worse[:], v) }

// Worst returns the worst check of a group, or of all with "", and false if
// none could be made.
func (r Result) Worst(group string) (Check, bool) {
	var worst Check
	found := false
	for _, c := range r.Checks {
		if group != "" && c.Group != group {
			continue
		}
		is, was := rank(c.Verdict()), rank(worst.Verdict())
		if !found || is > was || is == was && c.Margin < worst.Margin {
			worst, found = c, true
		}
	}
	return worst, found
}

// Group is the verdict on a group, or on the whole site with "", to which the
// thickness does not count: the grade of the cut tells of that. What is short is
// said whatever else is not known; else nothing holds that is not known whole.
func (r Result) Group(group string) margin.Verdict {
	v := margin.OK
	for _, n := range r.Unknowns {
		if group == "" || n.Group == group {
			v = margin.Unknown
		}
	}
	for _, c := range r.Checks {
		if (group == c.Group || group == "" && c.Key != "thickness") && rank(c.Verdict()) > rank(v) {
			v = c.Verdict()
		}
	}
	return v
}

// Compute joins the sums of cut-plan, air-hose, air-tank, supply, generator,
// duty and the parts' readings at one operating point. Each check's margin is
//
//	capacity/need − 1
//
// with the volts' need what the cord loses, and the parts' what is worn off.
// The binding limit is the check with the worst verdict and, of those, the
// smallest margin. A check that is short by figures alone that nobody has read
// is in doubt. Time of a cut = longest cut/recommended speed; the air valve is
// open for share·(1 + after-flow/time of a cut) of the time. The planned current
// decides the power side; the air need is the plate's and what a worn tip lets
// through, whatever the current. The pressure of a torch is never varied to
// make a check pass. It refuses what cut-plan refuses.
func Compute(in Input) (Result, error) {
	plan, err := cutting.ComputePlan(in.Plan)
	if err != nil {
		return Result{}, err
	}
	res := in.judge(plan)
	for i, c := range res.Checks {
		if c.Verdict() == margin.Fails {
			if rests := in.rests(c, plan); rests != nil {
				res.Checks[i].Rests, res.Checks[i].note = rests, " "+guess.Note(rests, in.Said)
			}
		}
	}
	res.Unknowns = in.unknowns()
	res.Binding, _ = res.Worst("")
	res.Verdict = res.Group("")
	res.Water = in.worn(plan).water()
	res.Remedies = in.remedies(&res)
	return res, nil
}

// judge makes the checks of a plan.
func (in Input) judge(plan cutting.PlanResult) Result {
	in = in.worn(plan)
	res := Result{Plan: plan, CutTime: unit.Duration(float64(in.Longest) / float64(plan.Speed))}
	res.Open = in.open(res.CutTime)
	res.Checks = append(in.airChecks(&res), in.powerChecks(plan.Arc.Current)...)
	if c, ok := in.dutyCheck(plan.Arc.Current); ok {
		res.Checks = append(res.Checks, c)
	}
	res.Checks = append(res.Checks, in.partsChecks(plan)...)
	return res
}

// open is the share of the time that the air valve is open, in cuts of that time.
func (in Input) open(cut unit.Duration) unit.Ratio {
	return min(1, in.Share*unit.Ratio(1+in.After/cut))
}

// worn is the input with what the tip in the torch takes in air.
func (in Input) worn(plan cutting.PlanResult) Input {
	if in.TipNow > 0 && in.TipNew == plan.Tip.Orifice {
		pressure := plan.Pressure
		if pressure == 0 {
			pressure = in.AirLeast
		}
		in.AirNeed = air.FlowInput{Plate: in.AirNeed, Orifice: in.TipNew, Measured: in.TipNow, TipPressure: pressure, Discharge: air.RoundedEntrance,
			Temperature: in.Temperature, Altitude: in.Altitude, Reference: in.Reference}.WornNeed()
	}
	return in
}

// Serve is what a cut asks of the compressor and its tank, with what the tip in the
// torch takes; false where the air is not known.
func (in Input) Serve(plan cutting.PlanResult) (air.TankInput, bool) {
	in = in.worn(plan)
	return in.tank(1), in.AirNeed > 0 && in.Compressor.Free > 0
}
