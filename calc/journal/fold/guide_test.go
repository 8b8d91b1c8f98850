package fold

import (
	"slices"
	"testing"
)

func TestAFailSticksUntilItIsClearedByName(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{'rig':'rig-1'}`, about("s1")).
		Add("g", 0, "guide.opened", `{'guide':'bring-up'}`, in("s1")).
		Add("f1", 1, "check.answered", `{'guide':'bring-up','step':'clamp','result':'fail','slot':'clamp'}`, in("s1")).
		Add("ok", 2, "check.answered", `{'guide':'bring-up','step':'clamp','result':'good'}`, in("s1"), device("phone-b"))
	f := foldOf(s)
	p := f.Guides(10).Progress[0]
	if p.Steps["clamp"].Result != "good" || !slices.Equal(p.Fails, []string{id("f1")}) {
		t.Errorf("progress = %+v", p)
	}
	if now := f.Now(); len(now.Fails) != 1 || now.Fails[0].ID != id("f1") || now.Session.Fails != 1 {
		t.Errorf("fails = %+v", now.Fails)
	}
	s.Add("c", 3, "check.cleared", `{'of':'`+id("ok")+`'}`, in("s1"))
	if len(foldOf(s).Now().Fails) != 1 {
		t.Error("clearing another answer cleared the fail")
	}
	s.Add("d", 4, "check.cleared", `{'of':'`+id("f1")+`','why':'cleaned to bright metal'}`, in("s1"))
	if v := sessionOf(s, "s1"); v.Fails != 0 || entryOf(t, v, "f1").Cleared != id("d") {
		t.Errorf("after clearing: %+v", v.Session)
	}
	s.Add("v", 5, "void", `{'of':'`+id("d")+`','on':true}`, in("s1"))
	if len(foldOf(s).Now().Fails) != 1 {
		t.Error("the clearing was removed, and the fail did not come back")
	}
}
