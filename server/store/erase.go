package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
)

// Erasing tells what an erasure did.
type Erasing struct {
	Entries int    // the entry, unless that was erased before, and what amended or removed it
	Picture string // file of its picture, inside a folder of pictures; "" if it has none or another entry names it too
}

// Erase takes the bytes of an entry out of the journal for good, with those of
// its amendments and its picture, unless another entry names that; by is the owner's device, "" for the command
// line, and why a note for the list. It works beside a running server: the list
// comes first, and whoever reads it takes out what is still there.
func (a *Access) Erase(ctx context.Context, crew, id, by, why string, now int64) (done Erasing, err error) {
	if a.gone.path == "" {
		return done, problem.New(problem.Refused, "db", "a store in memory keeps no list of erasures", "Give the file of a database.")
	}
	raws, err := a.withAmendments(ctx, crew, id)
	if err != nil {
		return done, err
	}
	var lines []any
	var sum string
	for _, raw := range raws {
		list, err := exchange.Erase(raw)
		if problem.KindOf(err) == problem.Conflict && len(raws) > 1 {
			continue // the entry is erased; what amended it came later
		}
		if err != nil {
			return done, err
		}
		done.Entries++
		for _, e := range list {
			lines = append(lines, erasedLine{Crew: crew, Erasure: e, At: now, Why: why})
			if e.Photo != "" {
				sum = e.Photo
			}
		}
	}
	if err := a.takeOut(ctx, crew, lines); err != nil {
		return done, err
	}
	named, err := a.named(ctx, crew, sum)
	if err != nil {
		return done, err
	}
	if sum != "" && !named[sum] {
		done.Picture = PictureFile(crew, sum)
	}
	return done, a.Audit(crew, AuditLine{At: now, What: Erased, Who: by, About: id})
}

// withAmendments returns the bytes of an entry and of what amends it.
func (a *Access) withAmendments(ctx context.Context, crew, id string) ([][]byte, error) {
	rows, err := a.read.QueryContext(ctx, `SELECT e.id, raw FROM event e JOIN crew c ON e.crew = c.key
		WHERE c.id = ? AND (substr(e.id, -22) = ? OR instr(raw, CAST(? AS BLOB)) > 0) ORDER BY n`, crew, id, id)
	if err != nil {
		return nil, fmt.Errorf("find entry %s: %w", id, err)
	}
	defer rows.Close()
	var list [][]byte
	found := false
	for rows.Next() {
		var row string
		var raw []byte
		if err := rows.Scan(&row, &raw); err != nil {
			return nil, fmt.Errorf("find entry %s: %w", id, err)
		}
		if entryID(row) == id {
			found = true
			list = append(list, raw)
			continue
		}
		var e struct {
			Kind string `json:"kind"`
			Body struct {
				Of string `json:"of"`
			} `json:"body"`
		}
		if json.Unmarshal(raw, &e) == nil && (e.Kind == "amend" || e.Kind == "void") && e.Body.Of == id {
			list = append(list, raw)
		}
	}
	if !found {
		return nil, problem.Newf(problem.NotFound, "id", "the server holds no entry %q of that crew", id).
			WithHint("An export of the journal shows the id of each entry.")
	}
	return list, rows.Err()
}

// takeOut adds lines to the list of erasures and takes out what they name, and what
// was left of earlier ones.
func (a *Access) takeOut(ctx context.Context, crew string, lines []any) error {
	if len(lines) == 0 {
		return a.cleanse(ctx, crew)
	}
	// In a transaction, so that a crew that is being packed has it in its package or is
	// not touched.
	err := a.changeCrew(crew, func(context.Context, *sql.Tx, int64) error {
		if err := a.gone.add(lines...); err != nil {
			return problem.Newf(problem.DiskFull, "", "the list of erasures could not be written to %s", a.gone.path).
				WithHint("Nothing was erased.").WithCause(err)
		}
		return nil
	})
	if err != nil {
		return err
	}
	if _, err := a.gone.refresh(); err != nil {
		return err
	}
	err = a.cleanse(ctx, crew)
	if trouble(err) != broken { // the list has it, so that the next start takes it out
		return a.explain(err)
	}
	return err
}

// cleanse puts the stubs of a crew in the place of bytes that are still there,
// removes erased pictures that no entry names any more, and what is left of
// devices that were forgotten.
func (a *Access) cleanse(ctx context.Context, crew string) error {
	gone := a.gone.of(crew)
	if len(gone.list)+len(gone.forgotten) == 0 {
		return nil
	}
	fresh := gone.list[gone.after(a.cleansedTo(crew)):]
	if _, err := a.write.ExecContext(ctx, `PRAGMA secure_delete = ON`); err != nil { // no bytes in free pages
		return fmt.Errorf("prepare to erase: %w", err)
	}
	err := a.withCrew(crew, func(ctx context.Context, tx *sql.Tx, key int64, _ CrewState) error {
		for _, e := range fresh {
			if _, err := tx.ExecContext(ctx, `UPDATE event SET raw = ?3 WHERE `+storedAs+` AND sum = ?4 AND raw <> ?3`,
				key, e.ID, []byte(e.Stub), e.Sum[:]); err != nil {
				return fmt.Errorf("erase entry %s: %w", e.ID, err)
			}
		}
		return removeForgotten(ctx, tx, key, gone.forgotten)
	})
	if err != nil {
		return err
	}
	if err := a.removePictures(ctx, crew, picturesOf(fresh)); err != nil {
		return err
	}
	// The log still holds what was; it is emptied at the latest when the store closes.
	if _, err = a.write.ExecContext(ctx, `PRAGMA wal_checkpoint(TRUNCATE)`); err != nil {
		return err
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	a.cleansed[crew] = gone.name()
	return nil
}

// cleansedTo names the list of a crew's erasures as far as this program has taken
// them out.
func (a *Access) cleansedTo(crew string) string {
	a.mu.Lock()
	defer a.mu.Unlock()
	return a.cleansed[crew]
}

// removePictures removes pictures that no entry names any more.
func (a *Access) removePictures(ctx context.Context, crew string, sums []string) error {
	named, err := a.named(ctx, crew, sums...)
	if err != nil {
		return err
	}
	for _, sum := range sums {
		if a.pictures == "" || named[sum] {
			continue
		}
		if err := os.Remove(filepath.Join(a.pictures, PictureFile(crew, sum))); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("erase a picture: %w", err)
		}
	}
	return nil
}

// named returns which of these pictures an entry of the crew tells of.
func (a *Access) named(ctx context.Context, crew string, sums ...string) (map[string]bool, error) {
	named := map[string]bool{}
	if len(sums) == 0 || sums[0] == "" {
		return named, nil
	}
	rows, err := a.read.QueryContext(ctx, `SELECT raw FROM event e JOIN crew c ON e.crew = c.key
		WHERE c.id = ? AND instr(raw, CAST('photo.added' AS BLOB)) > 0`, crew)
	if err != nil {
		return nil, fmt.Errorf("look for the entries of pictures: %w", err)
	}
	defer rows.Close()
	for rows.Next() {
		var raw []byte
		if err := rows.Scan(&raw); err != nil {
			return nil, fmt.Errorf("look for the entries of pictures: %w", err)
		}
		e, err := event.Decode(raw)
		if err != nil {
			continue // damaged bytes tell of no picture
		}
		if sum := exchange.PictureOf(e); slices.Contains(sums, sum) {
			named[sum] = true
		}
	}
	return named, rows.Err()
}

// NoteErasures takes up what was erased since, whoever did it. Where the disk or
// a damaged file does not let the bytes be taken out, stubs are handed out all
// the same, and the next look tries again.
func (s *Store) NoteErasures(ctx context.Context) error {
	grown, err := s.gone.refresh()
	if err != nil || !grown {
		return err
	}
	if err := s.cleanseAll(ctx); err != nil {
		s.gone.again()
	}
	return nil
}

// cleanseAll applies the list to each crew of the store.
func (s *Store) cleanseAll(ctx context.Context) error {
	for crew := range s.gone.all() {
		if _, ok := s.State(crew); !ok {
			continue
		}
		if err := s.cleanse(ctx, crew); err != nil {
			return err
		}
	}
	return nil
}

// all returns the erasures by crew.
func (l *erasedList) all() map[string]*erasures {
	l.mu.RLock()
	defer l.mu.RUnlock()
	return l.crews
}

// ErasuresDigest names the list of a crew's erasures, "" if there are none.
func (s *Store) ErasuresDigest(crew string) string { return s.gone.of(crew).name() }

// IsErasedPicture reports whether a picture was erased and no entry that is left
// names it. An entry that names it may come later, from a phone without a signal.
func (s *Store) IsErasedPicture(ctx context.Context, crew, sum string) (bool, error) {
	if !slices.Contains(s.gone.of(crew).pictures(), sum) {
		return false, nil
	}
	named, err := s.named(ctx, crew, sum)
	return !named[sum], err
}

// ErasedUpTo returns the erased arrivals of crew up to n that a phone has not heard
// of which followed the list as far as the name digest, from at most so many lines
// of the list, and the name of the list as far as they go.
func (s *Store) ErasedUpTo(ctx context.Context, crew string, n int64, digest string, most int) ([]exchange.Arrival, string, error) {
	c, _ := s.State(crew)
	gone := s.gone.of(crew)
	from := gone.after(digest)
	to := min(from+most, len(gone.list))
	if from == to {
		return nil, gone.name(), nil
	}
	var list []exchange.Arrival
	for _, e := range gone.list[from:to] {
		var o string
		r := Row{Arrival: exchange.Arrival{ID: e.ID, Sum: e.Sum, Raw: e.Stub, Erased: true, Photo: e.Photo}}
		err := s.read.QueryRowContext(ctx, `SELECT n, o FROM event WHERE `+storedAs+` AND sum = ?3 AND n <= ?4`,
			c.key, e.ID, e.Sum[:], n).Scan(&r.N, &o)
		if errors.Is(err, sql.ErrNoRows) {
			continue
		}
		if err == nil {
			r.O, err = event.ParseStamp(o)
		}
		if err != nil {
			return nil, "", fmt.Errorf("read the erased entry %s: %w", e.ID, err)
		}
		list = append(list, r.Arrival)
	}
	return list, gone.names[to-1], nil
}
