package fold

import "testing"

func TestStock(t *testing.T) {
	s := (&script{T: t}).
		Add("l", 0, "line.set", `{'name':'Tip 40 A'}`, about("tips")).
		Add("c1", minute, "stock.counted", `{'n':10}`, about("tips")).
		Add("m1", 2*minute, "stock.moved", `{'n':-3}`, about("tips")).
		Add("m2", 2*minute, "stock.moved", `{'n':-3}`, about("tips"), device("phone-b")).
		Add("c2", 9*minute, "stock.counted", `{'n':5}`, about("tips")).
		Add("m3", 9*minute+1, "stock.moved", `{'n':-6}`, about("tips"))
	got := foldOf(s).Stocks().Lines[0]
	if got.N != -1 || !got.Again || got.Counted != t0+9*minute || got.Differs != 1 {
		t.Errorf("stock = %+v, want -1, counted again, differing by 1", got)
	}
	// A movement from before the count that arrives now changes what was
	// expected, not what is there.
	got = foldOf(s.Add("m0", 20*minute, "stock.moved", `{'n':-1}`, about("tips"), at(3*minute))).Stocks().Lines[0]
	if got.N != -1 || got.Differs != 2 {
		t.Errorf("with a late movement: %+v, want still -1, differing by 2", got)
	}
	if got = foldOf((&script{T: t}).Add("m", 0, "stock.moved", `{'n':1000000000}`, about("tips")).Add("n", 0, "stock.moved", `{'n':2.5}`, about("tips")).
		Add("o", 0, "stock.moved", `{'n':4}`, about("tips"))).Stocks().Lines[0]; got.N != 4 {
		t.Errorf("with slips: %+v, want 4", got)
	}
}
