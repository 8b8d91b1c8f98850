package fold

import (
	"slices"
	"testing"
)

func TestPartsGetTheArcTimeOfTheirPlace(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{'rig':'rig-1'}`, about("s1")).
		Add("f1", 0, "part.fitted", `{'slot':'tip','rig':'rig-1','line':'line-tip'}`, about("tip-1"), in("s1")).
		Add("r1", 10*minute, "arc.run", run(minute, 3*minute, "rig-1"), in("s1")).
		Add("m1", 11*minute, "part.reading", `{'dmin':1380}`, about("tip-1"), in("s1")).
		Add("r2", 20*minute, "arc.run", run(12*minute, 15*minute, "rig-1"), in("s1"))
	now := foldOf(s).Now()
	if p := now.Rigs[0].Parts[0]; p.Ms != 5*minute || p.Starts != 2 || p.ReadMs != 2*minute || string(p.Reading) != `{"dmin":1380}` || p.Line != "line-tip" {
		t.Errorf("tip-1 = %+v", p)
	}
	// A change of the tip that was entered in the evening takes the second arc over.
	s.Add("p1", 600*minute, "part.pulled", `{'why':'oval'}`, about("tip-1"), in("s1"), at(11*minute+1)).
		Add("f2", 600*minute+1, "part.fitted", `{'slot':'tip','rig':'rig-1','line':'line-tip'}`, about("tip-2"), in("s1"), at(11*minute+2))
	f := foldOf(s)
	if p := f.Now().Rigs[0].Parts; len(p) != 1 || p[0].Part != "tip-2" || p[0].Ms != 3*minute || len(p[0].Check) != 0 {
		t.Errorf("fitted = %+v", p)
	}
	if p, err := f.Part("tip-1"); err != nil || p.Ms != 2*minute || p.Fits[0].Why != "oval" || p.Fits[0].To != t0+11*minute+1 {
		t.Errorf("tip-1 = %+v, %v", p, err)
	}
	if n := f.Stocks().Lines[0].N; n != -2 {
		t.Errorf("stock = %d, want -2: two taken, none counted", n)
	}
}

func TestImpossibleMovesAreWarnings(t *testing.T) {
	what := func(s *script) []string {
		var list []string
		for _, w := range foldOf(s).Now().Check {
			list = append(list, w.What)
		}
		p, _ := foldOf(s).Part("tip-1")
		for _, w := range p.Check {
			list = append(list, w.What)
		}
		slices.Sort(list)
		return slices.Compact(list)
	}
	fit := func(s *script, name string, ms int64, part, rig string) *script {
		return s.Add(name, ms, "part.fitted", `{'slot':'tip','rig':'`+rig+`'}`, about(part))
	}
	if got := what(fit(fit(&script{T: t}, "a", 0, "tip-1", "rig-1"), "b", 1, "tip-2", "rig-1")); !slices.Equal(got, []string{"slot-shared"}) {
		t.Errorf("two tips in one slot: %v", got)
	}
	if got := what(fit(fit(&script{T: t}, "a", 0, "tip-1", "rig-1"), "b", 1, "tip-1", "rig-2")); !slices.Equal(got, []string{"fitted-twice"}) {
		t.Errorf("one tip in two rigs: %v", got)
	}
	if got := what((&script{T: t}).Add("a", 0, "part.pulled", `{'why':'worn'}`, about("tip-1"))); !slices.Equal(got, []string{"not-fitted"}) {
		t.Errorf("pulled unfitted: %v", got)
	}
}
