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

	Shape       float64 // even odds: 1 is failing by chance, above is wearing out
	ShapeSpread float64 // standard deviation of ln shape

	PerStart       float64 // even odds: minutes that a start counts as
	PerStartSpread float64 // standard deviation of its ln

	Groups float64 // standard deviation of ln life between metals, surfaces, rigs …

	Basis source.ID
}

// priors are the authors' own, from what is said of such parts in the trade. No
// source was found for a hand torch that names no maker.
var priors = []Prior{
	{Slot: "tip", Scale: 90, Low: 25, Shape: 2, ShapeSpread: 0.5, PerStart: 0.2, PerStartSpread: 1, Groups: 0.35, Basis: source.Judged},
	{Slot: "electrode", Scale: 150, Low: 40, Shape: 2, ShapeSpread: 0.5, PerStart: 0.4, PerStartSpread: 1, Groups: 0.35, Basis: source.Judged},
	{Slot: "diffuser", Scale: 900, Low: 200, Shape: 1.5, ShapeSpread: 0.5, PerStart: 0.2, PerStartSpread: 1, Groups: 0.35, Basis: source.Judged},
	{Slot: "cup", Scale: 1200, Low: 250, Shape: 1.5, ShapeSpread: 0.5, PerStart: 0.2, PerStartSpread: 1, Groups: 0.35, Basis: source.Judged},
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

// rate returns the Gamma distribution of scale^−shape, with shape a and rate
// B = a·mid^shape, that the two statements about the scale make:
//
//	G⁻¹(0.95; a) / G⁻¹(0.5; a) = (Scale/Low)^shape,  B = G⁻¹(0.5; a)·Scale^shape
//
// (NIST/SEMATECH e-Handbook 8.2.5, there for shape 1).
func (p Prior) rate(shape float64) (a, mid float64) {
	want := shape * math.Log(p.Scale/p.Low)
	low, high := math.Log(1e-3), math.Log(1e6)
	for range 100 {
		m := (low + high) / 2
		a = math.Exp(m)
		if math.Log(mathext.GammaIncRegInv(a, 0.95)/mathext.GammaIncRegInv(a, 0.5)) > want {
			low = m
		} else {
			high = m
		}
	}
	return a, p.Scale * math.Pow(mathext.GammaIncRegInv(a, 0.5)/a, 1/shape)
}
