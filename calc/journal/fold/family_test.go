package fold

import (
	"slices"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// listedOnly are the kinds that only stand in the list of their session, or that change
// another entry.
var listedOnly = []string{"amend", "note.added", "photo.added", "same", "void"}

// TestEveryKindIsFolded: each declared kind has one family, or is known to need none.
func TestEveryKindIsFolded(t *testing.T) {
	all := order.Keys(families())
	for _, f := range families() {
		for _, kind := range f.kinds {
			if families()[kind] != nil && !slices.Equal(families()[kind].kinds, f.kinds) {
				t.Errorf("%s is of two families", kind)
			}
		}
	}
	all = append(all, listedOnly...)
	slices.Sort(all)
	if want := event.Kinds(); !slices.Equal(all, want) {
		t.Errorf("folded or listed are\n%v, declared are\n%v", all, want)
	}
}

// TestUnknownKindsAreListed: an entry of a newer app is shown and counts
// nowhere; so does a newer version of a known kind.
func TestUnknownKindsAreListed(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{}`, about("s1")).
		Add("x", 1, "drone.flown", `{'height':12.5}`, in("s1")).
		Add("y", 2, "stock.moved", `{'n':5}`, about("tips"), in("s1"), func(m map[string]any) { m["v"] = 2 })
	v := sessionOf(s, "s1")
	if len(v.Lines) != 3 || string(entryOf(t, v, "x").Body) != `{"height":12.5}` {
		t.Errorf("lines = %+v", v.Lines)
	}
	if got := foldOf(s).Stocks().Lines; len(got) != 0 {
		t.Errorf("a movement of a newer version was counted: %+v", got)
	}
}
