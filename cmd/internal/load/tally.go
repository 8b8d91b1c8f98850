package load

import (
	"encoding/binary"
	"fmt"

	"kerfside/calc/journal/event"
)

// Tally counts a set of events in a way that does not depend on their order:
// equal tallies are equal sets, but for a chance of one in 2⁶⁴.
type Tally struct {
	Count int64
	Sum   uint64 // of the first eight bytes of each event's SHA-256
}

// Add counts one event.
func (t *Tally) Add(raw []byte) { t.add(event.SumOf(raw)) }

func (t *Tally) add(sum event.Sum) {
	t.Count++
	t.Sum += binary.BigEndian.Uint64(sum[:8])
}

// Join counts what another tally counted.
func (t *Tally) Join(other Tally) {
	t.Count += other.Count
	t.Sum += other.Sum
}

// Check says what is wrong if what a server holds is not what it acknowledged.
func (t Tally) Check(held Tally) error {
	switch {
	case held.Count != t.Count:
		return fmt.Errorf("%d events were acknowledged and %d are there", t.Count, held.Count)
	case held.Sum != t.Sum:
		return fmt.Errorf("the %d events that are there are not those that were acknowledged", held.Count)
	}
	return nil
}
