package safety

import (
	"testing"

	"kerfside/calc/material"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Every metal under every coating in every place: the gases of the arc are
// always named, each agent once with a source; a vessel, a confined space and
// a solvent always stop; an enclosed place always wants fans and never less
// than exhaust; a coating is always stripped.
func TestFumeEveryAnswer(t *testing.T) {
	for _, metal := range material.Choice().Choices {
		for coating := range coats {
			for _, place := range []string{"open", "workshop", "enclosed", "confined", "vessel"} {
				in := FumeInput{Metal: material.Metal(metal.Word), Coating: coating, Place: place, Cutters: 1}
				got, err := ComputeFume(in)
				if err != nil {
					t.Fatal(err)
				}
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
				stop := place == "vessel" || place == "confined" || coating == "solvent"
				if (got.Verdict == "stop") != stop || (len(got.Stops) > 0) != stop {
					t.Errorf("%+v: %s, %v", in, got.Verdict, got.Stops)
				}
				if got.Mechanical != (place != "open") || (got.Strip > 0) != (coating != "none") || got.Respirator == "" {
					t.Errorf("%+v: fans %v, strip %v, breathe %q", in, got.Mechanical, got.Strip, got.Respirator)
				}
			}
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
