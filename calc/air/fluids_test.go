//go:build !js

// Native only: it runs another program, which a phone cannot.

package air

import (
	"math"
	"math/rand/v2"
	"testing"

	"kerfside/calc/outside"
	"kerfside/calc/unit"
)

// Questions to the library fluids, in SI units, pressures absolute.
type (
	askLine struct {
		Bore        float64 `json:"bore"`
		Length      float64 `json:"length"`
		Roughness   float64 `json:"roughness"`
		Loss        float64 `json:"loss"`
		Temperature float64 `json:"temperature"`
		Inlet       float64 `json:"inlet"`
		Flow        float64 `json:"flow"`
		Choke       float64 `json:"choke"`
	}
	askHole struct {
		Flow        float64 `json:"flow"`
		Discharge   float64 `json:"discharge"`
		Temperature float64 `json:"temperature"`
		Inlet       float64 `json:"inlet"`
		Outlet      float64 `json:"outlet"`
	}
)

// TestAgainstFluids puts random hoses, walls and holes beside the library.
func TestAgainstFluids(t *testing.T) {
	random := rand.New(rand.NewPCG(33, 1))
	lines, lineAsk := someLines(random, 1000)
	holes, holeAsk := someHoles(random, 1000)
	walls := make([][2]float64, 1000)
	for i := range walls {
		walls[i] = [2]float64{4000 * math.Pow(10, 5*random.Float64()), 0.05 * math.Pow(random.Float64(), 4)}
	}
	var theirs struct {
		Lines        []struct{ Factor, Outlet, Choke float64 }
		Holes, Walls []float64
	}
	outside.Python(t, outside.Fluids, "air_flow.py", map[string]any{"lines": lineAsk, "holes": holeAsk, "walls": walls}, &theirs)
	if len(theirs.Lines) != len(lines) || len(theirs.Holes) != len(holes) || len(theirs.Walls) != len(walls) {
		t.Fatalf("%d, %d, %d answers", len(theirs.Lines), len(theirs.Holes), len(theirs.Walls))
	}
	same := func(what string, q any, got, want, share float64) {
		if !outside.Near(got, want, share) {
			t.Errorf("%+v: %s = %.10g, fluids %.10g", q, what, got, want)
		}
	}
	for i, want := range theirs.Lines {
		q, l := lineAsk[i], lines[i]
		outlet, ok := l.Outlet(unit.Pressure(q.Inlet), unit.MassFlow(q.Flow))
		if !ok {
			t.Errorf("%+v: choked, fluids leaves %g", q, want.Outlet)
		}
		// Its gas constant of air is 8e-7 larger; near choking that shows tenfold.
		same("friction factor", q, l.factor(q.Flow), want.Factor, 1e-8)
		same("outlet", q, float64(outlet), want.Outlet, 2e-5)
		same("choking flow", q, q.Choke, want.Choke, 1e-6)
	}
	for i, want := range theirs.Walls {
		same("friction factor", walls[i], friction(walls[i][0], walls[i][1]), want, 1e-8)
	}
	for i, want := range theirs.Holes {
		share := 5e-4 // API 520 prints its factor of choked flow with four figures
		if holeAsk[i].Outlet > criticalRatio*holeAsk[i].Inlet {
			share = 2e-3 // and that of slower flow with three
		}
		same("hole", holeAsk[i], holes[i], want, share)
	}
	t.Logf("tally: %d comparisons with fluids", 3*len(lines)+len(holes)+len(walls))
}

// solvable is the resistance up to which the library's own solution, with e to the
// power of it, does not run out of numbers.
const solvable = 600

// someLines draws hoses without couplers and a flow that they pass. Flow that is
// neither surely laminar nor surely turbulent is left out: there ours is a choice.
func someLines(random *rand.Rand, n int) (lines []Line, ask []askLine) {
	for len(lines) < n {
		l := randomLine(random)
		l.Couplers = 0
		inlet := unit.Pressure(1.2e5 * math.Pow(30, random.Float64()))
		choke := l.Choke(inlet)
		flow := float64(choke) * 0.95 * math.Pow(random.Float64(), 2)
		unsure := func(m float64) bool { re := l.reynolds(m); return re > laminarBelow && re < turbulentAbove }
		if flow == 0 || l.resistance(flow) > solvable || unsure(flow) || unsure(float64(choke)) {
			continue
		}
		lines = append(lines, l)
		ask = append(ask, askLine{Bore: float64(l.Bore), Length: float64(l.Length), Roughness: float64(l.Roughness), Loss: l.Loss, Temperature: float64(l.Temperature), Inlet: float64(inlet), Flow: flow, Choke: float64(choke)})
	}
	return lines, ask
}

// someHoles draws holes, choked and not, and the flow that we say they pass.
func someHoles(random *rand.Rand, n int) (holes []float64, ask []askHole) {
	for range n {
		d := 0.3e-3 * math.Pow(30, random.Float64())
		q := askHole{Discharge: 0.5 + 0.5*random.Float64(), Temperature: 250 + 80*random.Float64(), Inlet: 2e5 + 1e6*random.Float64()}
		q.Outlet = q.Inlet * (0.1 + 0.85*random.Float64())
		q.Flow = float64(OrificeFlow(unit.Length(d), unit.Ratio(q.Discharge), unit.Pressure(q.Inlet), unit.Pressure(q.Outlet), unit.Temperature(q.Temperature)))
		holes, ask = append(holes, d), append(ask, q)
	}
	return holes, ask
}
