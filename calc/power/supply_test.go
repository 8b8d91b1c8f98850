package power

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

func TestParseConductor(t *testing.T) {
	for text, want := range map[string]string{
		"10AWG": "10 AWG", "#10": "10 AWG", "10 awg": "10 AWG", "AWG 6": "6 AWG", "1/0": "1/0 AWG", "2/0AWG": "2/0 AWG", "00": "2/0 AWG", "0000 AWG": "4/0 AWG", "0 AWG": "1/0 AWG",
		"2.5mm²": "2.5 mm²", "2,5 mm2": "2.5 mm²", "16 sqmm": "16 mm²", "10.0mm2": "10 mm²", "0.75mm²": "0.75 mm²",
		"10/3": "10 AWG", "12/2": "12 AWG", "14/3 SJTW": "14 AWG", "12-3": "12 AWG", "8/4": "8 AWG", "3C/12AWG": "12 AWG", "10 AWG 3C": "10 AWG", "12AWG/3C": "12 AWG", "SJTW 3x10AWG (5.26mm²)": "10 AWG",
		"3G2.5": "2.5 mm²", "5G6": "6 mm²", "3G2,5": "2.5 mm²", "3x2.5": "2.5 mm²", "3×2,5 mm²": "2.5 mm²", "4X10": "10 mm²", "3g1.50mm2": "1.5 mm²", "H07RN-F 3G2.5": "2.5 mm²", "5 G 6": "6 mm²",
	} {
		if c, err := ParseConductor(text, Flexible); err != nil || c.Label != want {
			t.Errorf("ParseConductor(%q) = %q, %v, want %q", text, c.Label, err, want)
		}
	}
	for text, want := range map[string]problem.Kind{
		"10": problem.Malformed, "": problem.Malformed, "thick": problem.Malformed, "0": problem.Malformed,
		"11AWG": problem.Unknown, "3mm²": problem.Unknown, "mm²": problem.Unknown, "99/0": problem.Unknown,
		"10/30": problem.Malformed, "10/": problem.Malformed, "/3": problem.Malformed, "3G": problem.Malformed, "G2.5": problem.Malformed, "11/3": problem.Unknown, "3G3": problem.Unknown,
	} {
		if c, err := ParseConductor(text, Flexible); problem.KindOf(err) != want {
			t.Errorf("ParseConductor(%q) = %q, %v, want %s", text, c.Label, err, want)
		}
	}
	if _, err := ParseConductor("6AWG", Solid); problem.KindOf(err) != problem.Unknown {
		t.Errorf("solid 6 AWG: %v, want unknown", err)
	}
}

// TestSeriesLaws: within a series a thicker conductor always resists less, and
// resistance times area stays that of copper (K = 12.9 Ω·cmil/ft at 75 °C by
// the NEC, 0.0172 Ω·mm²/m at 20 °C and up to 20 % more for maxima of IEC 60228).
func TestSeriesLaws(t *testing.T) {
	for _, strand := range []Strand{Flexible, Solid, Tinned} {
		for _, awg := range []bool{true, false} {
			list := Series(awg, strand)
			for i, c := range list {
				if i > 0 && (c.ohms >= list[i-1].ohms || c.Area <= list[i-1].Area) {
					t.Errorf("%s %s resists as much as %s", strand, c.Label, list[i-1].Label)
				}
				if awg {
					k := float64(c.Resistance(unit.Foot, unit.Celsius(75))) * float64(c.Area/unit.CircularMil)
					if k < 12.5 || k > 13.0 {
						t.Errorf("%s %s: K = %.3f, want about 12.9", strand, c.Label, k)
					}
				} else if rho := c.ohms * float64(c.Area/unit.SquareMillimetre); rho < 0.017 || rho > 0.0207 {
					t.Errorf("%s %s: %.4f Ω·mm²/m, want copper's", strand, c.Label, rho)
				}
			}
		}
	}
}

// TestTemperature: NEC's note gives 82 % of the 75 °C value at 20 °C.
func TestTemperature(t *testing.T) {
	c, _ := ParseConductor("10AWG", Flexible)
	if got := c.Resistance(unit.Metre, unit.Celsius(20)) / c.Resistance(unit.Metre, unit.Celsius(75)); math.Abs(float64(got)-0.822) > 0.001 {
		t.Errorf("R20/R75 = %.4f, want 0.822", float64(got))
	}
}

// TestAmpacityFactor: between the rows it follows √duty, and never falls.
func TestAmpacityFactor(t *testing.T) {
	last := unit.Ratio(0)
	for d := 0.01; d <= 1; d += 0.01 {
		f := AmpacityFactor(unit.Ratio(d))
		if f < last {
			t.Errorf("the factor falls at %g", d)
		}
		if d >= 0.2 && math.Abs(float64(f)-math.Sqrt(d)) > 0.011 {
			t.Errorf("AmpacityFactor(%.2f) = %.3f, √duty %.3f", d, float64(f), math.Sqrt(d))
		}
		last = f
	}
}

func randomCord(r *rand.Rand) Cord {
	list := Series(r.IntN(2) == 0, Flexible)
	return Cord{Conductor: list[r.IntN(len(list))], Length: unit.Length(0.5 + 200*r.Float64()), At: unit.Celsius(-40 + 160*r.Float64()), Phases: 1 + 2*r.IntN(2)}
}

// TestCordLaws: limits just hold, thicker is not needed than Thinnest says, and
// a constant power finds the volts that it makes.
func TestCordLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 12))
	for i := range 500 {
		t.Run(fmt.Sprintf("seed 11,12 cord %d", i), func(t *testing.T) {
			c := randomCord(random)
			volts, current := unit.Voltage(100+400*random.Float64()), unit.Current(1+50*random.Float64())
			res, err := ComputeSupply(SupplyInput{Current: current, Volts: volts, Cord: c, Strand: Flexible})
			if c.Drop(current) >= volts {
				if problem.KindOf(err) != problem.Refused {
					t.Fatalf("a cord that lets nothing through gives %v", err)
				}
				return
			}
			if err != nil || math.Abs(float64(res.AtMachine+res.Drop-volts)) > 1e-9 {
				t.Fatalf("volts do not add up: %+v, %v", res, err)
			}
			if got := c.Drop(res.Run.Current) / volts; math.Abs(float64(got)-0.03) > 1e-12 {
				t.Errorf("the current for 3 %% loses %v", got)
			}
			longer := c
			longer.Length = res.All.Reach
			if got := longer.Drop(current) / volts; math.Abs(float64(got)-0.05) > 1e-12 {
				t.Errorf("the reach for 5 %% loses %v", got)
			}
			if res.Run.Found {
				thick := c
				thick.Conductor = res.Run.Conductor
				if thick.Drop(current) > volts*0.03*(1+1e-9) {
					t.Errorf("%s does not keep to 3 %%", thick.Conductor.Label)
				}
			}
			power := unit.ApparentPower(float64(current) * float64(volts))
			if u, drawn, ok := c.Under(volts, power); ok {
				if math.Abs(float64(u-(volts-c.Drop(drawn)))) > 1e-6 || math.Abs(float64(Current(power, u, c.Phases)-drawn)) > 1e-6 {
					t.Errorf("under a constant power: %v V and %v A do not fit", u, drawn)
				}
			}
		})
	}
}

// TestDrawLaws: with a machine that takes its power whatever the volts, the
// margins turn from enough to too little exactly where the volts that arrive
// pass the limit, and the conductor found keeps to it.
func TestDrawLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(13, 14))
	for i := range 500 {
		t.Run(fmt.Sprintf("seed 13,14 cord %d", i), func(t *testing.T) {
			in := SupplyInput{Cord: randomCord(random), Strand: Flexible, Volts: unit.Voltage(100 + 400*random.Float64()), Draw: unit.ApparentPower(500 + 9000*random.Float64())}
			in.LeastVolt = in.Volts * unit.Voltage(0.75+0.2*random.Float64())
			res, err := ComputeSupply(in)
			if err != nil {
				if m := in.CordMargin(); problem.KindOf(err) != problem.Refused || m >= 0 {
					t.Fatalf("refused with %v and a cord margin of %v", err, m)
				}
				return
			}
			if fits := res.Drop <= in.Volts*unit.Voltage(adviceAll); fits != (in.CordMargin() >= 0) {
				t.Errorf("%v of %v V are lost, and the cord's margin is %v", res.Drop, in.Volts, in.CordMargin())
			}
			if fits := res.AtMachine >= in.LeastVolt; fits != (in.VoltMargin() >= 0) {
				t.Errorf("%v V arrive of at least %v, and the margin is %v", res.AtMachine, in.LeastVolt, in.VoltMargin())
			}
			if res.All.Found {
				thick := in
				thick.Cord.Conductor = res.All.Conductor
				if again, err := ComputeSupply(thick); err != nil || again.Share > adviceAll*(1+1e-9) {
					t.Errorf("%s does not keep to 5 %%: %v, %v", thick.Cord.Conductor.Label, again.Share, err)
				}
			}
			in.Cord.Length = res.All.Reach
			if again, err := ComputeSupply(in); err != nil || math.Abs(float64(again.Share-adviceAll)) > 1e-9 {
				t.Errorf("the reach for 5 %% loses %v, %v", again.Share, err)
			}
		})
	}
}
