package main

import (
	"math"
	"math/rand/v2"

	"kerfside/calc/chance"
	"kerfside/calc/cutting"
	"kerfside/calc/material"
	"kerfside/calc/unit"
)

// What is true of the invented crew stands here. The demo draws from it with a fixed
// seed, and tests hold what the calculators learn of the journal against it.

// demoSeed makes the demo the same each time but for its dates.
const demoSeed = 2

// demoLaw is how long the parts of a slot last: their lives follow a Weibull law of this
// shape. A life is counted in minutes of arc and in starts, each worth so many minutes.
type demoLaw struct {
	shape, perStart float64
	scale           map[string]float64 // minutes, on mild steel, by truck
}

// demoLaws are those of all slots.
var demoLaws = map[string]demoLaw{
	"tip":       {shape: 4, perStart: 0.3, scale: map[string]float64{"truck-1": 34, "truck-2": 28}},
	"electrode": {shape: 4, perStart: 0.6, scale: map[string]float64{"truck-1": 62, "truck-2": 52}},
	"diffuser":  {shape: 1.6, perStart: 0.2, scale: map[string]float64{"truck-1": 420, "truck-2": 380}},
	"cup":       {shape: 1.6, perStart: 0.2, scale: map[string]float64{"truck-1": 520, "truck-2": 460}},
	"o-ring":    {shape: 1.3, perStart: 0, scale: map[string]float64{"truck-1": 300, "truck-2": 300}},
}

// demoMetals say how many times as long parts last on a metal as on mild steel.
var demoMetals = map[string]float64{"mild-steel": 1, "stainless": 0.7}

// demoSevers is how many times as fast a truck severs as the reckoning says: what its
// calibration is to find.
var demoSevers = map[string]float64{"truck-1": 1.2, "truck-2": 0.8}

// A part that has done what the scale of its law says has worn so far: a tip's bore has
// grown by this share of what it was, an electrode's pit is so deep. Both grow in step with
// minutes and starts, alike in all parts, whichever of them goes early. What is read is off
// by chance.
const (
	demoGrowth    = 0.13
	demoPit       = 1250.0 // µm
	demoRound     = 0.7    // the narrowest way across the bore grows by this share of the widest
	demoReadBore  = 8.0    // µm, standard deviation
	demoReadPit   = 45.0
	demoHandSpeed = 0.10 // standard deviation of ln speed
)

// on is how many minutes the parts of a slot last on a truck and a metal.
func (l demoLaw) on(truck, metal string) float64 { return l.scale[truck] * demoMetals[metal] }

// demoChance draws all that is chance.
type demoChance struct{ *rand.Rand }

func newDemoChance() demoChance { return demoChance{rand.New(rand.NewPCG(demoSeed, demoSeed))} }

// demoSpread draws numbers between 0 and 1 that lie more evenly than chance would have
// them: of any run of them about as many are in each part of the range. So a few parts,
// and a few cuts, show the law behind them, whatever else of the demo changes.
type demoSpread struct{ at, step float64 }

// The steps are irrational, and no two of them go together.
const (
	demoGolden = math.Phi - 1
	demoSilver = math.Sqrt2 - 1
)

func (s *demoSpread) next() float64 {
	s.at += s.step
	s.at -= math.Floor(s.at)
	return s.at
}

// life draws a life in shares of the scale.
func (s *demoSpread) life(shape float64) float64 { return math.Pow(-math.Log1p(-s.next()), 1/shape) }

// off draws a factor that is normal in its logarithm.
func (s *demoSpread) off(spread float64) float64 {
	return math.Exp(spread * chance.NormalQuantile(s.next()))
}

// off draws a factor that is normal in its logarithm.
func (c demoChance) off(spread float64) float64 { return math.Exp(spread * c.NormFloat64()) }

// in draws a whole number from low to high.
func (c demoChance) in(low, high int) int { return low + c.IntN(high-low+1) }

// likely is true with chance p.
func (c demoChance) likely(p float64) bool { return c.Float64() < p }

// of draws one of a list.
func of[T any](c demoChance, list ...T) T { return list[c.IntN(len(list))] }

// demoTips are the tips in the torches: what they are rated at, and their new bore in µm.
var demoTips = map[string]struct{ amps, bore int64 }{"truck-1": {amps: 45, bore: 1050}, "truck-2": {amps: 60, bore: 1200}}

// demoReckoned is the speed that the reckoning says would just sever on a truck at its
// full amps, in µm/s.
func demoReckoned(truck, metal string, plate int64) (float64, error) {
	tip := demoTips[truck]
	tries, err := cutting.Expect([]cutting.CutTried{{Metal: material.Metal(metal), Thickness: unit.Length(plate) * unit.Micrometre, Current: unit.Current(tip.amps)}},
		"", cutting.Rig{Tips: []cutting.Tip{{Rated: unit.Current(tip.amps), Orifice: unit.Length(tip.bore) * unit.Micrometre}}},
		cutting.Balance{Efficiency: cutting.DefaultEfficiency, Calibration: 1})
	if err != nil {
		return 0, err
	}
	return float64(tries[0].Most) / float64(unit.Micrometre), nil
}
