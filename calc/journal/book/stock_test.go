package book

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/fold"
	"kerfside/calc/journal/journaltest"
	"kerfside/calc/problem"
)

// trucks are two trucks with 45 A tips.
func trucks(t *testing.T) *journaltest.Script {
	return (&journaltest.Script{T: t}).Add("rig", 0, "rig.set", `{'name':'Truck 1','fitted':'45A','tips':'45A:1.05mm','min_current':'20A','max_current':'45A','pressure':'5bar'}`, journaltest.About("rig-1")).
		Add("rig2", 0, "rig.set", `{'name':'Truck 2'}`, journaltest.About("rig-2"))
}

// aLine is a stock line with a count at a minute.
func aLine(s *journaltest.Script, name, body string, min int64, n string) {
	s.Add(name, 0, "line.set", body, journaltest.About(name)).Add(name+"-n", min*minute, "stock.counted", `{'n':`+n+`}`, journaltest.About(name))
}

// TestStockRows: what stands there of a line follows from what was counted, came and went.
func TestStockRows(t *testing.T) {
	for name, test := range map[string]struct {
		then func(*journaltest.Script)
		says []string
		tag  string
	}{
		"counted": {then: func(*journaltest.Script) {}, says: []string{"5 left", "Counted today"}},
		"fitted": {then: func(s *journaltest.Script) {
			s.Add("f", 5*minute, "part.fitted", `{'slot':'tip','rig':'rig-1','line':'tips'}`, journaltest.About("p")).Add("s", 6*minute, "session.opened", `{'rig':'rig-1'}`, journaltest.About("s"))
			arcs(s, "a", 6, 1)
		}, says: []string{"4 left", "Counted today", "1 fitted in the last 90 days of work"}},
		"fewer": {then: func(s *journaltest.Script) {
			s.Add("c", 5*minute, "stock.counted", `{'n':3}`, journaltest.About("tips"))
		}, says: []string{"3 left", "Counted today: 2 fewer than entered"}},
		"more": {then: func(s *journaltest.Script) {
			s.Add("c", 5*minute, "stock.counted", `{'n':9}`, journaltest.About("tips"))
		}, says: []string{"9 left", "Counted today: 4 more than entered"}},
		"below zero": {then: func(s *journaltest.Script) {
			s.Add("m", 5*minute, "stock.moved", `{'n':-6}`, journaltest.About("tips"))
		}, says: []string{"Should be -1: something was not entered.", "Counted today"}, tag: "count again"},
		"low": {then: func(s *journaltest.Script) {
			s.Add("m", 5*minute, "line.set", `{'least':6}`, journaltest.About("tips"))
		}, says: []string{"5 left, no fewer than 6 wanted", "Counted today"}, tag: "low"},
	} {
		s := trucks(t)
		aLine(s, "tips", `{'slot':'tip','rating':'45 A','rig':'rig-1'}`, 1, "5")
		test.then(s)
		row := rowOfReport(t, reportOf(t, s, lookAt(s, "stock", 10)), "Cutting tip 45 A")
		if !slices.Equal(row.Says, test.says) || row.Tag != test.tag || row.Href != "/book/line/tips" {
			t.Errorf("%s: %q, tag %q, %s; want %q, %q", name, row.Says, row.Tag, row.Href, test.says, test.tag)
		}
	}
	s := trucks(t)
	s.Add("never", 0, "line.set", `{'name':'Wipes'}`, journaltest.About("wipes"))
	r := reportOf(t, s, lookAt(s, "stock", 10))
	if row := rowOfReport(t, r, "Wipes"); !slices.Equal(row.Says, []string{"0 left", "Never counted"}) || r.Sections[1].Title != "The shop" {
		t.Errorf("never counted, in the shop: %+v, %q", row, r.Sections[1].Title)
	}
	if r := reportOf(t, trucks(t), lookAt(s, "stock", 10)); r.Says[0] != "No stock is entered yet." {
		t.Errorf("without a line: %q", r.Says)
	}
}

// TestStockSays: the answer names what wants doing first.
func TestStockSays(t *testing.T) {
	full := func(s *journaltest.Script, rig string) {
		for _, slot := range spareSlots {
			aLine(s, slot+rig, `{'slot':'`+slot+`','rig':'`+rig+`'}`, 1, "2")
		}
	}
	for name, test := range map[string]struct {
		then func(*journaltest.Script)
		want string
	}{
		"enough": {then: func(s *journaltest.Script) { full(s, "rig-1") }, want: "Nothing is short."},
		"again": {then: func(s *journaltest.Script) {
			full(s, "rig-1")
			s.Add("m", 2*minute, "stock.moved", `{'n':-3}`, journaltest.About("cuprig-1")).Add("m2", 2*minute, "stock.moved", `{'n':-3}`, journaltest.About("tiprig-1"))
		}, want: "Count again: cutting tip on Truck 1, and 1 more."},
		"buy": {then: func(s *journaltest.Script) {
			full(s, "rig-1")
			aLine(s, "tips", `{'slot':'tip','rating':'60 A','rig':'rig-1','least':4}`, 1, "1")
		}, want: "Buy for Truck 1: 3 × cutting tip 60 A."},
		"move": {then: func(s *journaltest.Script) {
			full(s, "rig-1")
			aLine(s, "tips", `{'slot':'tip','rating':'60 A','rig':'rig-1','least':4}`, 1, "1")
			aLine(s, "more", `{'slot':'tip','rating':'60A','least':1}`, 1, "4")
		}, want: "Move from the shop to Truck 1: 3 × cutting tip 60 A."},
		"the shop": {then: func(s *journaltest.Script) { aLine(s, "wipes", `{'name':'Wipes','least':4}`, 1, "1") }, want: "Buy for the shop: 3 × wipes."},
	} {
		s := trucks(t)
		test.then(s)
		if r := reportOf(t, s, lookAt(s, "stock", 10)); r.Says[0] != test.want {
			t.Errorf("%s: %q, want %q", name, r.Says[0], test.want)
		}
	}
}

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
		{"stock-bought", map[string]string{"n": "4"}, 9, "4 × cutting tip 45 A came in."},
		{"stock-gone", map[string]string{"n": "2", "why": "lost"}, 7, "2 × cutting tip 45 A went."},
		{"stock-count", map[string]string{"n": "6"}, 6, "Cutting tip 45 A counted: 6, 1 fewer than entered."},
		{"stock-count", map[string]string{"n": "8"}, 8, "Cutting tip 45 A counted: 8, 2 more than entered."},
		{"stock-count", map[string]string{"n": "8"}, 8, "Cutting tip 45 A counted: 8."},
		{"stock-price", map[string]string{"price": "3.10"}, 8, "Cutting tip 45 A: 3.10."},
		{"stock-least", map[string]string{"n": "3"}, 8, "Cutting tip 45 A: no fewer than 3 wanted."},
		{"stock-least", map[string]string{"n": "0"}, 8, "Cutting tip 45 A: the lowest count is left to the shopping list."},
		{"stock-move", map[string]string{"to": "rig-2", "n": "3"}, 5, "3 × cutting tip 45 A moved to Truck 2."},
		{"stock-move", map[string]string{"to": "rig-2", "n": "1"}, 4, "1 × cutting tip 45 A moved to Truck 2."},
		{"stock-move", map[string]string{"to": "shop", "n": "2"}, 2, "2 × cutting tip 45 A moved to the shop."},
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
		{"stock-new", "rating", map[string]string{"slot": "tip", "rating": "45a", "rig": "rig-1", "n": "1"}},
		{"stock-new", "name", map[string]string{"slot": "other", "n": "1"}},
		{"stock-new", "n", map[string]string{"slot": "cup", "n": "-1"}},
		{"stock-bought", "n", map[string]string{"n": "0"}}, {"stock-count", "n", map[string]string{"n": "2.5"}}, {"stock-count", "n", map[string]string{"n": ""}},
		{"stock-price", "price", map[string]string{"price": "a lot"}},
	} {
		_, err := Do(foldOf(s), Act{Look: lookAt(s, "stock", 10), Act: test.act, With: map[string]string{"line": id}, Answers: test.answers})
		if err == nil || problem.From(err).Field != test.field || problem.From(err).Hint == "" {
			t.Errorf("%s %v: %v", test.act, test.answers, err)
		}
	}
}

// TestLineReport: what came and went, in words, the newest first.
func TestLineReport(t *testing.T) {
	s := trucks(t)
	aLine(s, "tips", `{'slot':'tip','rating':'45 A','rig':'rig-1','price':310,'least':2}`, 1, "5")
	s.Add("b", 2*minute, "stock.moved", `{'n':4,'why':'bought'}`, journaltest.About("tips")).Add("f", 3*minute, "part.fitted", `{'slot':'tip','rig':'rig-1','line':'tips'}`, journaltest.About("p")).
		Add("g", 4*minute, "stock.moved", `{'n':-2,'why':'given'}`, journaltest.About("tips")).Add("q", 5*minute, "stock.moved", `{'n':-1}`, journaltest.About("tips"))
	look := lookAt(s, "line", 10)
	look.ID = "tips"
	r := reportOf(t, s, look)
	if r.Title != "Cutting tip 45 A" || !slices.Equal(r.Says, []string{"5 left on Truck 1."}) {
		t.Errorf("%q: %q", r.Title, r.Says)
	}
	var titles []string
	for _, row := range r.Sections[1].Rows {
		titles = append(titles, row.Title+", "+row.Says[1])
	}
	if want := []string{"Moved: 1 out, 5 left after it", "Given or sold: 2 out, 6 left after it", "Fitted to Truck 1, 8 left after it", "Bought: 4 in, 9 left after it", "Counted: 5, 5 left after it"}; !slices.Equal(titles, want) {
		t.Errorf("%q, want %q", titles, want)
	}
	if f := r.Sections[0].Figures; len(f) != 3 || f[0].Text != "2" || f[1].Text != "3.10" || f[2].Text != "15.50" {
		t.Errorf("figures %+v", f)
	}
	s.Add("h", 6*minute, "stock.moved", `{'n':-7,'why':'lost'}`, journaltest.About("tips"))
	if r := reportOf(t, s, look); r.Says[0] != "Count again: there should be -2 on Truck 1, so something was not entered." {
		t.Errorf("below zero: %q", r.Says)
	}
}

// TestFittedFromStock: a fitting takes from the one line that it can be; of several a
// person picks, and without an answer it is fitted all the same.
func TestFittedFromStock(t *testing.T) {
	s := trucks(t)
	aLine(s, "tips", `{'slot':'tip','rating':'45 A','rig':'rig-1'}`, 1, "0")
	asked := func() []string {
		var keys []string
		for _, a := range open(foldOf(s), lookAt(s, "parts", 10)).asksOfNew("rig-1", "") {
			keys = append(keys, a.Key)
			if a.Key == "line" && (a.Only.Words[0] != "tip" || len(a.Options) != 3 || a.Options[0].Label != "45 A, 0 left" || a.Options[2].Label != "Not from stock") {
				t.Errorf("asked %+v", a)
			}
		}
		return keys
	}
	fitted := func(answers map[string]string) any {
		d := do(t, s, "new-part", map[string]string{"rig": "rig-1"}, answers)
		return d.Entries[len(d.Entries)-1].Body["line"]
	}
	if got := asked(); !slices.Equal(got, []string{"slot"}) {
		t.Errorf("one line: asked %q", got)
	}
	if got := fitted(map[string]string{"slot": "tip"}); got != "tips" {
		t.Errorf("one line, without pieces: taken from %v", got)
	}
	if got := fitted(map[string]string{"slot": "cup"}); got != nil {
		t.Errorf("no line: taken from %v", got)
	}
	aLine(s, "more", `{'slot':'tip','rating':'60 A','rig':'rig-1'}`, 1, "5")
	if got := asked(); !slices.Equal(got, []string{"slot", "line"}) {
		t.Errorf("two lines: asked %q", got)
	}
	for line, want := range map[string]any{"more": "more", "none": nil, "": nil} {
		if got := fitted(map[string]string{"slot": "tip", "line": line}); got != want {
			t.Errorf("two lines, answered %q: taken from %v", line, got)
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

// TestStockTableKeys: the columns of the file are fixed, for other programs read it.
func TestStockTableKeys(t *testing.T) {
	s := trucks(t)
	aLine(s, "tips", `{'slot':'tip','rating':'45 A','rig':'rig-1','price':310}`, 1, "5")
	d, err := Do(foldOf(s), Act{Look: lookAt(s, "stock", 10), Act: "csv", With: map[string]string{"table": tableAt(t, reportOf(t, s, lookAt(s, "stock", 10)))}})
	if err != nil {
		t.Fatal(err)
	}
	var keys []string
	for _, c := range open(foldOf(s), lookAt(s, "stock", 10)).stockTable().Columns {
		keys = append(keys, c.Key)
	}
	if got := strings.Join(keys, " "); got != "part rating name truck pieces least price counted" {
		t.Errorf("keys %s", got)
	}
	want := "\ufeffPart,Rating,Name,Truck,Pieces,Lowest count,Price,Counted\r\ntip,45 A,,Truck 1,5,,3.10,2025-10-17T19:59\r\n"
	if d.Text != want || d.Name != "kerfside-stock-2025-10-17.csv" || d.Type != "text/csv" {
		t.Errorf("%s, %s: %q, want %q", d.Name, d.Type, d.Text, want)
	}
}

// tableAt is which table the report's button saves.
func tableAt(t *testing.T, r Report) string {
	t.Helper()
	for _, s := range r.Sections {
		for _, a := range s.Actions {
			if a.Act == "csv" {
				return a.With["table"]
			}
		}
	}
	t.Fatal("no table is to be saved")
	return ""
}
