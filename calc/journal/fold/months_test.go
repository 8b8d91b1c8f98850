package fold

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestMonths: what two trucks did in two times that follow each other.
func TestMonths(t *testing.T) {
	const month = 30 * 24 * 60 * minute
	s := (&script{T: t}).
		Add("job", 0, "job.set", `{'cut.k1':{'metal':'stainless'}}`, about("job-1")).
		Add("fit", minute, "part.fitted", `{'slot':'tip','rig':'rig-1'}`, about("p-1")).
		Add("open-1", 2*minute, "session.opened", `{'rig':'rig-1','job':'job-1','plan_metal':'mild-steel'}`, about("s-1")).
		Add("open-2", 3*minute, "session.opened", `{'rig':'rig-1','job':'job-1'}`, about("s-2")).
		Add("drain", 4*minute, "trap.drained", `{}`, in("s-1")).
		Add("good", 5*minute, "cut.tried", `{'verdict':'good'}`, in("s-1")).
		Add("slow", 6*minute, "cut.tried", `{'verdict':'too-slow'}`, in("s-1")).
		Add("arc-1", 12*minute, "arc.run", `{'rig':'rig-1','start':`+fmt.Sprint(t0+7*minute)+`,'stop':`+fmt.Sprint(t0+9*minute)+`,'starts':3,'cut':'k1'}`, in("s-1")).
		Add("arc-2", 12*minute, "arc.run", run(10*minute, 11*minute, "rig-1"), in("s-1")).
		Add("pull", 13*minute, "part.pulled", `{'why':'worn'}`, about("p-1"), in("s-1")).
		Add("fit-2", 14*minute, "part.fitted", `{'slot':'tip'}`, about("p-2"), in("s-1")).
		Add("seen", 15*minute, "fault.seen", `{'symptom':'no-arc','rig':'rig-2'}`, about("f")).
		Add("early", 16*minute, "fault.found", `{'cause':'x'}`, about("f")).
		Add("arc-3", month+minute, "arc.run", run(month-minute, month+minute, "rig-2")).
		Add("found", month+2*minute, "fault.found", `{'cause':'tip-worn'}`, about("f")).
		Add("pull-2", month+3*minute, "part.pulled", `{'why':'inspection'}`, about("p-2")).
		Add("loose", month+4*minute, "cut.tried", `{'verdict':'good'}`).
		Add("after", 2*month, "trap.drained", `{'rig':'rig-1'}`)
	v, err := foldOf(s).Months([]int64{t0, t0 + month, t0 + 2*month})
	if err != nil {
		t.Fatal(err)
	}
	none := []Share{}
	want := []Month{
		{From: t0, To: t0 + month, Rigs: []RigMonth{
			{Rig: "rig-1", Sessions: 2, Jobs: 1, Ms: 3 * minute, Starts: 4, Metals: []Share{{"stainless", 2 * minute}, {"mild-steel", minute}}, Fitted: []Share{{"tip", 2}}, Failed: []Share{{"tip", 1}}, Drains: 1, Tried: 2, Good: 1},
			{Rig: "rig-2", Ms: 2 * minute, Starts: 1, Metals: none, Fitted: none, Failed: none},
		}},
		{From: t0 + month, To: t0 + 2*month, Rigs: []RigMonth{
			{Rig: "", Metals: none, Fitted: none, Failed: none, Tried: 1, Good: 1},
			{Rig: "rig-2", Metals: none, Fitted: none, Failed: none, Found: 1},
		}},
	}
	if !sameJSON(v.Months, want) {
		t.Errorf("months are\n%s, want\n%s", sayJSON(t, v.Months), sayJSON(t, want))
	}
	s.Add("v1", 2*month, "void", `{'of':'`+id("pull")+`'}`).Add("v2", 2*month, "void", `{'of':'`+id("slow")+`'}`).Add("a", 2*month, "amend", `{'of':'`+id("drain")+`','set':{'rig':'rig-2'}}`)
	if v, _ = foldOf(s).Months([]int64{t0, t0 + month}); len(v.Months) != 1 || len(v.Months[0].Rigs[0].Failed) != 0 || v.Months[0].Rigs[0].Tried != 1 || v.Months[0].Rigs[0].Drains != 0 || v.Months[0].Rigs[1].Drains != 1 {
		t.Errorf("amended: %s", sayJSON(t, v))
	}
	for _, bounds := range [][]int64{{2, 1}, {1, 1}, make([]int64, mostMonths+2)} {
		if _, err := foldOf(s).Months(bounds); err == nil {
			t.Errorf("bounds %v are taken", bounds[:2])
		}
	}
	for _, bounds := range [][]int64{nil, {5}} {
		if v, err := foldOf(s).Months(bounds); err != nil || len(v.Months) != 0 {
			t.Errorf("of %v: %+v, %v", bounds, v, err)
		}
	}
}

// TestMonthsAddUp: cut at any bounds, what was done comes to what was done in all: nothing is
// told twice, and nothing is lost between two times.
func TestMonthsAddUp(t *testing.T) {
	laws(t, func(t *rapid.T) {
		f := foldAll(genJournal(t))
		bounds := []int64{always} // an arc that a clock timed may begin before the first ms
		for _, at := range rapid.SliceOfN(rapid.Int64Range(-50, 60), 0, 4).Draw(t, "bounds") {
			bounds = append(bounds, t0+at*7000)
		}
		bounds = append(bounds, forever)
		slices.Sort(bounds)
		bounds = slices.Compact(bounds)
		parts, err := f.Months(bounds)
		if err != nil {
			t.Fatal(err)
		}
		whole, err := f.Months([]int64{always, forever})
		if err != nil {
			t.Fatal(err)
		}
		sums := map[string][9]int64{}
		for _, m := range parts.Months {
			for _, r := range m.Rigs {
				sum := sums[r.Rig]
				for i, n := range amounts(r) {
					sum[i] += n
				}
				sums[r.Rig] = sum
			}
		}
		sessions := 0
		for _, r := range whole.Months[0].Rigs {
			if sums[r.Rig] != amounts(r) {
				t.Fatalf("%s: in parts %v, in all %v", r.Rig, sums[r.Rig], amounts(r))
			}
			delete(sums, r.Rig)
			ms, starts := f.settled().rig(r.Rig).timeline.total()
			if r.Ms != ms || r.Starts != starts || amounts(r)[8] > ms || r.Good > r.Tried || r.Jobs > r.Sessions {
				t.Fatalf("%+v, its timeline has %d ms, %d starts", r, ms, starts)
			}
			sessions += r.Sessions
		}
		if len(sums) > 0 || sessions != f.Book("", 1000).Total {
			t.Fatalf("left over %v; %d sessions of %d", sums, sessions, f.Book("", 1000).Total)
		}
	})
}

// amounts are those of a time that add up.
func amounts(r RigMonth) [9]int64 {
	sum := func(list []Share) (n int64) {
		for _, s := range list {
			n += s.N
		}
		return n
	}
	return [9]int64{int64(r.Sessions), r.Ms, r.Starts, int64(r.Drains), int64(r.Tried), int64(r.Found), sum(r.Fitted), sum(r.Failed), sum(r.Metals)}
}
