package fold

import (
	"cmp"
	"encoding/json"
	"maps"
	"math"
	"slices"
	"testing"

	"kerfside/calc/journal/event"

	"pgregory.net/rapid"
)

// told is an event as the oracle takes it: everything by encoding/json, nothing
// by the fold.
type told struct {
	ID, T, Kind, About string
	V                  int64
	At                 float64
	Body               map[string]any
	o                  string
	hidden             bool
}

// readAll returns the events in the order in which things happened, with what was amended
// and hidden, and what stands for an id, by a plain walk after the pages of the
// specification. cleared are the checks that something that stands clears.
func readAll(t *rapid.T, list []event.Event) (all []*told, of func(string) string, cleared map[string]bool) {
	for i, e := range list {
		x := &told{}
		if err := json.Unmarshal(e.Raw, x); err != nil {
			t.Fatal(err)
		}
		if x.o = x.T; i%2 == 1 {
			o, _ := confirmed(e, i)
			x.o = o.String()
		}
		all = append(all, x)
	}
	slices.SortFunc(all, func(a, b *told) int {
		return cmp.Or(cmp.Compare(a.o, b.o), cmp.Compare(a.T, b.T), cmp.Compare(a.ID, b.ID))
	})
	hidden := map[string]bool{}
	all = slices.DeleteFunc(all, func(x *told) bool { return x.V > 1 }) // of a newer version: not counted
	for _, x := range all {
		if x.Kind == "void" {
			hidden[x.text("of")] = x.Body["on"] != false
		}
	}
	for _, x := range all {
		if x.Kind == "amend" && !hidden[x.ID] {
			x.amend(all)
		}
	}
	least := map[string]string{}
	of = func(id string) string { return cmp.Or(least[id], id) }
	cleared = map[string]bool{}
	for _, x := range all {
		x.hidden = hidden[x.ID]
		switch {
		case x.hidden:
		case x.Kind == "check.cleared":
			cleared[x.text("of")] = true
		case x.Kind == "same" && x.text("as") != "":
			a, b := of(x.About), of(x.text("as"))
			for _, id := range []string{a, b, x.About, x.text("as")} {
				least[id] = of(id)
			}
			for id, to := range least {
				if to == a || to == b {
					least[id] = min(a, b)
				}
			}
		}
	}
	slices.SortStableFunc(all, func(a, b *told) int { return cmp.Compare(a.when(), b.when()) })
	return all, of, cleared
}

// oracle says what stock there is and which failed checks show.
func oracle(t *rapid.T, list []event.Event) (stock map[string]int64, fails []string) {
	all, of, cleared := readAll(t, list)
	stock = map[string]int64{}
	for _, x := range all {
		n, whole := x.Body["n"].(float64)
		whole = whole && n >= -maxPieces && n <= maxPieces && n == math.Trunc(n)
		switch {
		case x.hidden:
		case x.Kind == "stock.moved" && whole:
			stock[of(x.About)] += int64(n)
		case x.Kind == "stock.counted" && whole:
			stock[of(x.About)] = int64(n)
		case x.Kind == "part.fitted" && x.text("slot") != "" && x.text("line") != "":
			stock[of(x.text("line"))]--
		case x.Kind == "check.answered" && x.text("guide") != "" && x.text("step") != "" && slices.Contains([]string{"fail", "change", "not-done"}, x.text("result")) && !cleared[x.ID]:
			fails = append(fails, x.ID)
		}
	}
	slices.Sort(fails)
	return stock, fails
}

func (x *told) text(key string) string {
	s, _ := x.Body[key].(string)
	return s
}

// amend lays x over its target. No amendment or removal is amended.
func (x *told) amend(all []*told) {
	set, _ := x.Body["set"].(map[string]any)
	for _, y := range all {
		if y.ID != x.text("of") || y.Kind == "amend" || y.Kind == "void" {
			continue
		}
		for key, value := range set {
			at, isNumber := value.(float64)
			switch {
			case key == "at" && isNumber && at > 0 && at <= event.MaxMillis && at == math.Trunc(at):
				y.At = at
			case key == "at":
			case value == nil:
				delete(y.Body, key)
			default:
				y.Body[key] = value
			}
		}
	}
}

// when is the stamp of when it happened.
func (x *told) when() string {
	if at := event.StampOf(int64(x.At)).String(); x.At > 0 && at < x.o {
		return at
	}
	return x.o
}

// TestStockAndFailsAgainstAnOracle: stock is what an independent walk counts, and
// a failed check shows until something that stands clears it by name.
func TestStockAndFailsAgainstAnOracle(t *testing.T) {
	laws(t, func(t *rapid.T) {
		list := genJournal(t)
		stock, fails := oracle(t, list)
		f := foldAll(list)
		shown := map[string]int64{}
		for _, l := range f.Stocks().Lines {
			shown[l.ID] = l.N
			if _, ok := stock[l.ID]; !ok {
				stock[l.ID] = 0 // it has a name, and nothing came or went
			}
		}
		if !maps.Equal(shown, stock) {
			t.Fatalf("stock is %v, by the oracle %v", shown, stock)
		}
		var open []string
		for _, v := range f.Now().Fails {
			open = append(open, v.ID)
		}
		slices.Sort(open)
		if !slices.Equal(open, fails) {
			t.Fatalf("failed checks are %v, by the oracle %v", open, fails)
		}
	})
}
