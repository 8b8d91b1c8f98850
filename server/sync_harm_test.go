package server

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/server/store"
)

// held returns every event that a phone or a server holds. What only a copy of
// a phone holds counts as lost until that copy is brought back.
func (w *world) held() (map[string]bool, error) {
	all := map[string]bool{}
	for _, p := range w.phones {
		for _, d := range append(slices.Collect(maps.Values(p.shelf)), p.disk) {
			for _, r := range d.records {
				all[r.Raw] = true
			}
		}
	}
	for _, h := range w.hosts {
		rows, err := h.after(0)
		if err != nil {
			return nil, err
		}
		for _, r := range rows {
			all[string(r.Raw)] = true
		}
	}
	return all, nil
}

// lose does something that may destroy events, and strikes from what must
// survive those that nobody holds any more. An event that was entered again
// under another id counts as held.
func (w *world) lose(destroy func() error) error {
	before, err := w.held()
	if err != nil {
		return err
	}
	if err := destroy(); err != nil {
		return err
	}
	after, err := w.held()
	if err != nil {
		return err
	}
	for raw := range w.tapped {
		if stands(before, raw) && !stands(after, raw) {
			delete(w.tapped, raw)
		}
	}
	return nil
}

// stands reports whether raw is among all, under its id or entered again.
func stands(all map[string]bool, raw string) bool {
	if all[raw] {
		return true
	}
	_, again, err := event.Reenter([]byte(raw))
	return err == nil && all[string(again)]
}

// wipe empties a phone, as a browser that evicts its storage does.
func (w *world) wipe(p *phone) error {
	w.tell("%s is wiped", p.name)
	return w.lose(func() error {
		p.crew, p.disk, p.shelf = crewID, newDisk(), map[string]memory{}
		p.restart()
		return nil
	})
}

// restorePhone brings a copy of some phone back onto p, or onto a new phone that
// goes on beside the first as its clone.
func (w *world) restorePhone(p *phone) error {
	c := w.copies[w.rand.IntN(len(w.copies))]
	if w.rand.IntN(2) == 0 && len(w.phones) < 9 {
		p = newPhone(fmt.Sprintf("clone-%d", len(w.phones)), w.jump(), w.bug)
		p.reach = w.page
		w.phones = append(w.phones, p)
	}
	w.tell("%s gets a copy", p.name)
	return w.lose(func() error {
		p.crew, p.disk, p.shelf = c.crew, c.disk.copy(), map[string]memory{}
		p.restart()
		return nil
	})
}

// restored returns a server that holds what h held at a backup, nil if there is
// none.
func (w *world) restored(h *host) (*host, error) {
	if len(h.saved) == 0 {
		return nil, nil
	}
	n := h.saved[w.rand.IntN(len(h.saved))]
	rows, err := h.after(0)
	if err != nil {
		return nil, err
	}
	w.tell("a server begins from the backup at %d of %d", n, len(rows))
	fresh, err := w.newHost(crewID)
	if err != nil {
		return nil, err
	}
	fresh.saved = []int64{n}
	var pushes []exchange.Push
	for _, r := range rows[:n] {
		e, err := event.Decode(r.Raw)
		if err != nil {
			return nil, errors.Join(err, fresh.close())
		}
		pushes = append(pushes, exchange.Push{Event: e, O: r.O, Sum: r.Sum})
	}
	_, err = fresh.store.Append(wContext, store.Batch{Crew: crewID, Now: 1 << 47, Events: pushes})
	return fresh, err
}

// restoreServer puts a server with an earlier backup in the place of the server.
func (w *world) restoreServer() error {
	fresh, err := w.restored(w.hosts[0])
	if err != nil || fresh == nil {
		return err
	}
	return w.lose(func() error {
		old := w.hosts[0]
		w.hosts[0] = fresh
		return old.close()
	})
}

// secondServer lets a server that begins from an earlier backup answer under the
// name of the first, now the one and now the other.
func (w *world) secondServer() error {
	if len(w.hosts) > 1 {
		return nil
	}
	second, err := w.restored(w.hosts[0])
	if err != nil || second == nil {
		return err
	}
	w.hosts = append(w.hosts, second)
	return nil
}

// oneServerLess takes one of two servers off, for good.
func (w *world) oneServerLess() error {
	if len(w.hosts) < 2 {
		return nil
	}
	i := w.rand.IntN(2)
	w.tell("of two servers number %d is taken off", i+1)
	return w.lose(func() error {
		old := w.hosts[i]
		w.hosts = slices.Delete(w.hosts, i, i+1)
		return old.close()
	})
}

// clash gives two phones an event of one id with different bytes.
func (w *world) clash(p *phone) error {
	other := w.phone()
	if other == p {
		return nil
	}
	id := w.id()
	for _, q := range []*phone{p, other} {
		raw := q.tap(w.now, func(id string, t event.Stamp, wall int64) string {
			return line(id, t, wall, q.device, "note.added", "", map[string]any{"text": "clash on " + q.name})
		}, id)
		w.note(q, raw)
	}
	w.clashes++
	w.tell("%s and %s write different events under one id", p.name, other.name)
	return nil
}
