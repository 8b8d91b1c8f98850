package power

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// twoPlates reads what ReadInlet and ReadRating read.
var twoPlates = form.Calculator{Name: "plates", Fields: append(append(BothFields(), InletFields()...),
	form.Field{Key: "max_current", Takes: form.Number[unit.Current]("A", "A"), Optional: true})}

// TestInletDraw holds that a machine draws the input current of its plate at the
// current that the plate states, whatever was taken for its efficiency.
func TestInletDraw(t *testing.T) {
	for _, c := range []struct {
		volts  unit.Voltage
		top    unit.Current
		draws  unit.Current
		phases int
	}{{volts: 120, top: 27, draws: 25, phases: 1}, {volts: 230, top: 45, draws: 24, phases: 1}, {volts: 230, top: 45, draws: 20, phases: 1}, {volts: 400, top: 60, draws: 11, phases: 3}} {
		for _, before := range []Machine{{0.85, 0.7}, {0.6, 0.95}} {
			r := form.NewReader(&twoPlates, nil)
			v := Inlet{Volts: c.volts, Max: c.top}
			m := Rating{Draws: c.draws}.Machine(r, before, v, c.top, c.phases)
			p, s := m.Draw(LoadVolts(c.top), c.top)
			if got := Current(s, c.volts, c.phases); r.Err() != nil || math.Abs(float64(got-c.draws)) > 1e-9 || float64(p) > float64(s)*(1+1e-12) {
				t.Errorf("%v from %v: %v of %v A, %v of %v VA, %v", c, before, got, c.draws, p, s, r.Err())
			}
		}
	}
}

// TestInletPick holds that the plate picked is the nearer one, whichever was
// entered first, and that volts far from both are refused.
func TestInletPick(t *testing.T) {
	rnd := rand.New(rand.NewPCG(10, 2))
	picked, refused := 0, 0
	for range 2000 {
		plates := []float64{100 + 30*rnd.Float64(), 200 + 50*rnd.Float64()}
		volts := 90 + 200*rnd.Float64()
		var got [2]Inlet
		var errs [2]error
		for k := range 2 {
			r := form.NewReader(&twoPlates, map[string]any{"volts": fmt.Sprint(volts), "plate_volts": fmt.Sprint(plates[k]), "plate_volts_2": fmt.Sprint(plates[1-k]),
				"max_current": "27A", "max_current_2": "45A"})
			got[k] = ReadInlet(r)
			errs[k] = r.Err()
		}
		nearer := 0
		if math.Abs(math.Log(volts/plates[1])) < math.Abs(math.Log(volts/plates[0])) {
			nearer = 1
		}
		fits := volts <= 1.1*plates[nearer] && volts >= 0.75*plates[nearer]
		for k := range 2 {
			if (errs[k] == nil) != fits || math.Abs(float64(got[k].Volts)-plates[nearer]) > 1e-9 || (got[k].Key == "") != (k == nearer) {
				t.Fatalf("%.1f V on %.1f and %.1f: picked %.1f (%q), %v", volts, plates[k], plates[1-k], float64(got[k].Volts), got[k].Key, errs[k])
			}
		}
		if fits {
			picked++
		} else {
			refused++
		}
	}
	if picked == 0 || refused == 0 {
		t.Errorf("%d picked, %d refused: the test shows nothing", picked, refused)
	}
}
