package fold

import "testing"

func TestAmendAndVoid(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{}`, about("s1")).
		Add("n", minute, "note.added", `{'text':'tpi changed','mood':1}`, in("s1")).
		Add("m1", 2*minute, "amend", `{'of':'`+id("n")+`','set':{'text':'tip changed'},'why':'slip'}`, in("s1")).
		Add("m2", 3*minute, "amend", `{'of':'`+id("n")+`','set':{'at':1760731117544,'mood':null}}`, in("s1"), device("phone-b"))
	l := entryOf(t, sessionOf(s, "s1"), "n")
	if string(l.Body) != `{"text":"tip changed"}` || l.At != t0+1000 || len(l.History) != 2 || l.History[0].Why != "slip" || l.Void {
		t.Errorf("amended: %+v, body %s", l, l.Body)
	}
	s.Add("v", 4*minute, "void", `{'of':'`+id("m1")+`','on':true}`, in("s1"))
	if l := entryOf(t, sessionOf(s, "s1"), "n"); string(l.Body) != `{"text":"tpi changed"}` {
		t.Errorf("with the amendment removed: %s", l.Body)
	}
	s.Add("w", 5*minute, "void", `{'of':'`+id("n")+`'}`, in("s1"))
	v := sessionOf(s, "s1")
	if l := entryOf(t, v, "n"); !l.Void || v.Entries != 1 {
		t.Errorf("removed: %+v, %d entries, want 1 (the opening)", l, v.Entries)
	}
}
