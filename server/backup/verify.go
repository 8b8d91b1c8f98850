package backup

import (
	"context"
	"fmt"

	"kerfside/calc/journal/event"
	"kerfside/server/store"
)

// verified is what a copy holds.
type verified struct {
	events  int64
	damaged []string         // ids of rows whose bytes do not fit their sum
	whole   map[string]int64 // crew → n up to which no row is damaged
}

// verify checks the copy of a store: SQLite's own check, then of each crew that
// its arrivals are numbered without gap, that their chain ends where the crew
// says, and that bytes fit their sums, but for events on the list erased. Bytes
// that do not fit were so before the copy and are told; everything else is an
// error.
func verify(ctx context.Context, path, erased string) (verified, error) {
	v := verified{whole: map[string]int64{}}
	c, err := store.OpenCopy(path, erased)
	if err != nil {
		return v, err
	}
	defer c.Close()
	if err := c.Sound(ctx); err != nil {
		return v, err
	}
	crews, err := c.Crews(ctx)
	if err != nil {
		return v, err
	}
	for _, crew := range crews {
		if err := v.crew(ctx, c, crew); err != nil {
			return v, fmt.Errorf("crew %s: %w", crew.ID, err)
		}
	}
	return v, nil
}

// crew checks one crew.
func (v *verified) crew(ctx context.Context, c *store.Copy, crew store.CopiedCrew) error {
	var n int64
	var chain event.Chain
	whole := true
	err := c.Rows(ctx, crew, func(r store.Row, fits bool) error {
		n++
		if !fits {
			v.damaged = append(v.damaged, r.ID)
			whole = false
		}
		chain = chain.Next(r.ID, r.O, r.Sum)
		if r.N != n || chain != r.Chain {
			return fmt.Errorf("its history breaks at arrival %d", n)
		}
		if whole {
			v.whole[crew.ID] = n
		}
		return nil
	})
	if err != nil {
		return err
	}
	if n != crew.Max || string(crew.Head) != string(chain[:]) {
		return fmt.Errorf("%d entries are there of %d", n, crew.Max)
	}
	v.events += n
	return nil
}
