package cutting

import (
	"math"
	"strings"
	"testing"

	"kerfside/calc/material"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// The worse grade stands wherever a limit is in doubt, and it is said that only
// a trial strip settles it.
func TestGradeOf(t *testing.T) {
	b := LimitBand{
		Least: Limits{Clean: 8e-3, Sever: 12e-3},
		About: Limits{Clean: 9.5e-3, Sever: 14e-3},
		Most:  Limits{Clean: 11e-3, Sever: 17e-3},
	}
	tests := []struct {
		path    unit.Length
		want    Grade
		settled bool
	}{
		{path: 7e-3, want: CutsClean, settled: true},
		{path: 8e-3, want: CutsClean, settled: true},
		{path: 9e-3, want: SeversRough},
		{path: 11e-3, want: SeversRough},
		{path: 11.5e-3, want: SeversRough, settled: true},
		{path: 13e-3, want: WillNotCut},
		{path: 16e-3, want: WillNotCut},
		{path: 18e-3, want: WillNotCut, settled: true},
	}
	for _, test := range tests {
		if got, settled := b.GradeOf(test.path); got != test.want || settled != test.settled {
			t.Errorf("GradeOf(%v) = %s, %v, want %s, %v", test.path, got, settled, test.want, test.settled)
		}
	}
}

func TestGradeWords(t *testing.T) {
	for g, want := range map[Grade]string{CutsClean: "cuts clean", SeversRough: "severs rough", WillNotCut: "will not cut"} {
		if got := g.Words(); got != want {
			t.Errorf("%s says %q, want %q", g, got, want)
		}
	}
}

// A refusal begins with the words of the worst grade and tells where severing and
// clean cutting end as the ranges that they are.
func TestRefusalSaysWillNotCut(t *testing.T) {
	for thickness, strip := range map[unit.Length]bool{25e-3: true, 60e-3: false} {
		in := planOf(material.MildSteel, thickness, rig40())
		_, err := ComputePlan(in)
		p := problem.From(err)
		if p == nil || !strings.HasPrefix(p.Msg, "Will not cut") || !strings.Contains(p.Msg, "about 14 to 32 mm at 40 A") ||
			!strings.Contains(p.Hint, "about 9 to 21 mm") || strings.Contains(p.Hint, "trial strip") != strip {
			t.Errorf("%v on 40 A: %v", thickness, err)
		}
		in.System = unit.US
		if _, err := ComputePlan(in); strings.Contains(err.Error(), "mm") || !strings.Contains(err.Error(), "about 9/16 to 1-1/4 in") {
			t.Errorf("%v on 40 A, on a US device: %v", thickness, err)
		}
	}
}

// TestLimitBandByHand: 40 A through 0.95 mm into mild steel, by the line of 96 V.
// The balance is C + m·v per depth (C = 0.8·24.9·1407 W/m, m = 8000·1178e3·1.52e-3
// W·s/m²), so with P = 0.45·3840 W the clean limit at 0.3 m/min × 1.329 is
//
//	P / (C + m·v) = 1728 / (28 027 + 14 324 608 · 0.006645) = 14.02 mm
//
// and by each doubt: speed ×/÷ 1.48 (v over that): 18.7, 10.2; volts ×/÷ 1.3:
// 18.2, 10.8; bore ÷/× 1.05 (m over that): 14.5, 13.5. Squares of the logarithms
// added: 9.3 to 20.7 mm.
func TestLimitBandByHand(t *testing.T) {
	const c, m, v, p = 28027.0, 14324608.0, 0.3 / 60 * (1 + 1.645*0.2), 1728.0
	at := func(power, melt, speed float64) float64 { return power / (c + melt*speed) }
	about := at(p, m, v)
	up := math.Sqrt(sq(at(p, m, v/1.48)/about) + sq(at(p*1.3, m, v)/about) + sq(at(p, m/1.05, v)/about))
	down := math.Sqrt(sq(at(p, m, v*1.48)/about) + sq(at(p/1.3, m, v)/about) + sq(at(p, m*1.05, v)/about))
	got := planOf(material.MildSteel, 6e-3, Rig{Min: 40, Max: 40, Tips: []Tip{{40, 0.95e-3}}}).LimitBand()
	for _, test := range []struct {
		name      string
		got, want float64
	}{
		{name: "least", got: float64(got.Least.Clean), want: about * math.Exp(-down)},
		{name: "about", got: float64(got.About.Clean), want: about},
		{name: "most", got: float64(got.Most.Clean), want: about * math.Exp(up)},
	} {
		if math.Abs(test.got/test.want-1) > 2e-3 {
			t.Errorf("%s clean limit %.4g m, by hand %.4g", test.name, test.got, test.want)
		}
	}
}

func sq(ratio float64) float64 { return math.Log(ratio) * math.Log(ratio) }

// What is known narrows the band: measured volts, and more so own cuts; a bore
// that was guessed widens it. And the band holds the limit.
func TestLimitBandLaws(t *testing.T) {
	width := func(in PlanInput) float64 {
		b := in.LimitBand()
		for i, at := range b.About.list() {
			if least, most := *b.Least.list()[i], *b.Most.list()[i]; least > *at || *at > most || *at <= 0 {
				t.Errorf("%s: limit %d is %v, outside %v to %v", in.Metal, i, *at, least, most)
			}
		}
		if b.Least.Clean > b.Least.Sever || b.Most.Clean > b.Most.Sever {
			t.Errorf("%s: clean up to %v or %v, severs up to %v or %v", in.Metal, b.Least.Clean, b.Most.Clean, b.Least.Sever, b.Most.Sever)
		}
		return float64(b.Most.Clean / b.Least.Clean)
	}
	for _, m := range metals {
		plain := planOf(m, 6e-3, rig40())
		guessed, measured, calibrated := plain, plain, plain
		guessed.Rig.Tips = []Tip{{40, OrificeFor(40)}}
		measured.Rig.Volts = 110
		calibrated.Calibrated = true
		got := []float64{width(guessed), width(plain), width(measured), width(calibrated)}
		for i := 1; i < len(got); i++ {
			if got[i] >= got[i-1] {
				t.Errorf("%s: bands of a guessed bore, plain, measured volts, own cuts are %.3g wide", m, got)
				break
			}
		}
	}
}
