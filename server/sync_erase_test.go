package server

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/journal/fold"
	"kerfside/server/store"
)

// simFolder is where the lists of erasures of all worlds lie: in memory where there
// is such a folder, since nothing here tests that a flush reaches the disk.
var simFolder = sync.OnceValue(func() string {
	const memory = "/dev/shm"
	if info, err := os.Stat(memory); err == nil && info.IsDir() {
		return memory
	}
	return os.TempDir()
})

// erasedPath is where the servers of this world keep the list of erasures. It
// survives every restore, as the file beside a database does.
func (w *world) erasedPath() string {
	return filepath.Join(simFolder(), fmt.Sprintf("kerfside-sim-%d-%d-%p.erased", os.Getpid(), w.seed, w))
}

// isStub reports whether raw stands in the place of an erased event.
func isStub(raw []byte) bool {
	e, err := event.Decode(raw)
	return err == nil && e.Kind == event.ErasedKind
}

// erase lets an owner erase an entry of the server.
func (w *world) erase() error {
	h := w.hosts[0]
	if err := h.store.NoteErasures(wContext); err != nil {
		return err
	}
	before, err := h.after(0)
	if err != nil || len(before) == 0 {
		return err
	}
	target := before[w.rand.IntN(len(before))]
	if isStub(target.Raw) {
		return nil
	}
	if _, err := h.store.Erase(wContext, h.crew, target.ID, "", "", w.now); err != nil {
		return err
	}
	after, err := h.after(0)
	if err != nil {
		return err
	}
	w.tell("an owner erases %s", target.ID)
	return w.strikeAll(before, after)
}

// forget lets an owner forget a phone, a few entries at a time, and sometimes only
// some of them. The phone goes on all the same, as one does that joined again.
func (w *world) forget(p *phone) error {
	h := w.hosts[0]
	if err := h.store.NoteErasures(wContext); err != nil {
		return err
	}
	before, err := h.after(0)
	if err != nil {
		return err
	}
	w.now++ // it joined after it was forgotten, if it ever was
	_, err = h.file.ExecContext(wContext, `INSERT OR IGNORE INTO device (crew, id, name, role, token, since, seen)
		SELECT key, ?1, 'a phone', 'member', randomblob(32), ?2, ?2 FROM crew WHERE id = ?3`, p.device, w.now, h.crew)
	left := 1
	for err == nil && left > 0 && w.rand.IntN(8) > 0 {
		_, left, err = h.store.Forget(wContext, h.crew, p.device, "", w.now, 1+w.rand.IntN(9))
		w.tell("an owner forgets %s, %d entries are left", p.name, left)
	}
	if err != nil {
		return err
	}
	after, err := h.after(0)
	if err != nil {
		return err
	}
	for _, r := range after {
		if e, err := event.Decode(r.Raw); left == 0 && err == nil && e.Device == p.device && e.Kind != event.ErasedKind {
			return fmt.Errorf("the server still holds of the forgotten %s %s", p.name, r.Raw)
		}
	}
	return w.strikeAll(before, after)
}

// strikeAll strikes what became a stub meanwhile.
func (w *world) strikeAll(before, after []store.Row) error {
	for i, was := range before {
		if isStub(after[i].Raw) && !isStub(was.Raw) {
			if err := w.strike(was); err != nil {
				return err
			}
		}
	}
	return nil
}

// strike takes what was erased from what must survive, and notes its stubs as
// what may be on a server.
func (w *world) strike(was store.Row) error {
	list, err := exchange.Erase(was.Raw)
	if err != nil {
		return err
	}
	_, again, err := event.Reenter(was.Raw)
	if err != nil {
		return err
	}
	w.erased[string(was.Raw)], w.erased[string(again)] = true, true
	w.erasedIDs[was.ID] = true
	for _, e := range list {
		w.ever[string(e.Stub)] = true
	}
	for raw := range w.tapped {
		if _, again, err := event.Reenter([]byte(raw)); err == nil && (raw == string(was.Raw) || string(again) == string(was.Raw)) {
			delete(w.tapped, raw)
		}
	}
	return nil
}

// checkErased: in the end what was erased is nowhere, not in a row of the
// server, not in a record of a phone, and once a phone has started again and
// folded, not in its snapshot either.
func (w *world) checkErased(rows []store.Row) error {
	for _, r := range rows {
		if w.erased[string(r.Raw)] {
			return fmt.Errorf("the server still holds the erased %s", r.Raw)
		}
	}
	for _, p := range w.phones {
		for _, r := range p.disk.records {
			if w.erased[r.Raw] {
				return fmt.Errorf("%s still holds the erased %s", p.name, r.Raw)
			}
		}
		p.restart()
		b, err := p.tab(0)
		if err == nil {
			err = p.foldNew(b, true)
		}
		if err != nil {
			return err
		}
		p.storeSegments(b)
		if err := p.checkSegments(w.erasedIDs); err != nil {
			return err
		}
	}
	return nil
}

// checkSegments: no stored segment holds the fact of an erased event, and what is
// stored makes one snapshot.
func (p *phone) checkSegments(erased map[string]bool) error {
	var segments []fold.Segment
	for name, segment := range p.disk.segments {
		segments = append(segments, segment)
		for text := range strings.SplitSeq(segment.Data, "\n") {
			f := strings.Split(text, "\t")
			if f[0] == "+" && erased[f[1]] && f[5] != event.ErasedKind && !strings.Contains(p.disk.records[f[1]].Raw, f[13]) {
				return fmt.Errorf("rung %s of %s still holds an erased event: %s", name, p.name, text)
			}
		}
	}
	if _, _, err := fold.Restore(segments); err != nil {
		return fmt.Errorf("the snapshot of %s: %w", p.name, err)
	}
	return nil
}
