package fold

import (
	"strings"
	"testing"
)

func TestBook(t *testing.T) {
	s := &script{T: t}
	for i := range 130 {
		name := strings.Repeat("s", 1) + string(rune('a'+i/26)) + string(rune('a'+i%26))
		s.Add("open-"+name, int64(i)*minute, "session.opened", `{'rig':'rig-1','title':'Gate'}`, about(name))
		s.Add("cut-"+name, int64(i)*minute+1, "cut.tried", `{'metal':'mild steel','thickness':6000,'verdict':'good'}`, in(name))
	}
	s.Add("gone", 200*minute, "void", `{'of':'`+id("open-sea")+`'}`)
	f := foldOf(s)
	first := f.Book("", 0)
	if len(first.Sessions) != 100 || first.Total != 129 || first.Sessions[0].ID != "sez" || first.Sessions[0].Cuts != 1 || first.Sessions[0].Entries != 2 {
		t.Fatalf("book: %d of %d, first %+v", len(first.Sessions), first.Total, first.Sessions[0])
	}
	rest := f.Book(first.Sessions[99].ID, 50)
	if len(rest.Sessions) != 29 || rest.Sessions[28].ID != "saa" {
		t.Errorf("the rest: %d, last %+v", len(rest.Sessions), rest.Sessions[len(rest.Sessions)-1])
	}
}
