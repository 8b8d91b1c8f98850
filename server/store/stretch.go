package store

import (
	"context"
	"database/sql"
	"fmt"
	"iter"
	"math/bits"
	"strings"
)

// The ids of a crew's arrivals, as the writer looks for them. They stand in the
// index by stretches (see migrations/0006_stretches.sql): new ones go into the
// stretch that grows, which is small, and whether an id is in one before it is
// asked of that one's filter first. A filter never says no of an id that is there,
// so an id is stored once in a crew, as if one index held them all.

// stretchSize is how many ids stand in one stretch. A commit touches at most the
// pages of one, some 200.
const stretchSize = 1 << 14

// idPrefix is the prefix of a stretch. A dot is in no id, so that stretches
// do not mingle.
func idPrefix(number int) string { return fmt.Sprintf(".%06x", number) }

const prefixLength = 7

// entryID returns the id of an event that is stored under a name in the index.
func entryID(stored string) string {
	if strings.HasPrefix(stored, ".") && len(stored) > prefixLength {
		return stored[prefixLength:]
	}
	return stored
}

// storedAs is the condition that a row of event holds the id that the second
// parameter says, of the crew that the first one says.
const storedAs = `crew = ?1 AND id IN (SELECT prefix || ?2 FROM stretch WHERE crew = ?1)`

// stretches are those of one crew. Only the writer uses them.
type stretches struct {
	crew    int64
	size    int
	shelves []shelved
	blind   []string // prefixes of those that have no filter and must be asked themselves
	number  int      // of the one that grows
	prefix  string
	count   int
	filter  filter
}

// shelved are stretches that grow no more.
type shelved struct {
	shelf
	prefixes []string
}

// seal takes up a stretch that grows no more.
func (x *stretches) seal(prefix string, f filter) {
	if f == nil {
		x.blind = append(x.blind, prefix)
		return
	}
	last := len(x.shelves) - 1
	if last < 0 || !x.shelves[last].takes(f) {
		x.shelves = append(x.shelves, shelved{shelf: shelf{bits: make([]uint16, 8*len(f))}})
		last++
	}
	x.shelves[last].put(f)
	x.shelves[last].prefixes = append(x.shelves[last].prefixes, prefix)
}

// mayHold yields the prefixes of the stretches that grow no more and may hold an id.
func (x *stretches) mayHold(h [2]uint64) iter.Seq[string] {
	return func(yield func(string) bool) {
		for _, prefix := range x.blind {
			if !yield(prefix) {
				return
			}
		}
		for i := range x.shelves {
			s := &x.shelves[i]
			for set := s.may(h); set != 0; set &= set - 1 {
				if !yield(s.prefixes[bits.TrailingZeros16(set)]) {
					return
				}
			}
		}
	}
}

// loadStretches reads those of a crew and begins the first if there is none.
func loadStretches(ctx context.Context, tx *sql.Tx, crew int64, size int) (*stretches, error) {
	x := &stretches{crew: crew, size: size}
	rows, err := tx.QueryContext(ctx, `SELECT number, prefix, filter FROM stretch WHERE crew = ? ORDER BY number`, crew)
	if err != nil {
		return nil, fmt.Errorf("read the stretches: %w", err)
	}
	defer rows.Close()
	for rows.Next() {
		var (
			number int
			prefix string
			filter []byte
		)
		if err := rows.Scan(&number, &prefix, &filter); err != nil {
			return nil, fmt.Errorf("read the stretches: %w", err)
		}
		if filter == nil && number > 0 {
			x.number, x.prefix = number, prefix
			continue
		}
		x.seal(prefix, readFilter(filter))
	}
	if err := rows.Err(); err != nil {
		return nil, fmt.Errorf("read the stretches: %w", err)
	}
	if x.number == 0 { // none yet, or only what was stored before there were any
		return x, x.begin(ctx, tx, 1)
	}
	x.filter = newFilter(size)
	x.count, err = x.filter.fill(ctx, tx, crew, x.prefix)
	return x, err
}

// fill adds the ids of a stretch and returns how many they are.
func (f filter) fill(ctx context.Context, tx *sql.Tx, crew int64, prefix string) (count int, err error) {
	rows, err := tx.QueryContext(ctx, `SELECT id FROM event WHERE crew = ? AND id > ? AND id < ?`, crew, prefix, prefix+"~")
	if err != nil {
		return 0, fmt.Errorf("read the ids of stretch %s: %w", prefix, err)
	}
	defer rows.Close()
	for rows.Next() {
		var id string
		if err := rows.Scan(&id); err != nil {
			return 0, fmt.Errorf("read the ids of stretch %s: %w", prefix, err)
		}
		f.add(hashOf(entryID(id)))
		count++
	}
	return count, rows.Err()
}

// begin begins a stretch.
func (x *stretches) begin(ctx context.Context, tx *sql.Tx, number int) error {
	x.number, x.prefix, x.count, x.filter = number, idPrefix(number), 0, newFilter(x.size)
	if _, err := tx.ExecContext(ctx, `INSERT INTO stretch (crew, number, prefix) VALUES (?, ?, ?)`, x.crew, number, x.prefix); err != nil {
		return fmt.Errorf("begin stretch %d: %w", number, err)
	}
	return nil
}

// added notes that an id was stored in the stretch that grows, and begins the next
// if that is full.
func (x *stretches) added(ctx context.Context, tx *sql.Tx, hash [2]uint64) error {
	x.filter.add(hash)
	if x.count++; x.count < x.size {
		return nil
	}
	if _, err := tx.ExecContext(ctx, `UPDATE stretch SET filter = ? WHERE crew = ? AND number = ?`, x.filter.bytes(), x.crew, x.number); err != nil {
		return fmt.Errorf("end stretch %d: %w", x.number, err)
	}
	x.seal(x.prefix, x.filter)
	return x.begin(ctx, tx, x.number+1)
}

// maxStretched is how many crews' stretches the writer remembers.
const maxStretched = 16

// stretchesOf returns those of a crew, as they stand in the writer's transaction.
func (s *Store) stretchesOf(ctx context.Context, tx *sql.Tx, crew int64) (*stretches, error) {
	if x, ok := s.stretched[crew]; ok {
		return x, nil
	}
	x, err := loadStretches(ctx, tx, crew, s.stretchSize)
	if err != nil {
		return nil, err
	}
	for other := range s.stretched { // the order of a map is random
		if len(s.stretched) < maxStretched {
			break
		}
		delete(s.stretched, other)
	}
	s.stretched[crew] = x
	return x, nil
}
