package air

import (
	"math"
	"testing"

	"kerfside/calc/unit"
)

// What a worn tip needs is the plate's figure and what more passes the
// orifice: never less than a new tip's, more with each wider bore, and as much
// as ComputeFlow tells. Half of the plate's air is not scaled along.
func TestWornNeed(t *testing.T) {
	in := FlowInput{Plate: 120 * unit.LitrePerMinute, Orifice: 0.95 * unit.Millimetre, TipPressure: 5 * unit.Bar,
		Discharge: RoundedEntrance, Temperature: unit.Celsius(20), Reference: references[0]}
	fresh := in.through(in.Orifice)
	last := in.WornNeed()
	if last != in.Plate {
		t.Fatalf("need without a reading = %v, want the plate's %v", last, in.Plate)
	}
	for growth := 0.01; growth < 0.4; growth += 0.01 {
		in.Measured = in.Orifice * unit.Length(1+growth)
		need := in.WornNeed()
		if need <= last {
			t.Errorf("grown by %.2f: needs %v after %v", growth, need, last)
		}
		if want := in.Plate + fresh*unit.Flow((1+growth)*(1+growth)-1); math.Abs(float64(need/want)-1) > 1e-12 {
			t.Errorf("grown by %.2f: needs %v, want %v", growth, need, want)
		}
		if res, err := ComputeFlow(in); err != nil || res.WornPlate != need {
			t.Errorf("grown by %.2f: ComputeFlow tells %v (%v), WornNeed %v", growth, res.WornPlate, err, need)
		}
		last = need
	}
	in.TipPressure = 0
	if got := in.WornNeed(); got != in.Plate {
		t.Errorf("need without a pressure = %v, want the plate's %v", got, in.Plate)
	}
}
