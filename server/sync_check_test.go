package server

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/server/store"
)

// after returns all that the server's file holds after arrival n, read past the
// store, which may answer from its memory.
func (h *host) after(n int64) ([]store.Row, error) {
	rows, err := h.file.QueryContext(wContext, `SELECT n, substr(e.id, -22), o, sum, chain, raw FROM event e JOIN crew c ON e.crew = c.key
		WHERE c.id = ? AND n > ? ORDER BY n`, h.crew, n)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var all []store.Row
	for rows.Next() {
		var r store.Row
		var o string
		var sum, chain []byte
		if err := rows.Scan(&r.N, &r.ID, &o, &sum, &chain, &r.Raw); err != nil {
			return nil, err
		}
		if r.O, err = event.ParseStamp(o); err != nil {
			return nil, err
		}
		if r.Sum = event.Sum(sum); r.Sum != event.SumOf(r.Raw) && !isStub(r.Raw) {
			return nil, fmt.Errorf("the bytes of arrival %d are not those of its sum", r.N)
		}
		r.Chain = event.Chain(chain)
		all = append(all, r)
	}
	return all, rows.Err()
}

// checkServers looks at what arrived since the last time.
func (w *world) checkServers() error {
	for _, h := range append(slices.Clone(w.hosts), w.other) {
		rows, err := h.after(h.seen)
		if err == nil {
			err = h.follow(rows)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// follow: n has no gap, the chain holds, each id comes once.
func (h *host) follow(rows []store.Row) error {
	for _, r := range rows {
		h.chain = h.chain.Next(r.ID, r.O, r.Sum)
		switch _, there := h.given[r.ID]; {
		case r.N != h.seen+1:
			return fmt.Errorf("arrival %d of the server is numbered %d", h.seen+1, r.N)
		case h.chain != r.Chain:
			return fmt.Errorf("the chain breaks at %d", r.N)
		case there:
			return fmt.Errorf("%s is on the server twice", r.ID)
		}
		h.given[r.ID] = r.O.String()
		h.seen = r.N
	}
	return nil
}

// check holds the promises against the end of the story.
func (w *world) check(o *outcome) error {
	rows, err := w.checkSets(o)
	if err != nil {
		return err
	}
	if len(w.erased) > 0 {
		if err := w.checkErased(rows); err != nil {
			return err
		}
	}
	stock, fails := oracle(rows)
	var hash string
	afresh := w.phone()
	for _, p := range w.phones {
		got, err := p.checkFold(w, p == afresh, stock, fails)
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
	return nil
}

// checkSets: nothing is lost, nothing is made up, and all hold the same. It
// returns what the server holds.
func (w *world) checkSets(o *outcome) ([]store.Row, error) {
	if err := w.checkServers(); err != nil {
		return nil, err
	}
	h := w.hosts[0]
	rows, err := h.after(0)
	if err != nil {
		return nil, err
	}
	server := map[string]store.Row{}
	there := map[string]bool{}
	for _, r := range rows {
		if was := h.given[r.ID]; was != r.O.String() {
			return nil, fmt.Errorf("o of %s changed from %s to %v", r.ID, was, r.O)
		}
		server[r.ID] = r
		there[string(r.Raw)] = true
	}
	o.acknowledged = len(rows)
	var gone string
	for raw := range w.tapped {
		if !stands(there, raw) {
			o.lost++
			gone = raw
		}
	}
	if o.lost > 0 {
		return nil, fmt.Errorf("%d events are lost, one is %s", o.lost, gone)
	}
	if err := w.checkApart(there); err != nil {
		return nil, err
	}
	if err := w.checkNothingMade(there); err != nil {
		return nil, err
	}
	for _, p := range w.phones {
		if err := p.checkRecords(server); err != nil {
			return nil, err
		}
	}
	return rows, nil
}

// checkApart: neither crew's server holds what was written in the other.
func (w *world) checkApart(there map[string]bool) error {
	for raw := range w.foreign {
		if there[raw] {
			return fmt.Errorf("the crew's server holds another crew's %s", raw)
		}
	}
	rows, err := w.other.after(0)
	for _, r := range rows {
		if w.ever[string(r.Raw)] {
			return fmt.Errorf("another crew's server holds %s", r.Raw)
		}
	}
	return err
}

// checkNothingMade: the server holds only what somebody tapped.
func (w *world) checkNothingMade(there map[string]bool) error {
	for raw := range w.ever {
		if there[raw] {
			delete(there, raw)
		}
	}
	if len(there) == 0 {
		return nil
	}
	for raw := range w.ever {
		_, again, err := event.Reenter([]byte(raw))
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
		if _, err := event.Decode([]byte(r.Raw)); err == nil || r.Unsent != event.Rejected {
			return fmt.Errorf("%s holds %s, which the server does not: %+v", p.name, id, r)
		}
	}
	return nil
}

// checkFold returns the hash of what a worker folded bit by bit, with restarts
// from its segments, and holds its screen against the oracle. With afresh the hash
// must be what a fold from nothing, in any order, gives.
func (p *phone) checkFold(w *world, afresh bool, stock map[string]int64, fails []string) (string, error) {
	b, err := p.tab(0)
	if err == nil {
		err = p.foldNew(b, true)
	}
	if err != nil {
		return "", err
	}
	if err := b.checkScreen(stock, fails); err != nil {
		return "", fmt.Errorf("%s: %w", p.name, err)
	}
	type hash struct {
		Hash   string
		Events int
	}
	bit, err := engineCall[hash](b.engine, "journal-hash", nil)
	if err != nil || !afresh {
		return bit.Hash, err
	}
	fold := fold.NewFold()
	list := p.disk.all()
	w.rand.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
	for _, r := range list {
		if e, err := event.Decode([]byte(r.Raw)); err == nil {
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

// checkScreen: stock and failed checks on the screen are what a plain walk over
// the events, written without the fold, makes of them.
func (b *tab) checkScreen(stock map[string]int64, fails []string) error {
	var stocks fold.Stocks
	var now fold.Now
	if b.views["stock"] != nil {
		if err := json.Unmarshal(b.views["stock"], &stocks); err != nil {
			return err
		}
	}
	if b.views["now"] != nil {
		if err := json.Unmarshal(b.views["now"], &now); err != nil {
			return err
		}
	}
	got := map[string]int64{}
	for _, l := range stocks.Lines {
		got[l.ID] = l.N
	}
	if !maps.Equal(got, stock) {
		return fmt.Errorf("stock is %v, by the oracle %v", got, stock)
	}
	var open []string
	for _, f := range now.Fails {
		open = append(open, f.ID)
	}
	slices.Sort(open)
	if !slices.Equal(open, fails) {
		return fmt.Errorf("failed checks are %v, by the oracle %v", open, fails)
	}
	return nil
}
