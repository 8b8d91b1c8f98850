package fold

import (
	"strconv"
	"testing"
)

// TestViewsAreBounded: what is made anew at each tap does not grow with what was
// forgotten over the years; a watch that an arc holds up is never left out.
func TestViewsAreBounded(t *testing.T) {
	s := &script{T: t}
	for i := range 60 {
		at, n := int64(i)*100*minute, strconv.Itoa(i)
		s.Add("open-"+n, at, "session.opened", `{'rig':'rig-`+n+`'}`, about("s"+n)).
			Add("watch-"+n, at+minute, "watch.started", `{'ms':1000}`, in("s"+n))
		if i == 0 || i > 50 {
			s.Add("arc-"+n, at+minute, "arc.started", `{'rig':'rig-`+n+`'}`, in("s"+n))
		}
		if i > 0 {
			s.Add("close-"+n, at+2*minute, "session.closed", `{}`, about("s"+n))
		}
	}
	f := foldOf(s)
	list := f.Now().Watch
	if len(list) != watchesShown+1 || list[0].ID != id("watch-59") || list[watchesShown].ID != id("watch-0") || !list[watchesShown].Running {
		t.Errorf("%d watches, from %+v to %+v; want the %d that end last and the one that runs", len(list), list[0], list[len(list)-1], watchesShown)
	}
	if b := f.Book("", bookTop); len(b.Sessions) != bookTop || b.Total != 60 {
		t.Errorf("the book has %d sessions of %d", len(b.Sessions), b.Total)
	}
	if rest := f.Book("s35", 0); len(rest.Sessions) != 35 || rest.Sessions[0].ID != "s34" {
		t.Errorf("behind s35 stand %d sessions", len(rest.Sessions))
	}
}
