package air

import (
	"math"
	"testing"

	"kerfside/calc/unit"
)

// TestTraceKeepsTheRhythm: a rhythm that Rhythm calls sustainable brings the
// pressure back to cut-out after each round and never under the least.
func TestTraceKeepsTheRhythm(t *testing.T) {
	anr := references[0]
	c := Compressor{Delivery: anr.Mass(120 * unit.LitrePerMinute), Duty: 1, CutIn: 6.5 * unit.Bar, CutOut: 8 * unit.Bar}
	tank := Receiver{50 * unit.Litre, unit.Celsius(20)}
	draw, least := anr.Mass(170*unit.LitrePerMinute), 5.5*unit.Bar
	rhythm, forever := c.Rhythm(tank, draw, least)
	if forever {
		t.Fatal("this compressor should not keep up for ever")
	}
	points := c.Trace(tank, draw, rhythm, 3)
	lowest := points[0].Pressure
	for i, p := range points {
		lowest = min(lowest, p.Pressure)
		if i > 0 && p.At < points[i-1].At {
			t.Fatalf("time runs backwards at point %d", i)
		}
	}
	if math.Abs(float64(lowest-least)) > 1 {
		t.Errorf("lowest pressure %v, want %v", lowest, least)
	}
	last := points[len(points)-1]
	if math.Abs(float64(last.Pressure-c.CutOut)) > 1 {
		t.Errorf("after three rounds %v, want full at %v", last.Pressure, c.CutOut)
	}
	if want := 3 * (rhythm.Open + rhythm.Wait); math.Abs(float64(last.At-want)) > 1e-3 {
		t.Errorf("three rounds take %v, want %v", last.At, want)
	}
}

// TestTraceBalancesMass: what was drawn and not delivered is missing.
func TestTraceBalancesMass(t *testing.T) {
	c := Compressor{CutIn: 2 * unit.Bar, CutOut: 8 * unit.Bar}
	tank := Receiver{100 * unit.Litre, unit.Celsius(20)}
	points := c.Trace(tank, 0.002, Rhythm{Open: 60}, 1)
	got := tank.Mass(points[0].Pressure - points[len(points)-1].Pressure)
	if math.Abs(float64(got)-0.12) > 1e-9 {
		t.Errorf("missing %v kg, want 0.12", got)
	}
	empty := c.Trace(tank, 0.1, Rhythm{Open: 60}, 1)
	if p := empty[len(empty)-1].Pressure; p != 0 {
		t.Errorf("an empty tank stands at %v", p)
	}
}
