package power

import (
	"kerfside/calc/margin"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// The advice on voltage drop: 3 % for the run to the machine, 5 % for all from
// the meter. NEC 210.19(A), informational note (not enforceable); IEC
// 60364-5-52 annex G has 5 % too.
const (
	adviceRun = 3 * unit.Percent
	adviceAll = 5 * unit.Percent
)

// SupplyInput is a machine at the end of a cord. Current or Draw is given.
type SupplyInput struct {
	Current   unit.Current       // that flows, whatever the volts
	Draw      unit.ApparentPower // that the machine takes, whatever the volts
	Volts     unit.Voltage       // at the socket, while it draws
	Cord      Cord               // Length 0 for none
	Strand    Strand
	Duty      unit.Ratio   // of the machine at that current; 0 if not asked
	Idle      unit.Current // drawn between the cuts
	Breaker   unit.Current // of the circuit; 0 if not asked
	LeastVolt unit.Voltage // on which the machine still runs; 0 if not known
}

// SupplyResult is what arrives at the machine.
type SupplyResult struct {
	Current    unit.Current // that flows
	Drop       unit.Voltage
	Share      unit.Ratio // Drop/Volts
	AtMachine  unit.Voltage
	Verdict    string       // "ok", "over" (3 to 5 %), "far over"
	ByK        unit.Voltage // drop by the K form, AWG only
	Heat       unit.Power   // in the cord
	Run, All   Limit        // for 3 % and for 5 %
	Factor     unit.Ratio   // NEC table 630.11(A)
	Ampacity   unit.Current // the supply conductors must carry
	Effective  unit.Current
	OverMost   unit.Current // largest overcurrent device, NEC 630.12
	Breaker    margin.Verdict
	VoltMargin unit.Ratio // of the volts that may be lost before LeastVolt
}

// Limit is what keeps the drop at a share of the volts.
type Limit struct {
	Conductor Conductor    // thinnest; only if Found
	Found     bool         // whether any of the table would do
	Reach     unit.Length  // of this conductor at this current
	Current   unit.Current // through this cord
}

// kCopper is K of copper in Ω·cmil/ft, of the K form of the voltage drop.
const kCopper = 12.9

// ComputeSupply returns the volts at the machine and the conductor that it
// takes.
//
//	one phase  ΔU = 2·I·R     three phases  ΔU = √3·I·R     K form  ΔU = 2·12.9·I·L/CM (√3 for 2)
//	constant power  U² − U0·U + Z·S = 0, see Cord.Under
//	ampacity ≥ I·factor of NEC table 630.11(A)     overcurrent device ≤ 200 % of I (NEC 630.12)
//
// R is the conductor's at its temperature. The sag of the socket itself, of a
// transformer or generator, comes on top. Range: copper, 18 AWG to 4/0 or 0.5
// to 150 mm². Source: NEC chapter 9 table 8, IEC 60228, NEC article 630.
func ComputeSupply(in SupplyInput) (SupplyResult, error) {
	ok := true
	if in.Draw > 0 {
		_, in.Current, ok = in.Cord.Under(in.Volts, in.Draw)
	}
	drop := in.Cord.Drop(in.Current)
	if !ok || drop >= in.Volts {
		return SupplyResult{}, problem.New(problem.Refused, "length", "the cord cannot carry it: its copper would eat the volts before the machine gets its power",
			"Use a much thicker or shorter cord, or cut with less current.")
	}
	res := SupplyResult{
		Current: in.Current, Drop: drop, Share: unit.Ratio(drop / in.Volts), AtMachine: in.Volts - drop,
		Heat: unit.Power(float64(drop) * float64(in.Current) * legHeat(in.Cord.Phases)),
		Run:  in.limit(adviceRun), All: in.limit(adviceAll),
		OverMost: 2 * in.Current,
	}
	switch {
	case res.Share <= adviceRun:
		res.Verdict = "ok"
	case res.Share <= adviceAll:
		res.Verdict = "over"
	default:
		res.Verdict = "far over"
	}
	if in.Cord.Conductor.AWG {
		feet := float64(in.Cord.Length / unit.Foot)
		mils := float64(in.Cord.Conductor.Area / unit.CircularMil)
		res.ByK = unit.Voltage(legs(in.Cord.Phases) * kCopper * float64(in.Current) * feet / mils)
	}
	if in.Duty > 0 {
		res.Factor = AmpacityFactor(in.Duty)
		res.Ampacity = in.Current * unit.Current(res.Factor)
		res.Effective = Effective(in.Current, in.Idle, in.Duty)
	}
	if in.Breaker > 0 {
		res.Breaker = margin.Judge(margin.Of(in.Breaker, in.heating(res)))
	}
	if in.LeastVolt > 0 {
		res.VoltMargin = in.VoltMargin()
	}
	return res, nil
}

// at is the current that flows when the cord loses that many volts.
func (in SupplyInput) at(drop unit.Voltage) unit.Current {
	if in.Draw > 0 {
		return Current(in.Draw, in.Volts-drop, in.Cord.Phases)
	}
	return in.Current
}

// CordMargin is the current that the cord carries within 5 % lost against the
// one that flows then.
func (in SupplyInput) CordMargin() unit.Ratio {
	return in.dropMargin(in.Volts * unit.Voltage(adviceAll))
}

// VoltMargin is the volts that may be lost before LeastVolt against those that
// are, −1 when the socket itself has no more than that.
func (in SupplyInput) VoltMargin() unit.Ratio { return in.dropMargin(in.Volts - in.LeastVolt) }

func (in SupplyInput) dropMargin(allowed unit.Voltage) unit.Ratio {
	switch {
	case in.Cord.Length == 0 && allowed >= 0: // nothing is lost
		return margin.Most
	case allowed <= 0:
		return -1
	}
	return margin.Of(in.Cord.LargestCurrent(allowed), in.at(allowed))
}

// heating is the current that warms the breaker: the effective one if the duty
// is known, as plates state it for the choice of fuse, else all of it.
func (in SupplyInput) heating(res SupplyResult) unit.Current {
	if in.Duty > 0 {
		return res.Effective
	}
	return in.Current
}

// LargestDraw returns the largest supply current within 5 % lost in the cord,
// the least volts and the breaker, as far as they are given.
func (in SupplyInput) LargestDraw() unit.Current {
	most := in.Cord.LargestCurrent(in.Volts * unit.Voltage(adviceAll))
	if in.LeastVolt > 0 {
		most = min(most, in.Cord.LargestCurrent(max(in.Volts-in.LeastVolt, 0)))
	}
	if in.Breaker > 0 {
		held := in.Breaker
		if in.Duty > 0 {
			held = RatedFor(in.Breaker, in.Idle, in.Duty)
		}
		most = min(most, held)
	}
	return most
}

// legHeat is what drop times current is multiplied by to give the heat of all
// conductors: 1 for the pair of one phase, √3 for three.
func legHeat(phases int) float64 {
	if phases == 3 {
		return legs(3)
	}
	return 1
}

func (in SupplyInput) limit(share unit.Ratio) Limit {
	allowed := in.Volts * unit.Voltage(share)
	l := Limit{Current: in.Cord.LargestCurrent(allowed)}
	l.Conductor, l.Found = in.Cord.Thinnest(in.Strand, in.at(allowed), allowed)
	l.Reach = in.Cord.Length * unit.Length(allowed/in.Cord.Drop(in.at(allowed)))
	return l
}
