package job

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/chance"
	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/money"
	"kerfside/calc/site"
	"kerfside/calc/unit"
)

// good is an invented rig and site where all is known.
const good = `"tips": "40:0.95mm", "min_current": "20A", "max_current": "40A", "pressure": "5bar", "air_need": "170l/min", "air_least": "5bar", "free_air": "120l/min", "tank": "50l",
	"cut_in": "6.5bar", "cut_out": "8bar", "compressor_duty": "100%", "hose_length": "10m", "bore": "9.5mm", "couplers": "2", "volts": "230V", "cord_length": "10m", "size": "6mm2", "breaker": "32A",
	"duty_points": "40A:50%", "labour": "60"`

func ask(t *testing.T, c *form.Calculator, format string, args ...any) *form.Answer {
	t.Helper()
	a, err := c.Calculate([]byte(fmt.Sprintf(format, args...)))
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func number(t *testing.T, a *form.Answer, key string) float64 {
	t.Helper()
	v, _ := a.Results().Get(key)
	n, ok := v.(form.Value)
	if !ok {
		t.Fatalf("%s is %v", key, v)
	}
	return n.Value
}

func same(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9*math.Abs(want) {
		t.Errorf("%s: %.12g, want %.12g", what, got, want)
	}
}

// TestOneRowAgrees: a job of one row is what cut-plan, site-check and job-cost say of it.
func TestOneRowAgrees(t *testing.T) {
	for _, cut := range []struct{ row, plan string }{
		{`"thickness": "6mm"`, `"thickness": "6mm"`}, {`"metal": "stainless", "thickness": "3mm", "hand": "guided"`, `"metal": "stainless", "thickness": "3mm", "hand": "guided"`},
		{`"metal": "aluminium", "alloy": "6061", "thickness": "1/4in", "position": "overhead"`, `"metal": "aluminium", "alloy": "6061", "thickness": "1/4in", "position": "overhead"`},
	} {
		job := ask(t, JobPlan.Calculator(), `{"cuts": [{%s, "length": "300mm"}], %s, "watch": "0min"}`, cut.row, good)
		plan := ask(t, cutting.CutPlan.Calculator(), `{%s, "tips": "40:0.95mm", "min_current": "20A", "max_current": "40A", "pressure": "5bar", "volts": "230V"}`, cut.plan)
		arc := 0.3 / number(t, plan, "speed")
		same(t, cut.row+": arc", number(t, job, "arc"), arc)
		work := number(t, job, "work")
		same(t, cut.row+": work", work, arc+(2+5+2)*60+number0(job, "waits"))
		here := ask(t, site.SiteCheck.Calculator(), `{%s, %s, "share": "%.10f%%", "longest_cut": "300mm"}`, cut.plan, strings.Replace(good, `, "labour": "60"`, "", 1), max(1, 100*arc/work))
		same(t, cut.row+": site-check's longest cut", number(t, here, "cut_time"), arc)
		cost := ask(t, money.JobCost.Calculator(), `{"arc_time": "%.12fs", "labour": "60", "factor": "%.12f%%", "watch": "0min", "current": "%.12fA", "arc_volts": "%.12fV"}`,
			arc, 100*arc/work, number(t, plan, "current"), number(t, plan, "power")/number(t, plan, "current"))
		same(t, cut.row+": cost", number(t, job, "cost"), number(t, cost, "total"))
		same(t, cut.row+": price", number(t, job, "price"), number(t, cost, "price"))
	}
}

// number0 is a number, or 0 where it is not told.
func number0(a *form.Answer, key string) float64 {
	v, _ := a.Results().Get(key)
	n, _ := v.(form.Value)
	return n.Value
}

// TestRangeHasAClosedForm: the range of the arc time of a cut that no hand's limit and no
// tank holds up is a lognormal's, exp(±1.645·ln off) about the plan, and it comes closer
// with more draws.
func TestRangeHasAClosedForm(t *testing.T) {
	in := Input{Cuts: []Cut{{Place: site.Input{Plan: cutting.PlanInput{HandLimit: 1e6}}, Length: 1 * unit.Metre, Count: 1, Runs: 1}}}
	s := stint{cut: in.Cuts[0], off: math.Log(1.6), plan: cutting.PlanResult{Speed: 0.01}}
	before := math.Inf(1)
	for _, n := range []int{16, 64, 256, 4096} {
		var arcs []float64
		for _, p := range chance.Sobol(n, dimensions) {
			arcs = append(arcs, float64(s.run(newDraw(p))))
		}
		b := bandOf(100, arcs)
		wide := math.Exp(1.6448536 * math.Log(1.6))
		off := max(math.Abs(math.Log(float64(b.High)/(100*wide))), math.Abs(math.Log(float64(b.Low)/(100/wide))))
		t.Logf("%d draws: %.1f to %.1f s, off by %.2g", n, b.Low, b.High, off)
		if off > before || n == samples && off > 0.01 {
			t.Errorf("%d draws: %.2f to %.2f s, want %.2f to %.2f", n, b.Low, b.High, 100/wide, 100*wide)
		}
		before = off
	}
}

// TestDrawsAreEnough: the range of whole jobs by the draws that are taken is that by 16
// times as many, within what a range is told by.
func TestDrawsAreEnough(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 7))
	worst, compared := 0.0, 0
	for compared < 25 {
		reader := form.NewReader(JobPlan.Calculator(), drawnJob(r))
		in, _, err := read(reader)
		if err != nil {
			t.Fatal(err)
		}
		stints, _ := in.plans()
		if len(stints) == 0 {
			continue
		}
		in = in.ready(mostly(stints))
		spread := func(n int) Band[unit.Duration] {
			var works []float64
			for _, p := range chance.Sobol(n, dimensions) {
				works = append(works, float64(in.play(stints, newDraw(p)).do().Work))
			}
			return bandOf(in.play(stints, middle()).do().Work, works)
		}
		few, many := spread(samples), spread(16*samples)
		compared++
		for _, off := range []unit.Duration{few.Low / many.Low, few.High / many.High} {
			worst = max(worst, math.Abs(math.Log(float64(off))))
		}
	}
	t.Logf("%d jobs: an end of the range is off by %.0f %% at most", compared, 100*worst)
	if worst > 0.15 {
		t.Errorf("an end of a range is off by %.0f %%", 100*worst)
	}
}

// TestSortEnds: the ends of values are those of all values sorted, and none is lost.
func TestSortEnds(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 8))
	for range 200 {
		values := make([]float64, 16+r.IntN(200))
		for i := range values {
			values[i] = float64(r.IntN(1 + r.IntN(300)))
		}
		sorted := slices.Sorted(slices.Values(values))
		k := 1 + r.IntN(len(values)/2)
		sortEnds(values, k)
		n := len(values)
		if !slices.Equal(values[:k], sorted[:k]) || !slices.Equal(values[n-k:], sorted[n-k:]) {
			t.Fatalf("%d of %d at each end: %v, want %v and %v", k, n, values, sorted[:k], sorted[n-k:])
		}
		if slices.Sort(values); !slices.Equal(values, sorted) {
			t.Fatalf("%v are left of %v", values, sorted)
		}
	}
}

// TestLearnt: what is heard moves speed by the precisions of a normal prior and normal
// readings, worked by hand: before 0.5, one row 20 % slower than planned with 0.1 and 0.05:
// 0.1118; weights 4 and 80.
func TestLearnt(t *testing.T) {
	got := learn(0.5, []reading{{log: -0.2, off: math.Hypot(0.1, 0.05)}})
	if math.Abs(got.Mean+0.2*80/84) > 1e-9 || math.Abs(got.Off-1/math.Sqrt(84)) > 1e-9 {
		t.Errorf("learnt %+v", got)
	}
	over := ask(t, JobPlan.Calculator(), `{"cuts": [{"thickness": "6mm", "length": "400mm"}], "done": [{"cut": 1}], %s}`, good)
	if say, _ := over.Results().Get("verdict"); say != "All is cut. The fire watch is left." {
		t.Errorf("all done: %v", say)
	}
}

// TestLearntHolds: while all goes as planned the rest stays as planned and its range only
// shrinks; one piece that took a tenth of its time moves the rest by no more than its weight.
func TestLearntHolds(t *testing.T) {
	const job = `{"cuts": [{"thickness": "6mm", "length": "400mm", "count": "%d"}, {"metal": "stainless", "thickness": "3mm", "length": "300mm", "count": "2"}], "gate": "0min", "inspect": "0min", "watch": "0min", "done": [%s], %s}`
	piece := func(share float64) (arc, elapsed float64) {
		one := ask(t, JobPlan.Calculator(), job, 1, "", good)
		two := ask(t, JobPlan.Calculator(), job, 2, "", good)
		arc = number(t, two, "arc") - number(t, one, "arc")
		return share * arc, share * (number(t, two, "work") - number(t, one, "work"))
	}
	arc, elapsed := piece(1)
	wide := math.Inf(1)
	for k := range 6 {
		done := ""
		if k > 0 {
			done = fmt.Sprintf(`{"cut": 1, "pieces": %d, "arc": "%.9fs", "elapsed": "%.9fs"}`, k, float64(k)*arc, float64(k)*elapsed)
		}
		left, plan := ask(t, JobPlan.Calculator(), job, 6, done, good), ask(t, JobPlan.Calculator(), job, 6-k, "", good)
		if got, want := number(t, left, "work"), number(t, plan, "work"); math.Abs(got-want) > 1e-5*want {
			t.Errorf("%d done as planned: %.3f s are left, want %.3f", k, got, want)
		}
		v, _ := left.Results().Get("work")
		if now := v.(form.Value).High - v.(form.Value).Low; now >= wide {
			t.Errorf("%d done as planned: the range is %.0f s, with fewer done it was %.0f", k, now, wide)
		} else {
			wide = now
		}
	}
	quickArc, quick := piece(0.1)
	left := ask(t, JobPlan.Calculator(), job, 6, fmt.Sprintf(`{"cut": 1, "pieces": 1, "arc": "%.9fs", "elapsed": "%.9fs"}`, quickArc, quick), good)
	if got, plan := number(t, left, "work"), number(t, ask(t, JobPlan.Calculator(), job, 5, "", good), "work"); got < 0.75*plan {
		t.Errorf("one quick piece: %.0f s are left of %.0f", got, plan)
	}
	v, _ := left.Results().Get("work")
	if now := v.(form.Value); now.High-now.Low < 0.5*wide {
		t.Errorf("one quick piece leaves a range of %.0f s", now.High-now.Low)
	}
}

// TestLearntFromWaits: waits that a torch of a tenth more air makes tell of that tenth, and
// half of it is believed: before 0.14, after 0.1, weights 51 and 100.
func TestLearntFromWaits(t *testing.T) {
	r, err := form.NewJSONReader(JobPlan.Calculator(), []byte(`{"cuts": [{"thickness": "6mm", "length": "2m", "count": "6"}], "done": [{"cut": 1, "pieces": 3, "waited": "1s"}], `+good+`}`))
	if err != nil {
		t.Fatal(err)
	}
	in, _, err := read(r)
	if err != nil {
		t.Fatal(err)
	}
	stints, _ := in.plans()
	for _, more := range []float64{0.9, 1, 1.1, 1.2} {
		three := stints[0]
		three.cut.Count = 3
		more := math.Log(more)
		in.Learnt = Learnt{Air: Factor{Mean: more, Off: 1}}
		o := in.play([]stint{three}, middle()).do()
		in.Done[0].Waited, in.Learnt = o.Totals[WaitAir], Learnt{}
		if log, ok := in.waited(stints); !ok || math.Abs(log-more) > 1e-3 {
			t.Errorf("ln %g: %g of %.0f s, %v", more, log, float64(o.Totals[WaitAir]), ok)
		}
		if got, want := in.learnt(stints).Air.Mean, more/(1+waitScatter*waitScatter/(airOff*airOff)); math.Abs(got-want) > 1e-3 {
			t.Errorf("ln %g: %g is believed, want %g", more, got, want)
		}
	}
}

// TestOrderAgainstAll: of lists too long for it the order that is proposed is compared with
// the best of all orders: most of what can be gained is.
func TestOrderAgainstAll(t *testing.T) {
	gained, possible, better := 0.0, 0.0, 0
	for i := 0; better < 12 && i < 400; i++ {
		p := one(smallAir(), 0.5, 1, 1)
		p.times.Row = 90
		p.air.Tank.Volume, p.air.Compressor.Delivery = 300*unit.Litre, anr.Mass(60*unit.LitrePerMinute) // filled within an hour
		p.rows = nil
		for k := range 6 {
			p.rows = append(p.rows, row{pieces: 1, runs: 1, run: unit.Duration(10 + (i*37+k*k*53)%300), heat: taken(0.5), draw: p.air.Draw, least: p.air.Least})
		}
		was := p.do().Work
		best := was
		permute(first(6), 0, func(order []int) {
			q := p
			q.rows = make([]row, 6)
			for at, from := range order {
				q.rows[at] = p.rows[from]
			}
			best = min(best, q.do().Work)
		})
		order, work := p.better(was)
		if !worth(was, best) {
			if order != nil {
				t.Errorf("list %d: an order is proposed that saves less than it is worth", i)
			}
			continue
		}
		better++
		possible += float64(was - best)
		if order != nil {
			gained += float64(was - work)
		}
	}
	t.Logf("%d lists: %.0f of %.0f s gained", better, gained, possible)
	if better < 12 || gained < 0.8*possible {
		t.Errorf("%.0f of %.0f s are gained", gained, possible)
	}
}

// TestRemediesHold: whatever is proposed saves what it says when it is entered.
func TestRemediesHold(t *testing.T) {
	const job = `{"cuts": [{"thickness": "10mm", "length": "1200mm", "count": "3"}, {"metal": "stainless", "thickness": "3mm", "length": "1.2m", "count": "4"}], %s}`
	was := ask(t, JobPlan.Calculator(), job, good)
	rows, _ := was.Results().Get("remedies")
	list := rows.([]*form.Group)
	if len(list) < 3 {
		t.Fatalf("%d remedies, want 3 at least", len(list))
	}
	for _, m := range list {
		field, _ := m.Get("field")
		value, _ := m.Get("value")
		saves, _ := m.Get("saves")
		if field == "" {
			continue // nothing to enter
		}
		entered := map[string]any{}
		if err := json.Unmarshal([]byte(fmt.Sprintf(job, good)), &entered); err != nil {
			t.Fatal(err)
		}
		entered[field.(string)] = value
		now, err := JobPlan.Calculator().CalculateValues(entered)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := number(t, was, "work")-number(t, now, "work"), saves.(form.Value).Value; math.Abs(got-want) > 1 {
			t.Errorf("%s = %v: saves %.1f s, said %.1f", field, value, got, want)
		}
	}
}
