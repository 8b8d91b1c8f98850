package job

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/life"
	"kerfside/calc/unit"
	"kerfside/calc/vector"
)

// TestAheadAgreesWithPlan: the arc time that is reckoned without playing a job is what
// its plan burns, and the starts are those of the plan without the goes in which air or
// duty break a run off: of the invented jobs and of drawn ones.
func TestAheadAgreesWithPlan(t *testing.T) {
	text, err := os.ReadFile("../../testdata/job/jobs.txt")
	if err != nil {
		t.Fatal(err)
	}
	cases, err := vector.Parse(string(text))
	if err != nil {
		t.Fatal(err)
	}
	var jobs []*form.Reader
	var values []map[string]any
	add := func(job map[string]any) {
		jobs, values = append(jobs, form.NewReader(JobPlan.Calculator(), job)), append(values, job)
	}
	for _, c := range cases {
		var job map[string]any
		if err := json.Unmarshal(c.Input, &job); err != nil {
			t.Fatal(err)
		}
		add(job)
	}
	r := rand.New(rand.NewPCG(9, 1))
	for range 200 {
		add(drawnJob(r))
	}
	compared := 0
	for i, job := range jobs {
		in, _, err := read(job)
		if err != nil || len(in.Done) > 0 {
			continue
		}
		res, err := Compute(in)
		if err != nil {
			continue
		}
		use, out, err := Ahead(values[i])
		if err != nil {
			t.Errorf("job %d: %v", i, err)
			continue
		}
		starts, refused := 0, 0
		for _, row := range res.Rows {
			if row.Refused != nil {
				refused++
				continue
			}
			starts += row.Starts - row.Split
		}
		want := float64(res.Plan.Totals[Cutting] / unit.Minute)
		if math.Abs(use.Minutes-want) > 1e-9*want || use.Starts != float64(starts) || out != refused {
			t.Errorf("job %d: %+v and %d rows left out, want %g min, %d starts, %d rows", i, use, out, want, starts, refused)
		}
		compared++
	}
	if compared < 150 {
		t.Errorf("only %d jobs were compared", compared)
	}
	t.Logf("tally: %d jobs reckoned ahead as their plan burns", compared)
}

// TestAheadByHand: thin sheet is cut as fast as the hand follows, 1.5 m/min: 600 mm take
// 24 s, three of them 1.2 min with a start each. A row too thick is left out, and why
// none can be cut is told.
func TestAheadByHand(t *testing.T) {
	rig := map[string]any{"tips": "40:0.95mm", "min_current": "20A", "max_current": "40A", "pressure": "5bar"}
	with := func(cuts string) map[string]any { return map[string]any{"rig": rig, "cuts": cuts} }
	for cuts, want := range map[string]struct {
		use life.Use
		out int
	}{
		"mild-steel 1.5mm 600mm count=3":                       {use: life.Use{Minutes: 1.2, Starts: 3}},
		"mild-steel 1.5mm 600mm count=3; mild-steel 60mm 10cm": {use: life.Use{Minutes: 1.2, Starts: 3}, out: 1},
		"mild-steel 1.5mm 600mm count=2 pierces=2":             {use: life.Use{Minutes: 0.8, Starts: 6}},
	} {
		use, out, err := Ahead(with(cuts))
		if err != nil || math.Abs(use.Minutes-want.use.Minutes) > 1e-9 || use.Starts != want.use.Starts || out != want.out {
			t.Errorf("%s: %+v, %d, %v; want %+v", cuts, use, out, err, want)
		}
	}
	if _, out, err := Ahead(with("mild-steel 60mm 100mm")); err == nil || out != 1 {
		t.Errorf("too thick: %d left out, %v", out, err)
	}
	if _, _, err := Ahead(map[string]any{"rig": rig}); err == nil {
		t.Error("no cuts, and no trouble")
	}
}
