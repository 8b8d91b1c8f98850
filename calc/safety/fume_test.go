package safety

import (
	"reflect"
	"slices"
	"testing"

	"kerfside/calc/material"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

var places = []string{"open", "workshop", "enclosed", "confined", "vessel"} // each closer than the one before

// fumes calls f with every metal under every coating in every place, in rooms
// unknown, small and large.
func fumes(t *testing.T, f func(FumeInput, FumeResult)) {
	t.Helper()
	for _, metal := range material.Choice().Choices {
		for coating := range coats {
			for _, place := range places {
				for _, room := range []unit.Volume{0, 100, 10000} {
					in := FumeInput{Metal: material.Metal(metal.Word), Coating: coating, Place: place, Room: room, Cutters: 1}
					got, err := ComputeFume(in)
					if err != nil {
						t.Fatal(err)
					}
					f(in, got)
				}
			}
		}
	}
}

// The gases of the arc are always named, each agent once with a source; a
// vessel, a confined space and what no mask makes right always stop; an
// enclosed place always wants fans; a coating is always stripped.
func TestFumeEveryAnswer(t *testing.T) {
	never := map[string]bool{"solvent": true, "pvc": true, "fluoropolymer": true, "foam": true, "two-pack": true, "plastic": true, "cadmium": true, "beryllium": true}
	fumes(t, func(in FumeInput, got FumeResult) {
		seen := map[string]bool{}
		for _, agent := range got.Agents {
			if _, ok := source.Get(agent.Source); !ok || seen[agent.Name] || agent.PEL == "" || agent.REL == "" {
				t.Errorf("%+v: agent %+v", in, agent)
			}
			seen[agent.Name] = true
		}
		if !seen["nitrogen dioxide"] || !seen["ozone"] || len(got.Agents) <= len(arcGases) {
			t.Errorf("%+v: only %v", in, got.Agents)
		}
		stop := in.Place == "vessel" || in.Place == "confined" || never[in.Coating]
		if (got.Verdict == "stop") != stop || (len(got.Stops) > 0) != stop {
			t.Errorf("%+v: %s, %v", in, got.Verdict, got.Stops)
		}
		coated := in.Metal == material.Galvanised || in.Coating != "none" && in.Coating != "beryllium"
		if got.Mechanical != (in.Place != "open") || (got.Strip > 0) != coated || got.Respirator == "" {
			t.Errorf("%+v: fans %v, strip %v, breathe %q", in, got.Mechanical, got.Strip, got.Respirator)
		}
	})
}

// A closer place and a coating never ask for less: neither of the mask, nor of
// the fans, nor of the verdict.
func TestFumeNeverAsksForLess(t *testing.T) {
	weigh := func(got FumeResult) [3]int {
		fans, stop := 0, 0
		if got.Mechanical {
			fans = 1
		}
		if got.Verdict == "stop" {
			stop = 1
		}
		return [3]int{int(got.wears), fans, stop}
	}
	fumes(t, func(in FumeInput, got FumeResult) {
		for _, less := range []func(*FumeInput){
			func(in *FumeInput) { in.Place = places[max(slices.Index(places, in.Place)-1, 0)] },
			func(in *FumeInput) { in.Coating = "none" },
			func(in *FumeInput) { in.Metal = material.MildSteel },
		} {
			easier := in
			less(&easier)
			was, err := ComputeFume(easier)
			if err != nil {
				t.Fatal(err)
			}
			for i, more := range weigh(got) {
				if more < weigh(was)[i] {
					t.Errorf("%+v asks for less than %+v: %q after %q", in, easier, got.Respirator, was.Respirator)
				}
			}
		}
	})
}

// Galvanised sheet and steel with a zinc coating are one thing.
func TestFumeOfZincIsOne(t *testing.T) {
	for _, place := range places {
		sheet, err := ComputeFume(FumeInput{Metal: material.Galvanised, Coating: "none", Place: place, Cutters: 1})
		coat, err2 := ComputeFume(FumeInput{Metal: material.MildSteel, Coating: "zinc", Place: place, Cutters: 1})
		if err != nil || err2 != nil || !reflect.DeepEqual(sheet, coat) {
			t.Errorf("%s: %+v, but %+v", place, sheet, coat)
		}
	}
}

// More torches never need less air, and a slot further off never draws less.
func TestFumeRises(t *testing.T) {
	last := unit.Flow(0)
	for n := 1; n < 10; n++ {
		got, err := ComputeFume(FumeInput{Metal: material.MildSteel, Coating: "none", Place: "enclosed", Cutters: n})
		if err != nil || got.Supply <= last {
			t.Errorf("%d torches: %v after %v, %v", n, got.Supply, last, err)
		}
		last = got.Supply
	}
	last = 0
	for d := 1 * unit.Inch; d <= 12*unit.Inch; d += 0.25 * unit.Inch {
		got, err := ComputeFume(FumeInput{Metal: material.MildSteel, Coating: "none", Place: "open", Cutters: 1, Hood: d})
		if err != nil || got.Hood < last || got.Hood == 0 {
			t.Errorf("slot at %v: %v after %v, %v", d, got.Hood, last, err)
		}
		last = got.Hood
	}
}
