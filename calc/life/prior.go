package life

import (
	"math"

	"gonum.org/v1/gonum/mathext"

	"kerfside/calc/source"
)

// Prior is what is taken for granted before there is history: weak, so that a few
// parts of the crew's own outweigh it. It speaks of equivalent minutes.
type Prior struct {
	Slot string

	Scale float64 // even odds that two parts in three are gone by then
	Low   float64 // 1 in 20 that they are gone as early as this
	Fades bool    // once n of the crew's own have failed, these two weigh (1 + n)² times less

	Shape       float64 // even odds: 1 is failing by chance, above is wearing out
	ShapeSpread float64 // standard deviation of ln shape

	PerStart       float64 // even odds: minutes that a start counts as
	PerStartSpread float64 // standard deviation of its ln

	Groups float64 // standard deviation of ln life between metals, surfaces, rigs …

	Basis source.ID
}

// priors are the authors' own, from what is said of such parts in the trade. No
// source was found for a hand torch that names no maker. Low is not far below half of
// Scale: with less, a few parts are thought to last for days, and one that has done its
// usual life is told to be likelier to last than a new one. But so near a Low holds out
// against a crew whose parts last a quarter as long, however many wear out: so it fades.
// The square is found by simulation, see TestCoverage (the idea: Ibrahim and Chen, Power
// prior distributions for regression models, Statistical Science 15, 46–60, 2000, from
// memory).
var priors = []Prior{
	{Slot: "tip", Scale: 90, Low: 50, Fades: true, Shape: 2, ShapeSpread: 0.5, PerStart: 0.2, PerStartSpread: 1, Groups: 0.35, Basis: source.Judged},
	{Slot: "electrode", Scale: 150, Low: 85, Fades: true, Shape: 2, ShapeSpread: 0.5, PerStart: 0.4, PerStartSpread: 1, Groups: 0.35, Basis: source.Judged},
	{Slot: "diffuser", Scale: 900, Low: 450, Fades: true, Shape: 1.5, ShapeSpread: 0.5, PerStart: 0.2, PerStartSpread: 1, Groups: 0.35, Basis: source.Judged},
	{Slot: "cup", Scale: 1200, Low: 600, Fades: true, Shape: 1.5, ShapeSpread: 0.5, PerStart: 0.2, PerStartSpread: 1, Groups: 0.35, Basis: source.Judged},
}

// PriorOf returns the stated prior of a slot; that of a tip for one that is not
// known.
func PriorOf(slot string) Prior {
	for _, p := range priors {
		if p.Slot == slot {
			return p
		}
	}
	return priors[0]
}

// gamma is a distribution of scale^−shape, of shape a and rate a·mid^shape.
type gamma struct{ a, mid float64 }

// rate returns what the two statements about the scale make of scale^−shape:
//
//	G⁻¹(0.95; a) / G⁻¹(0.5; a) = (Scale/Low)^shape,  rate = G⁻¹(0.5; a)·Scale^shape
//
// (NIST/SEMATECH e-Handbook 8.2.5, there for shape 1).
func (p Prior) rate(shape float64) gamma {
	want := min(shape*math.Log(p.Scale/p.Low), 100) // beyond, a is next to nothing
	a := math.Exp(root(func(lnA float64) float64 {
		a := math.Exp(lnA)
		return math.Log(mathext.GammaIncRegInv(a, 0.95)/mathext.GammaIncRegInv(a, 0.5)) - want
	}, math.Log(5e-3), math.Log(1e6)))
	return gamma{a: a, mid: p.Scale * math.Pow(mathext.GammaIncRegInv(a, 0.5)/a, 1/shape)}
}
