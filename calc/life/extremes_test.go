package life

import (
	"math"
	"math/rand/v2"
	"testing"
)

// From seconds to years of arc, from no start to a million, few parts or none, alike
// or not: whatever is entered, chances are chances and lives are lives.
func TestExtremes(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 21))
	levels := []string{"", "a", "b"}
	for i := range 30 {
		var parts []Part
		for range random.IntN(8) {
			parts = append(parts, Part{
				Use:    Use{Minutes: math.Floor(math.Pow(10, -1+6*random.Float64())), Starts: math.Floor(math.Pow(10, 6*random.Float64()))},
				Failed: random.IntN(2) == 0, Seen: Seen{Metal: levels[random.IntN(3)], Rig: levels[random.IntN(3)]},
			})
		}
		for _, age := range []Use{{}, {Minutes: 10, Starts: 100}, {Minutes: 120000, Starts: 746000}} {
			res, err := ComputePartLife(PartLifeInput{Slot: "tip", Lives: parts, Age: age, Job: Use{Minutes: 60, Starts: 1}})
			if err != nil {
				t.Fatalf("%d: %v", i, err)
			}
			c := res.Lasts
			if !(0 <= c.Low && c.Low <= c.P && c.P <= c.High && c.High <= 1) {
				t.Errorf("%d: %+v of age %+v: %+v", i, parts, age, c)
			}
			if l := res.Left; !(0 <= l.Low && l.Low <= l.At && l.At <= l.High) || math.IsInf(l.High, 1) {
				t.Errorf("%d: %+v of age %+v: left %+v", i, parts, age, l)
			}
			if b := res.B10; b.Interval != (Interval{}) && !(0 < b.Low && b.Low <= b.At && b.At <= b.High) {
				t.Errorf("%d: %+v: B10 %+v", i, parts, b)
			}
		}
	}
}

// Ten thousand parts are learnt from too, alike or in groups.
func TestManyParts(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 22))
	var parts []Part
	for range 10000 {
		life := 80 * math.Pow(-math.Log(random.Float64()), 1/2.2)
		parts = append(parts, Part{Use: Use{Minutes: min(life, 90)}, Failed: life < 90, Seen: Seen{Surface: []string{"clean", "rusty"}[random.IntN(2)]}})
	}
	m := Learn(parts, PriorOf("tip"))
	want := math.Exp(-math.Pow(50.0/80, 2.2))
	if c := m.Lasts(Use{}, Use{Minutes: 50}); math.Abs(c.P-want) > 0.015 || c.High-c.Low > 0.04 {
		t.Errorf("lasts with %+v, made with %v", c, want)
	}
	if e := m.Effects(); len(e) != 1 || math.Abs(math.Log(e[0].Ratio)) > 0.05 {
		t.Errorf("effects of nothing: %+v", e)
	}
}

// Lives that are all the same are no proof that the next will be.
func TestAllAlike(t *testing.T) {
	var parts []Part
	for range 1000 {
		parts = append(parts, Part{Use: Use{Minutes: 40}, Failed: true})
	}
	m := Learn(parts, PriorOf("tip"))
	if c := m.Lasts(Use{}, Use{Minutes: 30}); !(c.P > 0.95 && c.P < 1) {
		t.Errorf("lasts three quarters of that with %+v", c)
	}
	if c := m.Lasts(Use{}, Use{Minutes: 50}); !(c.P < 0.01) {
		t.Errorf("lasts a quarter more with %+v", c)
	}
}
