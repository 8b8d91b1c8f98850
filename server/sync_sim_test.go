package server

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"kerfside/calc/journal"
	"kerfside/server/store"
)

// long reports whether the long tests were asked for.
func long() bool { return os.Getenv("KERFSIDE_LONG") != "" }

// TestSimulation runs histories of three to nine phones and a server, with
// requests lost, repeated, cut and late, clocks off by up to ten years, phones
// cloned, wiped and restored, and the server restored from a backup. After all
// that the network heals, and then the promises of the journal must hold. A seed
// that fails prints its story.
func TestSimulation(t *testing.T) {
	seeds := uint64(200)
	switch {
	case long():
		seeds = 2_000
	case testing.Short():
		seeds = 40
	}
	first := uint64(1)
	if n, err := strconv.ParseUint(os.Getenv("KERFSIDE_SEED"), 10, 32); err == nil {
		first = 1 + n*1_000_000 // a soak goes on where the last one ended
	}
	for seed := first; seed < first+seeds; seed++ {
		if err := run(t, seed, nil); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
	}
}

// run runs one seed to its end.
func run(t testing.TB, seed uint64, bug *plant) (err error) {
	w := newWorld(t, seed, bug)
	defer func() {
		if cerr := w.store.Close(); err == nil {
			err = cerr
		}
		if err != nil && bug == nil {
			err = fmt.Errorf("%w\nits story:\n%s", err, strings.Join(w.story, "\n"))
		}
	}()
	for i := range 40 + w.rand.IntN(60) {
		if err := w.step(); err != nil {
			return err
		}
		if i%10 == 9 {
			if err := w.checkServer(); err != nil {
				return err
			}
		}
	}
	if err := w.heal(); err != nil {
		return err
	}
	return w.check()
}

// heal lets all phones sync without faults until nothing moves any more.
func (w *world) heal() error {
	w.tell("the network heals")
	for _, p := range w.phones {
		for len(p.held) > 0 {
			if err := w.land(p); err != nil {
				return err
			}
		}
	}
	for range 8 {
		w.now += 2 * 3600 * 1000
		moved := false
		for _, p := range w.phones {
			m, err := w.drain(p)
			if err != nil {
				return err
			}
			moved = moved || m
		}
		if !moved {
			return nil
		}
	}
	return fmt.Errorf("the phones do not come to rest")
}

// drain syncs one phone until it has nothing to do, within the promised rounds.
func (w *world) drain(p *phone) (moved bool, err error) {
	unsent := 0
	for _, r := range p.disk.records {
		if r.Unsent == journal.ToSend || r.N > 0 && w.skewed(p) {
			unsent++
		}
	}
	state, _ := w.store.State(crewID)
	bound := (unsent+journal.MaxPush-1)/journal.MaxPush + int(state.Max+journal.MaxPage-1)/journal.MaxPage + 10
	bound += 20*len(w.bad) + 3*w.clashes // halving down to an event that is refused takes its time
	for round := 0; ; round++ {
		before := p.disk.meta
		if err := w.sync(p, ""); err != nil {
			return moved, err
		}
		after := p.disk.meta
		moved = moved || before.Cursor != after.Cursor || before.Gen != after.Gen
		if !before.Rewinding && !after.Rewinding && before.Gen == after.Gen && after.Stopped == nil &&
			after.Cursor == after.Max && !p.waiting() && len(p.extra) == 0 {
			return moved, nil
		}
		if round > bound {
			return moved, fmt.Errorf("%s does not drain within %d rounds: cursor %d of %d, fails %d, rewinding %t",
				p.name, bound, after.Cursor, after.Max, after.Fails, after.Rewinding)
		}
	}
}

// skewed reports whether the phone's history is not the server's, so that all
// it holds may have to be offered again.
func (w *world) skewed(p *phone) bool {
	chain, ok, err := w.store.At(wContext, crewID, p.disk.meta.Cursor)
	return err != nil || !ok || chain != p.disk.meta.Head
}

func (p *phone) waiting() bool {
	for _, r := range p.disk.records {
		if r.Unsent == journal.ToSend {
			return true
		}
	}
	return false
}

// checkServer: n has no gap, the chain holds, no o ever changes.
func (w *world) checkServer() error {
	rows, err := w.rows()
	if err != nil {
		return err
	}
	var chain journal.Chain
	seen := map[string]bool{}
	for i, r := range rows {
		chain = chain.Next(r.ID, r.O, r.Sum)
		switch o := r.O.String(); {
		case r.N != int64(i+1):
			return fmt.Errorf("arrival %d of the server is numbered %d", i+1, r.N)
		case chain != r.Chain:
			return fmt.Errorf("the chain breaks at %d", r.N)
		case seen[r.ID]:
			return fmt.Errorf("%s is on the server twice", r.ID)
		case w.given[r.ID] != "" && w.given[r.ID] != o:
			return fmt.Errorf("o of %s changed from %s to %s", r.ID, w.given[r.ID], o)
		default:
			w.given[r.ID], seen[r.ID] = o, true
		}
	}
	return nil
}

// check holds the promises against the end of the story.
func (w *world) check() error {
	if err := w.checkServer(); err != nil {
		return err
	}
	rows, err := w.rows()
	if err != nil {
		return err
	}
	server := map[string]store.Row{}
	there := map[string]bool{}
	for _, r := range rows {
		server[r.ID] = r
		there[string(r.Raw)] = true
	}
	for raw := range w.tapped {
		if !stands(there, raw) {
			return fmt.Errorf("an event is lost: %s", raw)
		}
	}
	if err := w.checkNothingMade(there); err != nil {
		return err
	}
	var hash string
	afresh := w.phones[w.rand.IntN(len(w.phones))]
	for _, p := range w.phones {
		if err := p.checkRecords(server); err != nil {
			return err
		}
		got, err := p.checkFold(w, p == afresh)
		if err != nil {
			return err
		}
		if hash == "" {
			hash = got
		}
		if got != hash {
			return fmt.Errorf("%s folds to another state than %s", p.name, w.phones[0].name)
		}
	}
	return w.checkOracle(rows)
}

// checkNothingMade: the server holds only what somebody tapped.
func (w *world) checkNothingMade(there map[string]bool) error {
	for raw := range w.ever {
		delete(there, raw)
		_, again, err := journal.Reenter([]byte(raw))
		if err != nil {
			return err
		}
		delete(there, string(again))
	}
	for raw := range there {
		return fmt.Errorf("the server holds what nobody tapped: %s", raw)
	}
	return nil
}

// checkRecords: the phone holds what the server holds, byte for byte, with the
// same numbers, and besides only what was put aside.
func (p *phone) checkRecords(server map[string]store.Row) error {
	for id, r := range server {
		switch mine, ok := p.disk.records[id]; {
		case !ok:
			return fmt.Errorf("%s lacks %s", p.name, id)
		case mine.Raw != string(r.Raw):
			return fmt.Errorf("%s has %s as\n%s, the server as\n%s", p.name, id, mine.Raw, r.Raw)
		case mine.O == nil || *mine.O != r.O || mine.N != r.N:
			return fmt.Errorf("%s has %s at n %d o %v, the server at n %d o %v", p.name, id, mine.N, mine.O, r.N, r.O)
		}
	}
	for id, r := range p.disk.records {
		if _, ok := server[id]; ok {
			continue
		}
		if _, err := journal.Decode([]byte(r.Raw)); err == nil || r.Unsent != journal.Aside {
			return fmt.Errorf("%s holds %s, which the server does not: %+v", p.name, id, r)
		}
	}
	return nil
}

// checkFold returns the hash of what the worker folded bit by bit, with restarts
// from its rungs. With afresh that must be what a fold from nothing, in any
// order, gives.
func (p *phone) checkFold(w *world, afresh bool) (string, error) {
	if _, err := p.work(true); err != nil {
		return "", err
	}
	type hash struct {
		Hash   string
		Events int
	}
	bit, err := deskCall[hash](p.desk, "journal-hash", nil)
	if err != nil {
		return "", err
	}
	if !afresh {
		return bit.Hash, nil
	}
	fold := journal.NewFold()
	ids := slices.Sorted(maps.Keys(p.disk.records))
	w.rand.Shuffle(len(ids), func(i, j int) { ids[i], ids[j] = ids[j], ids[i] })
	for _, id := range ids {
		r := p.disk.records[id]
		if e, err := journal.Decode([]byte(r.Raw)); err == nil {
			fold.Add(e, r.O, r.N)
		}
	}
	whole, err := fold.Hash()
	if err != nil {
		return "", err
	}
	if whole != bit.Hash || fold.Len() != bit.Events {
		return "", fmt.Errorf("%s folded bit by bit to %s (%d events), at once to %s (%d)", p.name, bit.Hash[:8], bit.Events, whole[:8], fold.Len())
	}
	return whole, nil
}

// checkOracle: failed checks and stock are what a plain walk over the events,
// written without the fold, makes of them.
func (w *world) checkOracle(rows []store.Row) error {
	fold := journal.NewFold()
	for _, r := range rows {
		e, err := journal.Decode(r.Raw)
		if err != nil {
			return err
		}
		fold.Add(e, &r.O, r.N)
	}
	stock, fails := oracle(rows)
	got := map[string]int64{}
	for _, l := range fold.Stocks().Lines {
		got[l.ID] = l.N
	}
	if !maps.Equal(got, stock) {
		return fmt.Errorf("stock is %v, by the oracle %v", got, stock)
	}
	var open []string
	for _, f := range fold.Now().Fails {
		open = append(open, f.ID)
	}
	slices.Sort(open)
	if !slices.Equal(open, fails) {
		return fmt.Errorf("failed checks are %v, by the oracle %v", open, fails)
	}
	return nil
}

// plain is an event as the oracle reads it.
type plain struct {
	ID, Kind, About string
	T               string
	At              *int64
	Body            map[string]any
	o               string
}

// oracle walks over the events in order and counts.
func oracle(rows []store.Row) (stock map[string]int64, fails []string) {
	var list []plain
	for _, r := range rows {
		var e plain
		json.Unmarshal(r.Raw, &e)
		e.o = r.O.String()
		list = append(list, e)
	}
	slices.SortFunc(list, func(a, b plain) int { return strings.Compare(a.o+a.T+a.ID, b.o+b.T+b.ID) })
	void := map[any]bool{}
	for _, e := range list {
		if e.Kind == "void" {
			void[e.Body["of"]] = e.Body["on"] != false
		}
	}
	set := map[any]map[string]any{}
	cleared := map[any]bool{}
	for _, e := range list {
		if void[e.ID] {
			continue
		}
		switch e.Kind {
		case "amend":
			target := e.Body["of"]
			if set[target] == nil {
				set[target] = map[string]any{}
			}
			maps.Copy(set[target], e.Body["set"].(map[string]any))
		case "check.cleared":
			cleared[e.Body["of"]] = true
		}
	}
	when := func(e plain) string {
		if e.At != nil {
			if at := fmt.Sprintf("%012x0000", *e.At); at < e.o {
				return at
			}
		}
		return e.o
	}
	slices.SortStableFunc(list, func(a, b plain) int { return strings.Compare(when(a), when(b)) })
	stock = map[string]int64{}
	for _, e := range list {
		if void[e.ID] {
			continue
		}
		if e.Kind == "check.answered" && e.Body["result"] == "fail" && !cleared[e.ID] {
			fails = append(fails, e.ID)
		}
		maps.Copy(e.Body, set[e.ID])
		switch e.Kind {
		case "stock.moved":
			stock[e.About] += int64(e.Body["n"].(float64))
		case "stock.counted":
			stock[e.About] = int64(e.Body["n"].(float64))
		case "part.fitted":
			stock[e.Body["line"].(string)]--
		}
	}
	slices.Sort(fails)
	return stock, fails
}
