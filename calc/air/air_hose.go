package air

import (
	"kerfside/calc/margin"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// Limits of the bores and flows reckoned with: from a thin whip to a header.
const (
	narrowestBore = 2 * unit.Millimetre
	widestBore    = 150 * unit.Millimetre
	largestFlow   = 50000 * unit.LitrePerMinute
)

// HoseInput is a hose or pipe and the air that is to run through it.
type HoseInput struct {
	Pressure  unit.Pressure // gauge, at the inlet while the air flows
	Flow      unit.Flow     // free air while the valve is open
	Reference Reference     // what Flow is counted in
	Line      Line          // Length without the fittings
	Fittings  unit.Length   // equivalent length of the fittings
	Altitude  unit.Length
	Needed    unit.Pressure // gauge, wanted at the machine; 0 if not asked
}

// HoseResult is what arrives at the other end.
type HoseResult struct {
	Choked      bool          // the hose cannot pass the flow at all; the next four are 0
	AtTorch     unit.Pressure // gauge, while flowing
	Drop        unit.Pressure
	SpeedIn     unit.Speed
	SpeedOut    unit.Speed
	Friction    float64 // Darcy's factor
	Reynolds    float64
	Mass        unit.MassFlow
	Surrounding unit.Pressure // absolute pressure of the air outside
	LargestFlow unit.Flow     // that still leaves Needed, or that passes at all if none is asked
	Margin      unit.Ratio    // LargestFlow/Flow − 1; means little without Needed
	Verdict     margin.Verdict
	Bore        unit.Length // smallest that leaves Needed; 0 if not asked or none would
}

// ComputeHose returns the pressure behind a hose while air flows, by the
// isothermal equation of Line with Colebrook's friction factor.
//
//	ṁ = q·ρ_ref     p1 = gauge + surrounding     L = length + fittings
//
// Range: bore 2 to 150 mm, 0.1 to 40 bar gauge, gas at the hose's temperature
// all along. A hose in the sun or a thin whip cools and heats the air by a few
// degrees, worth 1 to 2 % of the drop. It treats the bore as straight: count
// bends as ΣK or as length. When the flow cannot pass, because the air would
// have to leave faster than sound or below the pressure outside, Choked is set
// and no pressure is given.
// Source: Crane TP-410 eq. 1-6 (equation), Colebrook (friction), ISO 6358
// (couplers), ISO 2533 (surrounding pressure, viscosity).
func ComputeHose(in HoseInput) (HoseResult, error) {
	if in.Needed >= in.Pressure {
		return HoseResult{}, problem.New(problem.Conflict, "needed", "the machine wants as much pressure as there is before the hose, or more",
			"Raise the regulator, within what hose and machine are rated for, or check the two figures.")
	}
	line := in.Line
	line.Length += in.Fittings
	pa := AirPressure(in.Altitude)
	inlet, wanted := in.Pressure+pa, in.Needed+pa
	res := HoseResult{Mass: in.Reference.Mass(in.Flow), Surrounding: pa}
	res.Reynolds = line.reynolds(float64(res.Mass))
	res.Friction = line.factor(float64(res.Mass))
	res.LargestFlow = in.Reference.Volume(line.Largest(inlet, wanted))
	res.Margin = margin.Of(res.LargestFlow, in.Flow)
	res.Verdict = margin.Judge(res.Margin)
	if in.Needed > 0 {
		res.Bore, _ = line.SmallestBore(inlet, wanted, res.Mass)
	}
	outlet, ok := line.Outlet(inlet, res.Mass)
	if !ok || outlet <= pa {
		res.Choked = true
		return res, nil
	}
	res.AtTorch, res.Drop = outlet-pa, inlet-outlet
	res.SpeedIn, res.SpeedOut = line.speed(inlet, res.Mass), line.speed(outlet, res.Mass)
	return res, nil
}

// speed is that of the air in the bore at an absolute pressure.
func (l Line) speed(p unit.Pressure, m unit.MassFlow) unit.Speed {
	return unit.Speed(float64(m) / float64(Density(p, l.Temperature)) / l.area())
}

// CommonBore returns the smallest common bore that is at least d.
func CommonBore(d unit.Length) (unit.Length, bool) {
	for _, b := range commonBores {
		if b >= d*(1-1e-9) {
			return b, true
		}
	}
	return 0, false
}

// commonBores of hose on the shelf, in sixteenths and eighths of an inch.
var commonBores = []unit.Length{unit.Inch / 4, unit.Inch * 5 / 16, unit.Inch * 3 / 8, unit.Inch / 2, unit.Inch * 5 / 8, unit.Inch * 3 / 4, unit.Inch, unit.Inch * 5 / 4, unit.Inch * 3 / 2, unit.Inch * 2}
