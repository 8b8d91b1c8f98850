package book

import (
	"math/rand/v2"
	"testing"

	"kerfside/calc/journal/fold"
	"kerfside/calc/journal/journaltest"
	"kerfside/calc/problem"
)

// do answers a button on what a script entered.
func do(t *testing.T, s *journaltest.Script, act string, with, answers map[string]string) Done {
	t.Helper()
	d, err := Do(foldOf(s), Act{Look: lookAt(s, "stock", 10), Act: act, With: with, Answers: answers})
	if err != nil {
		t.Fatalf("%s: %v", act, err)
	}
	return d
}

// TestStockButtons: what a button of a line enters is what the line is afterwards.
func TestStockButtons(t *testing.T) {
	s := trucks(t)
	d := do(t, s, "stock-new", nil, map[string]string{"slot": "tip", "rating": "45 A", "rig": "rig-1", "n": "5"})
	if d.Said != "Cutting tip 45 A: 5 on Truck 1." {
		t.Errorf("new: %q", d.Said)
	}
	enter(t, s, 20, d)
	line := func() fold.Stock {
		t.Helper()
		for _, l := range foldOf(s).Stocks().Lines {
			if l.Rig == "rig-1" {
				return l
			}
		}
		t.Fatal("no line")
		return fold.Stock{}
	}
	id := line().ID
	for i, test := range []struct {
		act     string
		answers map[string]string
		n       int64
		said    string
	}{
		{act: "stock-bought", answers: map[string]string{"n": "4"}, n: 9, said: "4 × cutting tip 45 A came in."},
		{act: "stock-gone", answers: map[string]string{"n": "2", "why": "lost"}, n: 7, said: "2 × cutting tip 45 A went."},
		{act: "stock-count", answers: map[string]string{"n": "6"}, n: 6, said: "Cutting tip 45 A counted: 6, 1 fewer than entered."},
		{act: "stock-count", answers: map[string]string{"n": "8"}, n: 8, said: "Cutting tip 45 A counted: 8, 2 more than entered."},
		{act: "stock-count", answers: map[string]string{"n": "8"}, n: 8, said: "Cutting tip 45 A counted: 8."},
		{act: "stock-price", answers: map[string]string{"price": "3.10"}, n: 8, said: "Cutting tip 45 A: 3.10."},
		{act: "stock-least", answers: map[string]string{"n": "3"}, n: 8, said: "Cutting tip 45 A: no fewer than 3 wanted."},
		{act: "stock-least", answers: map[string]string{"n": "0"}, n: 8, said: "Cutting tip 45 A: the lowest count is left to the shopping list."},
		{act: "stock-move", answers: map[string]string{"to": "rig-2", "n": "3"}, n: 5, said: "3 × cutting tip 45 A moved to Truck 2."},
		{act: "stock-move", answers: map[string]string{"to": "rig-2", "n": "1"}, n: 4, said: "1 × cutting tip 45 A moved to Truck 2."},
		{act: "stock-move", answers: map[string]string{"to": "shop", "n": "2"}, n: 2, said: "2 × cutting tip 45 A moved to the shop."},
	} {
		d := do(t, s, test.act, map[string]string{"line": id}, test.answers)
		enter(t, s, int64(30+i), d)
		if l := line(); l.N != test.n || d.Said != test.said {
			t.Errorf("%s %v: %d left, %q; want %d, %q", test.act, test.answers, l.N, d.Said, test.n, test.said)
		}
	}
	all := map[string]int64{}
	for _, l := range foldOf(s).Stocks().Lines {
		all[l.Rig+" "+l.Slot+" "+l.Rating] += l.N
		if l.Price != 310 {
			t.Errorf("the price does not go along: %+v", l)
		}
	}
	if len(all) != 3 || all["rig-2 tip 45 A"] != 4 || all[" tip 45 A"] != 2 {
		t.Errorf("moved to %v", all)
	}
	for _, test := range []struct {
		act, field string
		answers    map[string]string
	}{
		{act: "stock-new", field: "rating", answers: map[string]string{"slot": "tip", "rating": "45a", "rig": "rig-1", "n": "1"}},
		{act: "stock-new", field: "name", answers: map[string]string{"slot": "other", "n": "1"}},
		{act: "stock-new", field: "n", answers: map[string]string{"slot": "cup", "n": "-1"}},
		{act: "stock-bought", field: "n", answers: map[string]string{"n": "0"}}, {act: "stock-count", field: "n", answers: map[string]string{"n": "2.5"}}, {act: "stock-count", field: "n", answers: map[string]string{"n": ""}},
		{act: "stock-price", field: "price", answers: map[string]string{"price": "a lot"}},
	} {
		_, err := Do(foldOf(s), Act{Look: lookAt(s, "stock", 10), Act: test.act, With: map[string]string{"line": id}, Answers: test.answers})
		if err == nil || problem.From(err).Field != test.field || problem.From(err).Hint == "" {
			t.Errorf("%s %v: %v", test.act, test.answers, err)
		}
	}
}

// TestStockIsItsSum: whatever buttons are tapped, each line is what an independent sum of
// the answers says.
func TestStockIsItsSum(t *testing.T) {
	tapped := 0
	for seed := range uint64(20) {
		random := rand.New(rand.NewPCG(seed, 61))
		s := trucks(t)
		places := []string{"rig-1", "rig-2", "shop"}
		want := map[string]int64{}
		for i := range 30 {
			f := foldOf(s)
			lines := f.Stocks().Lines
			n := int64(1 + random.IntN(9))
			answers := map[string]string{"n": itoa(n)}
			at := int64(20 + i)
			if len(lines) == 0 || random.IntN(6) == 0 {
				slot, place := spareSlots[random.IntN(2)], places[random.IntN(3)]
				answers["slot"], answers["rig"] = slot, place
				d, err := Do(f, Act{Look: lookAt(s, "stock", 10), Act: "stock-new", Answers: answers})
				if err != nil {
					continue // there is one
				}
				enter(t, s, at, d)
				want[rigOf(place)+" "+slot] = n
				continue
			}
			l := lines[random.IntN(len(lines))]
			key := l.Rig + " " + l.Slot
			switch act := []string{"stock-count", "stock-bought", "stock-gone", "stock-move", "new-part"}[random.IntN(5)]; act {
			case "new-part":
				if l.Rig == "" {
					continue
				}
				enter(t, s, at, do(t, s, act, map[string]string{"rig": l.Rig}, map[string]string{"slot": l.Slot, "line": l.ID}))
				want[key]--
			case "stock-move":
				to := places[random.IntN(3)]
				if rigOf(to) == l.Rig {
					continue
				}
				answers["to"] = to
				enter(t, s, at, do(t, s, act, map[string]string{"line": l.ID}, answers))
				want[key] -= n
				want[rigOf(to)+" "+l.Slot] += n
			default:
				enter(t, s, at, do(t, s, act, map[string]string{"line": l.ID}, answers))
				switch act {
				case "stock-count":
					want[key] = n
				case "stock-bought":
					want[key] += n
				case "stock-gone":
					want[key] -= n
				}
			}
			tapped++
		}
		for _, l := range foldOf(s).Stocks().Lines {
			if l.N != want[l.Rig+" "+l.Slot] {
				t.Errorf("seed %d: %s at %q is %d, want %d", seed, l.Slot, l.Rig, l.N, want[l.Rig+" "+l.Slot])
			}
		}
	}
	if tapped < 300 {
		t.Errorf("only %d taps", tapped)
	}
}
