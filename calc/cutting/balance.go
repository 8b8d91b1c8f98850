package cutting

import (
	"math"

	"kerfside/calc/material"
	"kerfside/calc/power"
	"kerfside/calc/unit"
)

// Arc is what burns between torch and work.
type Arc struct {
	Current unit.Current
	Volts   unit.Voltage // of the arc, not of the machine's input
	Orifice unit.Length  // diameter of the tip's bore
}

// Power is U·I.
func (a Arc) Power() unit.Power { return unit.Power(float64(a.Volts) * float64(a.Current)) }

// RatedVolts is the arc voltage that a plasma source is rated at, power.LoadVolts (IEC 60974-1, from memory): a rating line, not a measurement. Real
// arcs lie within some 30 % of it, small torches with a long narrow bore above.
func RatedVolts(i unit.Current) unit.Voltage { return power.LoadVolts(i) }

// meltWidth is how wide the melt runs against the orifice. The kerf that is
// left is narrower; see kerfWidth. From memory.
const meltWidth = 1.6

// Balance is the steady energy balance of a kerf, per depth of cut:
//
//	η·U·I / a  =  ρ·H·w·v  +  C            w = 1.6 × orifice
//
// a is the thickness along the torch, v the speed that just severs, ρ·H the
// heat to melt and throw out a volume of metal, C the heat that the plate
// carries away. η, the share of the arc's power that the kerf takes, is one
// number for all metals. With
//
//	C = 0.8·k·ΔT
//
// as a floor, v comes out without a further constant. Range: currents of 10 to
// 1000 A, plate that C alone does not use up; beyond that Sever returns 0.
//
// # How well it predicts
//
// All 28 rows of tables 17-2 and 17-3 and of Mathers' table 4.1 that state a
// current are vectors of cut-plan with one tolerance, a factor of 1.5; 19 keep to it
// and the others stand there as known misses. Nothing was fitted on them. The 19
// rows that state volts or kilowatts are off by a typical factor of 1.48, the 9 that
// state none by 1.65, reckoned with RatedVolts.
// Stainless 6, 25 and 51 mm: 1.03, 1.09 and 1.40 times the printed speed; thick
// plate was cut slower there than energy asks, for squareness and dross.
// Aluminium lies between 0.43 and 2.35, and no smooth law comes much nearer,
// because the tables scatter: 13 mm runs as fast by volume at 250 A as energy would
// ask of 400, and Mathers prints 100 mm faster than 75 mm and 50 mm as fast as 25 mm.
// No row covers mild steel, nor any metal by hand below 60 A.
//
// Three forms of C were compared with η refitted for each on the aluminium rows
// alone (their median), melt 100 K over liquidus, by their typical factor on the
// nine rows of 17-2 and 17-3 and by what they make of a hand torch, 100 A on
// 25 mm of steel without burning (TestConductionForms prints and holds them):
//
//	C                                 η     off by   hand torch
//	0.8·k·ΔT                          0.27  1.41     0.21 m/min
//	4·k·ΔT·(v·w/2α)^0.36 (Schulz)     0.46  1.28     0.15 m/min
//	width of Rosenthal's isotherm     0.46  1.39     0.17 m/min
//	0.8·k·ΔT, oxide skin              0.45  1.36     0.40 m/min
//
// Schulz's form is the best on those rows, all of 250 A and more. Carried down
// to a hand torch it lets 100 A barely sever 25 mm, which the Health and Safety
// Executive names as ordinary hand cutting. The fourth line is what stands here: aluminium does not lose
// more to the plate but leaves hotter, since its oxide skin has to melt as well
// (see material.Heat). That explains the same rows nearly as well with one η
// and holds at the hand torch's scale. It is a reading, not a proof: trial
// strips and the crew's own cuts decide.
//
// Mild steel is never slower than stainless at the same setting: iron of the
// kerf burns in air (4.87 MJ per kg of iron burnt to FeO), which the balance
// does not know, so the faster of the two balances stands. Grey iron is held to
// stainless from above, since its graphite and sand spoil the jet; that is the
// authors' judgement.
type Balance struct {
	Efficiency unit.Ratio // η

	// Calibration multiplies the speed: what the user's own cuts have taught,
	// 1 until they have.
	Calibration unit.Ratio

	// conduct returns C in W/m at speed v and melt width w. nil stands for the
	// floor 0.8·k·ΔT; tests put other forms here to compare them.
	conduct func(h material.Heat, rho unit.Density, v unit.Speed, w unit.Length) float64
}

// DefaultEfficiency is the η of Balance. The authors' choice; see there.
const DefaultEfficiency unit.Ratio = 0.45

// lossShare is the share of k·ΔT that the plate carries away at least: C of Balance.
const lossShare = 0.8

// fastest bounds the search for a speed; no hand or gantry comes near it.
const fastest = 20 * unit.MetrePerSecond

// perDepth is ρ·H·w·v + C in watts per metre of depth: a search for a speed looks the
// metal up once.
type perDepth struct {
	melt, floor float64                    // ρ·H·w and 0.8·k·ΔT
	conduct     func(v unit.Speed) float64 // C in place of the floor; nil for none
}

func (b Balance) perDepth(m material.Metal, alloy material.Alloy, w unit.Length) perDepth {
	h, _ := m.Heat(alloy)
	rho, _, _ := m.Density()
	p := perDepth{melt: float64(rho) * float64(h.Melt+h.Hotter) * float64(w), floor: lossShare * float64(h.Conductivity) * float64(h.Rise())}
	if conduct := b.conduct; conduct != nil {
		p.conduct = func(v unit.Speed) float64 { return conduct(h, rho, v, w) }
	}
	return p
}

// at is what a speed needs.
func (p *perDepth) at(v unit.Speed) float64 {
	if p.conduct != nil {
		return p.melt*float64(v) + p.conduct(v)
	}
	return p.melt*float64(v) + p.floor
}

// own is what a speed needs by the metal's own balance, need with what Balance says of
// burning iron and of grey iron.
func (b Balance) own(m material.Metal, alloy material.Alloy, w unit.Length, v unit.Speed) float64 {
	p := b.perDepth(m, alloy, w)
	return p.at(v)
}

func (b Balance) need(m material.Metal, alloy material.Alloy, w unit.Length, v unit.Speed) float64 {
	own := b.own(m, alloy, w, v)
	switch m {
	case material.MildSteel, material.Galvanised:
		return min(own, b.own(material.Stainless, "", w, v))
	case material.CastIron:
		return max(own, b.own(material.Stainless, "", w, v))
	}
	return own
}

// Sever returns the speed that just severs thickness a, or 0 if the arc cannot
// sever it at any speed. The speed falls with a and rises with the current.
func (b Balance) Sever(m material.Metal, alloy material.Alloy, arc Arc, a unit.Length) unit.Speed {
	have := float64(b.Efficiency) * float64(arc.Power()) / float64(a)
	w := meltWidth * arc.Orifice
	v := b.speed(m, alloy, w, have)
	switch m { // as in need
	case material.MildSteel, material.Galvanised:
		v = max(v, b.speed(material.Stainless, "", w, have))
	case material.CastIron:
		v = min(v, b.speed(material.Stainless, "", w, have))
	}
	return v * unit.Speed(b.Calibration)
}

// speed returns the speed at which the metal's own balance needs that power per
// depth; 0 if it needs more at any speed.
func (b Balance) speed(m material.Metal, alloy material.Alloy, w unit.Length, have float64) unit.Speed {
	need := b.perDepth(m, alloy, w)
	low, high := unit.Speed(0), fastest
	still := need.at(0)
	if still >= have {
		return 0
	}
	if need.conduct == nil { // the need is a line
		return min(unit.Speed((have-still)/(need.at(1)-still)), fastest)
	}
	for range 200 { // a double holds no more halvings
		mid := (low + high) / 2
		if mid == low || mid == high {
			break
		}
		if need.at(mid) < have {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// Depth returns the thickness that the arc just severs at speed v: the inverse
// of Sever.
func (b Balance) Depth(m material.Metal, alloy material.Alloy, arc Arc, v unit.Speed) unit.Length {
	return b.Groove(m, alloy, arc.Power(), meltWidth*arc.Orifice, v)
}

// Groove returns how deep a groove of that mean width runs at speed v. It is a kerf that
// does not go through: all of the arc's power that Efficiency leaves goes into its depth.
func (b Balance) Groove(m material.Metal, alloy material.Alloy, power unit.Power, mean unit.Length, v unit.Speed) unit.Length {
	return unit.Length(float64(b.Efficiency) * float64(power) / b.need(m, alloy, mean, v/unit.Speed(b.Calibration)))
}

// kerfRatio is kerf over orifice until a kerf was measured. From memory.
const kerfRatio = 1.3

// KerfWidth returns the width that a cut takes out, for layout.
func KerfWidth(orifice unit.Length) unit.Length { return kerfRatio * orifice }

// OrificeFor guesses the bore of a tip of that rating, at 50 A/mm² of bore:
// hand torches run hotter than the 23 to 38 A/mm² of handbook nozzles. From
// memory; a tip's own figure is always better.
func OrificeFor(rated unit.Current) unit.Length {
	return unit.Length(math.Sqrt(4 * float64(rated) / (math.Pi * 50e6)))
}
