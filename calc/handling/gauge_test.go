package handling

import (
	"math"
	"testing"

	"kerfside/calc/material"
	"kerfside/calc/unit"
)

// A nominal sheet found by its thickness or its weight is the number it came
// from, with nothing off: all three ways to ask agree.
func TestGaugeBothWays(t *testing.T) {
	for _, metal := range sheetMetals {
		g, err := material.GaugingOf(metal)
		if err != nil {
			t.Fatal(err)
		}
		for n := g.First; n <= g.Last; n++ {
			by, err := ComputeGauge(GaugeInput{Metal: metal, Number: material.GaugeName(n)})
			if err != nil {
				t.Fatalf("%s %s: %v", metal, material.GaugeName(n), err)
			}
			for name, in := range map[string]GaugeInput{
				"thickness": {Metal: metal, Thickness: by.Thickness},
				"weight":    {Metal: metal, Weight: by.Weight},
			} {
				got, err := ComputeGauge(in)
				if err != nil || got.Number != n || math.Abs(float64(got.Off)) > 1e-12 {
					t.Errorf("%s %s by %s = number %d off %v, %v", metal, material.GaugeName(n), name, got.Number, got.Off, err)
				}
			}
		}
	}
}

// Whatever is measured between the ends of a gauging, the nearest number is
// never further off than half the step to its neighbour.
func TestGaugeNearest(t *testing.T) {
	g, err := material.GaugingOf(material.MildSteel)
	if err != nil {
		t.Fatal(err)
	}
	for mm := 0.16; mm < 6.2; mm += 0.013 {
		got, err := ComputeGauge(GaugeInput{Metal: material.MildSteel, Thickness: unit.Length(mm) * unit.Millimetre})
		if err != nil {
			t.Errorf("%.3f mm: %v", mm, err)
			continue
		}
		off := math.Abs(mm/1000 - float64(got.Thickness))
		for _, n := range []int{got.Number - 1, got.Number + 1} {
			if n >= g.First && n <= g.Last && math.Abs(mm/1000-float64(g.Thickness(n))) < off {
				t.Errorf("%.3f mm: number %d is nearer than %d", mm, n, got.Number)
			}
		}
	}
}
