package fold

import (
	"testing"

	"pgregory.net/rapid"
)

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

// TestLine: what came and went of a line, the newest first, and what an amendment or a
// removal of a fitting makes of two lines.
func TestLine(t *testing.T) {
	s := (&script{T: t}).
		Add("l", 0, "line.set", `{'name':'Tip 45 A','slot':'tip','rating':'45 A','rig':'rig-1','price':310,'least':4}`, about("tips")).
		Add("o", 0, "line.set", `{'name':'Tip 60 A','price':'4.10','least':-2}`, about("others")).
		Add("old", 0, "part.fitted", `{'slot':'tip','rig':'rig-1','line':'tips'}`, about("p-0"), at(-100*24*60*minute)).
		Add("in", minute, "stock.moved", `{'n':10,'why':'bought'}`, about("tips")).
		Add("fit", 2*minute, "part.fitted", `{'slot':'tip','rig':'rig-1','line':'tips'}`, about("p-1")).
		Add("arc", 4*minute, "arc.run", run(3*minute, 4*minute, "rig-1")).
		Add("count", 5*minute, "stock.counted", `{'n':7}`, about("tips"), device("phone-b"))
	line := func(name string) StockLine {
		t.Helper()
		v, err := foldOf(s).Line(name)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	want := []StockMove{
		{ID: id("count"), At: t0 + 5*minute, Kind: "stock.counted", N: 7, After: 7, Device: "phone-b"},
		{ID: id("fit"), At: t0 + 2*minute, Kind: "part.fitted", N: -1, After: 8, Part: "p-1", Rig: "rig-1", Device: "phone-a"},
		{ID: id("in"), At: t0 + minute, Kind: "stock.moved", N: 10, After: 9, Why: "bought", Device: "phone-a"},
		{ID: id("old"), At: t0 - 100*24*60*minute, Kind: "part.fitted", N: -1, After: -1, Part: "p-0", Rig: "rig-1", Device: "phone-a"},
	}
	v := line("tips")
	if !sameJSON(v.Moves, want) {
		t.Errorf("moves = %+v", v.Moves)
	}
	if l := v.Line; l.N != 7 || l.Differs != -1 || l.Used != 1 || l.Name != "Tip 45 A" || l.Slot != "tip" || l.Rating != "45 A" || l.Rig != "rig-1" || l.Price != 310 || l.Least != 4 {
		t.Errorf("line = %+v", l)
	}
	if l := line("others").Line; l.Price != 0 || l.Least != 0 || string(l.Fields.Fields["price"]) != `"4.10"` {
		t.Errorf("the other line = %+v", l)
	}
	s.Add("moved", 6*minute, "amend", `{'of':'`+id("fit")+`','set':{'line':'others'}}`)
	if a, b := line("tips").Line, line("others").Line; a.Used != 0 || a.Differs != -2 || b.N != -1 || b.Used != 1 {
		t.Errorf("taken from the other line: %+v, %+v", a, b)
	}
	s.Add("gone", 7*minute, "void", `{'of':'`+id("fit")+`'}`)
	if b := line("others"); b.Line.N != 0 || b.Line.Used != 0 || len(b.Moves) != 0 {
		t.Errorf("removed: %+v", b)
	}
	if _, err := foldOf(s).Line("nothing"); err == nil {
		t.Error("a line that is not there")
	}
}

// TestUsedCountsFromTheLastArc: what was fitted long before the crew's last arc is not used
// any more, and the view follows the arc.
func TestUsedCountsFromTheLastArc(t *testing.T) {
	const day = 24 * 60 * minute
	s := (&script{T: t}).
		Add("fit", 0, "part.fitted", `{'slot':'tip','rig':'rig-1','line':'tips'}`, about("p-1")).
		Add("arc", day, "arc.run", run(minute, 2*minute, "rig-1"))
	f := foldOf(s)
	if n := f.Stocks().Lines[0].Used; n != 1 {
		t.Errorf("used %d, want 1", n)
	}
	later := (&script{T: t}).Add("arc-2", 101*day, "arc.run", run(100*day, 100*day+minute, "rig-1")).Add("v", 102*day, "void", `{'of':'`+id("arc-2")+`'}`).Events
	f.Add(later[0], nil, 0)
	if n := f.Stocks().Lines[0].Used; n != 0 {
		t.Errorf("100 days later %d are used, want 0", n)
	}
	f.Add(later[1], nil, 0)
	if n := f.Stocks().Lines[0].Used; n != 1 {
		t.Errorf("the arc removed, %d are used, want 1", n)
	}
}

// TestStockFrom: a part that is fitted comes from the lines of its slot on the truck, or
// from the shop where only that has some; where it may be several, a person picks.
func TestStockFrom(t *testing.T) {
	line := func(s *script, name, slot, rig, rating, n string) *script {
		return s.Add(name, 0, "line.set", `{'slot':'`+slot+`','rig':'`+rig+`','rating':'`+rating+`'}`, about(name)).Add(name+"-n", minute, "stock.counted", `{'n':`+n+`}`, about(name))
	}
	s := &script{T: t}
	line(s, "a", "tip", "rig-1", "45 A", "3")
	line(s, "b", "tip", "rig-1", "60 A", "0")
	line(s, "c", "tip", "", "45 A", "9")
	line(s, "d", "electrode", "rig-1", "", "0")
	line(s, "e", "electrode", "", "", "4")
	line(s, "f", "cup", "rig-2", "", "-1")
	line(s, "g", "", "rig-2", "", "5")
	all := foldOf(s).Stocks()
	for _, test := range []struct {
		rig, slot string
		want      []StockPick
	}{
		{rig: "rig-1", slot: "tip", want: []StockPick{{"a", "45 A, 3 left"}, {"b", "60 A, 0 left"}, {NoLine, "Not from stock"}}},
		{rig: "rig-1", slot: "electrode", want: []StockPick{{"e", "Without a rating, 4 left"}}}, // none is on the truck
		{rig: "rig-1", slot: "cup", want: nil},
		{rig: "rig-2", slot: "cup", want: []StockPick{{"f", "Without a rating, -1 left"}}}, // nor in the shop: someone miscounted
		{rig: "rig-2", slot: "tip", want: []StockPick{{"c", "45 A, 9 left"}}},
		{rig: "rig-3", slot: "tip", want: []StockPick{{"c", "45 A, 9 left"}}}, // a rig without lines
		{rig: "", slot: "tip", want: []StockPick{{"c", "45 A, 9 left"}}},
		{rig: "rig-2", slot: "", want: nil},
	} {
		if got := all.Of(test.rig, test.slot); !sameJSON(got, test.want) {
			t.Errorf("%s, %s: %+v, want %+v", test.rig, test.slot, got, test.want)
		}
	}
}

// TestLineIsThatOfTheStock: a line by itself is the one on the list, and its last movement
// leaves the pieces that there are.
func TestLineIsThatOfTheStock(t *testing.T) {
	laws(t, func(t *rapid.T) {
		f := foldAll(genJournal(t))
		for _, l := range f.Stocks().Lines {
			v, err := f.Line(l.ID)
			if err != nil || !sameJSON(v.Line, l) {
				t.Fatalf("%+v, on the list %+v: %v", v.Line, l, err)
			}
			after := int64(0)
			if len(v.Moves) > 0 {
				after = v.Moves[0].After
			}
			if after != l.N || l.Used < 0 || l.Price < 0 || l.Least < 0 {
				t.Fatalf("after %+v there are %d", v.Moves, l.N)
			}
		}
	})
}
