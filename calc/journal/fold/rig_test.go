package fold

import "testing"

func TestDrain(t *testing.T) {
	s := (&script{T: t}).
		Add("rig", 0, "rig.set", `{'name':'North truck'}`, about("rig-1")).
		Add("r1", minute, "arc.run", run(0, minute, "rig-1")).
		Add("d1", 2*minute, "trap.drained", `{'rig':'rig-1'}`).
		Add("r2", 30*minute, "arc.run", run(3*minute, 10*minute, "rig-1"))
	got := foldOf(s).Now().Rigs[0]
	if want := (DrainNow{Every: 20 * minute, Ms: 7 * minute, At: t0 + 2*minute, Due: 13 * minute}); got.Drain != want {
		t.Errorf("drain = %+v, want %+v", got.Drain, want)
	}
	if got.Name != "North truck" || got.LastArc != t0+10*minute || got.Ms != 8*minute || got.Filter.Ms != 8*minute {
		t.Errorf("rig = %+v", got)
	}
	for body, want := range map[string]int64{`{'drainEvery':1800000}`: 30 * minute, `{'drainEvery':60000}`: 20 * minute, `{'drainEvery':'soon'}`: 20 * minute} {
		s := (&script{T: t}).Add("rig", 0, "rig.set", body, about("rig-1"))
		if got := foldOf(s).Now().Rigs[0].Drain.Every; got != want {
			t.Errorf("%s: every %d ms, want %d", body, got, want)
		}
	}
}
