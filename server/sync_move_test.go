package server

import (
	"errors"
	"fmt"
	"slices"

	"kerfside/server/store"
)

// stranger is the crew that a server has to which another crew moves.
const stranger = "Kq7Wb2nXc5RtYpLs9dVgHw"

// moveServer moves the crew to a fresh server, while a phone tries to sync. Phones go on
// as if nothing had been, but for what they are told meanwhile: no number, no o and no
// chain is another one.
func (w *world) moveServer() error {
	old := w.hosts[0]
	fresh, err := w.newHost(stranger)
	if err != nil {
		return err
	}
	fresh.crew, fresh.given, fresh.seen, fresh.chain = old.crew, old.given, old.seen, old.chain
	number, public, err := old.store.Freeze(crewID, w.now)
	if err != nil {
		return errors.Join(err, fresh.close())
	}
	w.tell("the crew moves to another server")
	receipt, err := w.carry(old.store, fresh.store, number, public)
	if err != nil {
		return errors.Join(err, fresh.close())
	}
	if err := w.sync(w.phone(), 0, ""); err != nil {
		return errors.Join(err, fresh.close())
	}
	key, err := old.store.HandOver(receipt, w.now)
	if err == nil {
		_, err = fresh.store.TakeUp(key, w.now)
	}
	if err == nil {
		err = w.checkServers() // what came to the old one before it was frozen
	}
	if err != nil {
		return errors.Join(err, fresh.close())
	}
	w.hosts[0], fresh.seen, fresh.chain = fresh, old.seen, old.chain
	return old.close()
}

// carry takes all rows over, in portions, without a file.
func (w *world) carry(from, to *store.Store, number int64, public []byte) (store.Receipt, error) {
	l, err := from.Leave(wContext, crewID)
	if err != nil {
		return store.Receipt{}, err
	}
	access, err := l.Access(wContext)
	if err != nil {
		return store.Receipt{}, err
	}
	erased, err := l.Erased()
	if err != nil {
		return store.Receipt{}, err
	}
	sum := [32]byte{byte(number)}
	if err := from.NotePackage(crewID, sum); err != nil {
		return store.Receipt{}, err
	}
	in, err := to.Receive(wContext, store.Package{Crew: crewID, Name: l.Name, Number: number, Public: public, Sum: sum, Max: l.Max, Head: l.Head, Access: access, Erased: erased})
	if err != nil {
		return store.Receipt{}, err
	}
	var all []store.MovedEvent
	if err := l.Events(wContext, func(e store.MovedEvent) error { all = append(all, e); return nil }); err != nil {
		return store.Receipt{}, err
	}
	for part := range slices.Chunk(all, 1+w.rand.IntN(40)) {
		if err := in.Events(wContext, part); err != nil {
			return store.Receipt{}, fmt.Errorf("a crew of %d arrives: %w", l.Max, err)
		}
	}
	return in.Hold(wContext)
}
