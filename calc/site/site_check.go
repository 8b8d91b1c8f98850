package site

import (
	"kerfside/calc/air"
	"kerfside/calc/cutting"
	"kerfside/calc/margin"
	"kerfside/calc/power"
	"kerfside/calc/unit"
)

// Input is a planned cut, the rig's plates and what the site has. What is not
// known stays zero, and its check is left out.
type Input struct {
	Plan    cutting.PlanInput
	Share   unit.Ratio    // of the time that the arc burns
	Longest unit.Length   // of a single cut
	After   unit.Duration // after-flow behind each cut

	// The rig's plates.
	AirNeed   unit.Flow     // while the valve is open; 0 if not known
	AirLeast  unit.Pressure // gauge, at the machine's inlet while air flows
	Plate     power.Plate   // duty cycle; nil if not known
	Machine   power.Machine
	TipNow    unit.Length // largest diameter read of the bore; 0 if not read
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
	LeastVolts  unit.Voltage // that the machine runs on; 0 if not known
	Breaker     unit.Current // 0 if not known
	Generator   power.GeneratorInput
	Started     bool       // the compressor on the generator starts before the arc, not during it
	Humidity    unit.Ratio // relative; with Damp only
	Damp        bool       // Humidity is known
	Altitude    unit.Length
	Temperature unit.Temperature
}

// Check is one thing that can give out first.
type Check struct {
	Key    string // "hose", "compressor", "tank", "cord", "volts", "breaker", "generator", "duty", "thickness", "tip", "electrode"
	Group  string // "air", "power", "duty" or "parts"
	Margin unit.Ratio
	Say    func(system unit.System) string // what is needed and what there is
}

// Verdict judges the check's margin.
func (c Check) Verdict() margin.Verdict { return margin.Judge(c.Margin) }

// Result is the question of the day, answered.
type Result struct {
	Plan     cutting.PlanResult
	Checks   []Check // all that could be made
	Binding  Check   // the one with the smallest margin
	Remedies []Remedy
	CutTime  unit.Duration   // of the longest single cut
	Open     unit.Ratio      // share of the time that the air valve is open
	Rhythm   air.Rhythm      // that the air allows; zero if it keeps up or is not known
	Water    air.WaterResult // of the air; zero without Damp, a compressor and an air need
	Largest  unit.Current    // at which power and duty hold; 0 if they hold as planned or nothing does
}

// groups in the order in which they are shown.
var groups = []string{"air", "power", "duty", "parts"}

// Worst returns the check with the smallest margin of a group, or of all with
// "", and false if none could be made.
func (r Result) Worst(group string) (Check, bool) {
	var worst Check
	found := false
	for _, c := range r.Checks {
		if (group == "" || c.Group == group) && (!found || c.Margin < worst.Margin) {
			worst, found = c, true
		}
	}
	return worst, found
}

// Compute joins the sums of cut-plan, air-hose, air-tank, supply, generator,
// duty and the parts' readings at one operating point. Each check's margin is
//
//	capacity/need − 1
//
// and the binding limit is the check with the smallest. Time of a cut = longest
// cut/recommended speed; the air valve is open for share·(1 + after-flow/time
// of a cut) of the time. The planned current decides the power side; the air
// need is the plate's, whatever the current. The pressure of a torch is never
// varied to make a check pass. It refuses what cut-plan refuses.
func Compute(in Input) (Result, error) {
	plan, err := cutting.ComputePlan(in.Plan)
	if err != nil {
		return Result{}, err
	}
	res := Result{Plan: plan, CutTime: unit.Duration(float64(in.Longest) / float64(plan.Speed))}
	res.Open = min(1, in.Share*unit.Ratio(1+in.After/res.CutTime))
	res.Checks = append(res.Checks, in.airChecks(&res)...)
	res.Checks = append(res.Checks, in.powerChecks(plan.Arc.Current)...)
	if c, ok := in.dutyCheck(plan.Arc.Current); ok {
		res.Checks = append(res.Checks, c)
	}
	res.Checks = append(res.Checks, in.partsChecks(plan)...)
	res.Water = in.water()
	res.Binding, _ = res.Worst("")
	res.Remedies = in.remedies(&res)
	return res, nil
}
