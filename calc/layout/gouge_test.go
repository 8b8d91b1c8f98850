package layout

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/cutting"
	"kerfside/calc/material"
	"kerfside/calc/unit"
)

func someGouge(r *rand.Rand) GougeInput {
	metals := []material.Metal{material.MildSteel, material.Stainless, material.Aluminium, material.CastIron}
	in := GougeInput{Metal: metals[r.IntN(len(metals))], Power: unit.Power(3e3 + 20e3*r.Float64()), Travel: unit.Speed(0.004 + 0.02*r.Float64()), Lean: unit.Angle(15+45*r.Float64()) * unit.Degree, Length: 0.3,
		Weld: FilletWeld(unit.Length(0.004 + 0.01*r.Float64()))}
	if r.IntN(2) == 0 {
		in.Width = unit.Length(0.004 + 0.01*r.Float64())
	}
	return in
}

func mustGouge(t *testing.T, in GougeInput) GougeResult {
	t.Helper()
	res, err := ComputeGouge(in)
	if err != nil {
		t.Fatalf("%+v: %v", in, err)
	}
	return res
}

// TestGrooveSpendsItsPower: what a groove of stainless carries off and what the plate does
// are the share of the arc that is said to go in.
func TestGrooveSpendsItsPower(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 1))
	heat, _ := material.Stainless.Heat("")
	rho, _, _ := material.Stainless.Density()
	for range 500 {
		in := someGouge(r)
		in.Metal = material.Stainless
		g := mustGouge(t, in).About
		spent := float64(rho)*float64(heat.Melt+heat.Hotter)*float64(g.Area)*float64(in.Travel) + 0.8*float64(heat.Conductivity)*float64(heat.Rise())*float64(g.Depth)
		if want := 0.45 * math.Sin(float64(in.Lean)) * float64(in.Power); math.Abs(spent/want-1) > 1e-9 {
			t.Fatalf("%+v: %v W are spent, %v W go in", in, spent, want)
		}
		if in.Width == 0 && math.Abs(float64(g.Width/g.Depth)-2) > 1e-9 {
			t.Fatalf("%+v: a groove of %v by %v", in, g.Width, g.Depth)
		}
	}
}

// TestGrooveIsAKerf: an upright groove as wide in the mean as the melt of a tip is as deep
// as that tip severs.
func TestGrooveIsAKerf(t *testing.T) {
	b := cutting.Balance{Efficiency: cutting.DefaultEfficiency, Calibration: 1}
	arc := cutting.Arc{Current: 60, Volts: 124, Orifice: 1.2e-3}
	for _, metal := range []material.Metal{material.MildSteel, material.Stainless, material.Aluminium} {
		want := b.Depth(metal, "", arc, 0.01)
		in := GougeInput{Metal: metal, Power: arc.Power(), Travel: 0.01, Lean: 90 * unit.Degree, Width: 1.6 * 1.2e-3 * 1.5}
		if got := mustGouge(t, in).About.Depth; math.Abs(float64(got-want)) > 1e-12 {
			t.Errorf("%s: a groove %v deep, a kerf %v", metal, got, want)
		}
	}
}

// TestGougeLaws: more power or a steeper torch goes deeper, a faster one less deep; the
// range holds what is likeliest; fewer passes belong to the deeper groove.
func TestGougeLaws(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 2))
	for range 500 {
		in := someGouge(r)
		res := mustGouge(t, in)
		if !(res.Low.Area < res.About.Area && res.About.Area < res.High.Area && res.Low.Depth < res.About.Depth && res.About.Depth < res.High.Depth) {
			t.Fatalf("%+v: %+v is no range", in, res)
		}
		if !(res.Low.Passes >= res.About.Passes && res.About.Passes >= res.High.Passes && res.High.Passes >= 1) || res.High.Time > res.Low.Time {
			t.Fatalf("%+v: passes and times of %+v", in, res)
		}
		if g := res.About; float64(g.Passes)*float64(g.Area) < float64(in.Weld.Area)*(1-1e-9) || float64(g.Passes)*float64(g.Depth) < float64(in.Weld.Deep)*(1-1e-9) {
			t.Fatalf("%+v: %d passes do not take it out", in, g.Passes)
		}
		power, steep, fast := in, in, in
		power.Power *= 1.1
		steep.Lean *= 1.05
		fast.Travel *= 1.1
		if d := res.About.Depth; mustGouge(t, power).About.Depth <= d || mustGouge(t, steep).About.Depth <= d || mustGouge(t, fast).About.Depth >= d {
			t.Fatalf("%+v: power, lean or speed work the wrong way", in)
		}
		trial := in
		trial.TrialWidth, trial.TrialDepth = res.About.Width, res.About.Depth
		own := mustGouge(t, trial)
		if spread := float64(own.High.Area / own.Low.Area); own.About != res.About || math.Abs(spread-1.3*1.3) > 1e-9 {
			t.Fatalf("%+v: the same groove measured is %+v, want 1.3 either way", in, own)
		}
		if spread := float64(res.High.Area / res.Low.Area); in.Width > 0 && math.Abs(spread-4) > 1e-9 || spread < 3 {
			t.Fatalf("%+v: half and twice the power are sections of 1 to %v", in, spread)
		}
	}
}

// TestSectionsByStrips adds each section up in thin strips.
func TestSectionsByStrips(t *testing.T) {
	strips := func(deep float64, wide func(z float64) float64) (sum float64) {
		const n = 20000
		for i := range n {
			sum += wide((float64(i)+0.5)*deep/n) * deep / n
		}
		return sum
	}
	r := rand.New(rand.NewPCG(20, 3))
	for range 50 {
		plate, gap, half := 0.003+0.03*r.Float64(), 0.004*r.Float64(), (10+30*r.Float64())*math.Pi/180
		v := VGroove(unit.Length(plate), unit.Angle(2*half), unit.Length(gap), 0)
		if want := strips(plate, func(z float64) float64 { return gap + 2*z*math.Tan(half) }); math.Abs(float64(v.Area)/want-1) > 1e-6 {
			t.Fatalf("a V is %v m², by strips %v", v.Area, want)
		}
		wide := 0.004 + 0.02*r.Float64()
		deep := wide * (0.1 + 0.39*r.Float64())
		round, err := RoundGroove(unit.Length(wide), unit.Length(deep))
		radius := (wide*wide/4 + deep*deep) / (2 * deep)
		want := strips(deep, func(z float64) float64 { // z from the bottom
			return 2 * math.Sqrt(max(0, radius*radius-(radius-z)*(radius-z)))
		})
		if err != nil || math.Abs(float64(round.Area)/want-1) > 1e-4 {
			t.Fatalf("a round groove is %v m², by strips %v, %v", round.Area, want, err)
		}
		if area := float64(round.Area); area <= parabola*wide*deep*(1-1e-9) || area >= wide*deep {
			t.Fatalf("a round groove of %v by %v has %v m², no more than a parabola or no less than its box", wide, deep, area)
		}
	}
}
