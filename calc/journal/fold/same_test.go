package fold

import (
	"slices"
	"testing"
)

func TestSame(t *testing.T) {
	s := (&script{T: t}).
		Add("a", 0, "rig.set", `{'name':'North'}`, about("rig-b")).
		Add("b", 5, "rig.set", `{'amps':40}`, about("rig-a")).
		Add("r1", minute, "arc.run", run(0, minute, "rig-a")).
		Add("r2", minute, "arc.run", run(0, minute, "rig-b")).
		Add("same", 10, "same", `{'as':'rig-a'}`, about("rig-b")).
		Add("round", 11, "same", `{'as':'rig-b'}`, about("rig-a"))
	v := foldOf(s).Things().Rigs
	if len(v) != 1 || v[0].ID != "rig-a" || !slices.Equal(v[0].Same, []string{"rig-b"}) || len(v[0].Fields.Fields) != 2 {
		t.Errorf("rigs = %+v", v)
	}
	if r := foldOf(s).Now().Rigs; len(r) != 1 || r[0].Ms != minute {
		t.Errorf("now = %+v, want one rig with its arc once", r)
	}
	s.Add("v1", 20, "void", `{'of':'`+id("same")+`','on':true}`).Add("v2", 20, "void", `{'of':'`+id("round")+`','on':true}`)
	if v := foldOf(s).Things().Rigs; len(v) != 2 {
		t.Errorf("after taking it back: %+v", v)
	}
}
