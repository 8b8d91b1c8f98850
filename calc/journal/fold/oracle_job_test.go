package fold

import (
	"maps"
	"math"
	"slices"
	"testing"

	"kerfside/calc/journal/event"

	"pgregory.net/rapid"
)

// oracleDone says by job and cut how many pieces are done.
func oracleDone(t *rapid.T, list []event.Event) map[[2]string]int64 {
	all, of, _ := readAll(t, list)
	done := map[[2]string]int64{}
	for _, x := range all {
		n, isNumber := x.Body["n"].(float64)
		if x.Body["n"] == nil {
			n, isNumber = 1, true
		}
		if x.Kind == "cut.done" && !x.hidden && x.text("cut") != "" && isNumber && n == math.Trunc(n) && n >= 1 && n <= maxDone {
			done[[2]string{of(x.About), x.text("cut")}] += int64(n)
		}
	}
	return done
}

// TestJobsAgainstAnOracle: pieces done are what an independent walk counts, and what the
// cuts of a job have of arc time and starts comes to that of its sessions, whoever timed
// an arc twice.
func TestJobsAgainstAnOracle(t *testing.T) {
	laws(t, func(t *rapid.T) {
		list := genJournal(t)
		f := foldAll(list)
		done := map[[2]string]int64{}
		for _, short := range f.Jobs("", 1000).Jobs {
			v, err := f.Job(short.ID)
			if err != nil {
				t.Fatal(err)
			}
			ms, starts := v.Loose.Ms, v.Loose.Starts
			for _, c := range v.Cuts {
				ms, starts = ms+c.Ms, starts+c.Starts
				if c.Done > 0 {
					done[[2]string{v.ID, c.Cut}] = c.Done
				}
				if c.Elapsed < 0 || c.Left < 0 || c.From > c.To {
					t.Fatalf("a cut is %+v", c)
				}
			}
			of := int64(0)
			for _, s := range v.Work {
				of += s.Ms
			}
			if ms != v.Ms || starts != v.Starts || of != v.Ms {
				t.Fatalf("cuts of %s have %d ms and %d starts, it has %d and %d, its sessions have %d ms", v.ID, ms, starts, v.Ms, v.Starts, of)
			}
		}
		if want := oracleDone(t, list); !maps.Equal(done, want) {
			t.Fatalf("done is %v, by the oracle %v", done, want)
		}
	})
}

// TestLivesKeepToTheirArcs: what a part has seen of each sort is no more than all that it
// has done, a part has done no more than the view of parts says, and what is told of it is
// the same whether others are asked for too or not.
func TestLivesKeepToTheirArcs(t *testing.T) {
	laws(t, func(t *rapid.T) {
		f := foldAll(genJournal(t))
		alone := map[string][]Life{"tip": f.Lives("", "tip", 1<<30).Lives, "electrode": f.NewestLives(1<<30, "electrode")["electrode"]}
		for _, v := range f.Lives("", "", 1<<30).Lives {
			i := slices.IndexFunc(alone[v.Slot], func(a Life) bool { return a.Part == v.Part })
			if (v.Slot == "tip" || v.Slot == "electrode") && !sameJSON(alone[v.Slot][i], v) {
				t.Fatalf("alone %+v, among all %+v", alone[v.Slot][i], v)
			}
			part, err := f.Part(v.Part)
			if err != nil || v.Ms > part.Ms || v.Starts > part.Starts {
				t.Fatalf("%s has %d ms of %d: %v", v.Part, v.Ms, part.Ms, err)
			}
			for what, list := range map[string][]Share{"metal": v.Metals, "surface": v.Surfaces, "starts": v.StartsBy, "overdue": {{N: v.OverdueMs}}, "worn": {{N: v.WornMs}}} {
				sum := int64(0)
				for _, s := range list {
					sum += s.N
				}
				if what == "starts" && sum > v.Starts || what != "starts" && sum > v.Ms {
					t.Fatalf("%s: %s comes to %d of %d ms, %d starts", v.Part, what, sum, v.Ms, v.Starts)
				}
			}
			if v.WornMs > v.PartnerMs {
				t.Fatalf("beside a worn partner %d ms of %d", v.WornMs, v.PartnerMs)
			}
		}
	})
}
