package power

import (
	"math"
	"testing"

	"kerfside/calc/unit"
)

func set() GeneratorInput {
	return GeneratorInput{
		Machine: Machine{0.85, 0.7}, Current: 30, Stretch: 1.4, Rated: 8 * unit.Kilovoltampere, Headroom: 0.2,
		Running: 2 * unit.Kilovoltampere, Starting: 12 * unit.Kilovoltampere, Altitude: 1500, Temperature: unit.Celsius(40),
	}
}

// TestLargestCurrentUsesUpTheSet: the current that the inverse gives leaves a
// margin of nothing.
func TestLargestCurrentUsesUpTheSet(t *testing.T) {
	for _, volts := range []unit.Voltage{0, 110} {
		in := set()
		in.Volts = volts
		first, err := ComputeGenerator(in)
		if err != nil {
			t.Fatal(err)
		}
		in.Current = first.Largest
		again, err := ComputeGenerator(in)
		if err != nil || math.Abs(float64(again.Margin)) > 1e-9 {
			t.Errorf("at %v V and its largest current %v: margin %v, %v, want 0", volts, first.Largest, again.Margin, err)
		}
	}
}

// TestGeneratorLaws: a larger set gives more current; height, heat, headroom, a
// compressor and a longer arc leave less.
func TestGeneratorLaws(t *testing.T) {
	base, err := ComputeGenerator(set())
	if err != nil {
		t.Fatal(err)
	}
	change := map[string]struct {
		do   func(*GeneratorInput)
		more bool
	}{
		"a larger set":    {func(in *GeneratorInput) { in.Rated *= 1.5 }, true},
		"no compressor":   {func(in *GeneratorInput) { in.Running, in.Starting = 0, 0 }, true},
		"higher up":       {func(in *GeneratorInput) { in.Altitude = 2500 }, false},
		"hotter":          {func(in *GeneratorInput) { in.Temperature = unit.Celsius(50) }, false},
		"more headroom":   {func(in *GeneratorInput) { in.Headroom = 0.4 }, false},
		"a longer arc":    {func(in *GeneratorInput) { in.Stretch = 1.8 }, false},
		"a worse cos phi": {func(in *GeneratorInput) { in.Machine.PowerFactor = 0.5 }, false},
		"less real power": {func(in *GeneratorInput) { in.RatedPower = 2 * unit.Kilowatt }, false},
	}
	for name, c := range change {
		in := set()
		c.do(&in)
		got, err := ComputeGenerator(in)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if more := got.Largest > base.Largest; more != c.more || got.Largest == base.Largest {
			t.Errorf("%s: largest current %v against %v, want more = %v", name, got.Largest, base.Largest, c.more)
		}
	}
}

// TestSiteTakesAll: where nothing is left, it says so.
func TestSiteTakesAll(t *testing.T) {
	in := set()
	in.Altitude = 12000
	if _, err := ComputeGenerator(in); err == nil {
		t.Error("a set at 12000 m is reckoned with")
	}
}
