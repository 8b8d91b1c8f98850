package main

import (
	"math"
	"testing"

	"kerfside/calc/cutting"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/life"
	"kerfside/calc/material"
	"kerfside/calc/unit"
)

// demoLives are the lives of a slot as the journal tells them.
func demoLives(f *fold.Fold, slot string) (parts []life.Part) {
	for _, v := range f.Lives("", slot, 1000).Lives {
		if v.Slot == slot {
			parts = append(parts, life.Part{Slot: slot, Failed: v.Failed, Use: life.Use{Minutes: float64(v.Ms) / 60_000, Starts: float64(v.Starts)}, Seen: life.Seen{Metal: v.Mostly.Metal, Rig: v.Mostly.Rig}})
		}
	}
	return parts
}

// TestDemoTeachesItsLaw: what is learnt of the lives in the journal holds the law that
// they were drawn from, within the doubt that it tells.
func TestDemoTeachesItsLaw(t *testing.T) {
	d, f := foldedDemo(t)
	for _, slot := range []string{"tip", "electrode"} {
		law, parts := demoLaws[slot], demoLives(f, slot)
		m := life.Learn(parts, life.PriorOf(slot))
		t.Logf("%s: %d parts, %d of them worn out", slot, m.Parts, m.Failures)
		if r := m.PerStartRange(); law.perStart < r.Low || law.perStart > r.High {
			t.Errorf("%s: a start is worth %.2f to %.2f min, and is worth %.2f", slot, r.Low, r.High, law.perStart)
		}
		for _, work := range []struct{ truck, metal string }{{"truck-1", "mild-steel"}, {"truck-2", "mild-steel"}, {"truck-2", "stainless"}} {
			scale := law.on(work.truck, work.metal)
			var same []life.Life
			for _, p := range parts {
				if p.Rig == d.id(work.truck) && p.Metal == work.metal {
					same = append(same, life.Life{T: p.Equivalent(law.perStart), Failed: p.Failed})
				}
			}
			w, err := life.Fit(same)
			if err != nil {
				t.Errorf("%s on %s: %v", slot, work, err)
				continue
			}
			if r := w.RatioScale(0.95); scale < r.Low || scale > r.High {
				t.Errorf("%s on %s: the scale is %.0f to %.0f min from %d parts, and is %.0f", slot, work, r.Low, r.High, len(same), scale)
			}
			if r := w.RatioShape(0.95); law.shape < r.Low || law.shape > r.High {
				t.Errorf("%s on %s: the shape is %.1f to %.1f from %d parts, and is %.1f", slot, work, r.Low, r.High, len(same), law.shape)
			}
			use := life.Use{Minutes: 0.5 * scale, Starts: 0.2 * scale}
			truth := math.Exp(-math.Pow(use.Equivalent(law.perStart)/scale, law.shape))
			if c := m.On(life.Seen{Rig: d.id(work.truck), Metal: work.metal}).Lasts(life.Use{}, use); truth < c.Low || truth > c.High {
				t.Errorf("%s on %s: a new one lasts that with %.2f to %.2f, and does with %.2f", slot, work, c.Low, c.High, truth)
			}
		}
	}
}

// TestDemoReadingsFollowTheirLaw: the bore has grown and the pit has deepened as the law
// says of what the part has done, but for what a reading is off.
func TestDemoReadingsFollowTheirLaw(t *testing.T) {
	d, f := foldedDemo(t)
	trucks := map[string]string{d.id("truck-1"): "truck-1", d.id("truck-2"): "truck-2"}
	for slot, key := range map[string]string{"tip": "dmax", "electrode": "pit"} {
		n, sum, squares, off := 0, 0.0, 0.0, map[string]float64{"tip": demoReadBore, "electrode": demoReadPit}[slot]
		for _, v := range f.Lives("", slot, 1000).Lives {
			truck := trucks[v.Rigs[0]]
			for _, r := range v.Readings {
				read, ok := event.ReadBody(r.Body).Int(key)
				if !ok || len(v.Metals) > 1 { // of two metals the minutes do not count alike
					continue
				}
				share := (float64(r.Ms)/60_000 + demoLaws[slot].perStart*float64(r.Starts)) / demoLaws[slot].on(truck, v.Mostly.Metal)
				want := demoPit * share
				if slot == "tip" {
					want = float64(demoTips[truck].bore) * (1 + demoGrowth*share)
				}
				n, sum, squares = n+1, sum+float64(read)-want, squares+(float64(read)-want)*(float64(read)-want)
			}
		}
		mean, spread := sum/float64(n), math.Sqrt(squares/float64(n))
		if n < 20 || math.Abs(mean) > off || spread > 1.5*off {
			t.Errorf("%s: %d readings lie %.1f µm off the law, and %.1f µm apart from it", slot, n, mean, spread)
		}
	}
}

// TestDemoTeachesItsCalibration: the cuts that were tried hold what each truck severs.
func TestDemoTeachesItsCalibration(t *testing.T) {
	d, _ := foldedDemo(t)
	for _, truck := range demoTrucks {
		tip := demoTips[truck]
		var cuts []cutting.CutTried
		for _, e := range d.events {
			b := event.ReadBody(e.Event.Body)
			if e.Event.Kind != "cut.tried" || b.Text("rig") != d.id(truck) {
				continue
			}
			plate, _ := b.Int("thickness")
			speed, _ := b.Int("speed")
			amps, _ := b.Int("amps")
			cuts = append(cuts, cutting.CutTried{Metal: material.Metal(b.Text("metal")), Thickness: unit.Length(plate) * unit.Micrometre,
				Current: unit.Current(amps), Speed: unit.Speed(speed) * unit.Speed(unit.Micrometre), Verdict: cutting.Verdict(b.Text("verdict"))})
		}
		rig := cutting.Rig{Tips: []cutting.Tip{{Rated: unit.Current(tip.amps), Orifice: unit.Length(tip.bore) * unit.Micrometre}}}
		tries, err := cutting.Expect(cuts, "", rig, cutting.Balance{Efficiency: cutting.DefaultEfficiency, Calibration: 1})
		if err != nil {
			t.Fatal(err)
		}
		got := cutting.Learn(tries)
		if is := unit.Ratio(demoSevers[truck]); is < got.Low || is > got.High || got.High-got.Low > 0.3 {
			t.Errorf("%s severs %.2f to %.2f times the reckoning by %d cuts, and does %.2f", truck, got.Low, got.High, got.Cuts, is)
		}
	}
}
