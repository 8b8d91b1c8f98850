package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"kerfside/calc/problem"
)

// ErrReplaced is behind the failure of a store whose files were removed or
// replaced while it was open: what it writes then is in no file that a restart
// finds.
var ErrReplaced = errors.New("the database was removed or replaced while the server ran")

// place is the files that a store has open, to be compared with what lies where
// they lay. A link there counts as another file: a log belongs to a name.
type place map[string]os.FileInfo

// files of SQLite that go together, by the ends of their names.
var ends = []string{"", "-wal", "-shm"}

func placeOf(path string) (place, error) {
	p := place{}
	if InMemory(path) {
		return p, nil
	}
	for _, end := range ends {
		info, err := os.Lstat(path + end)
		if err != nil {
			return nil, fmt.Errorf("look at the database just opened: %w", err)
		}
		p[path+end] = info
	}
	return p, nil
}

// still returns an error if one of the files is not in its place any more.
func (p place) still() error {
	for name, was := range p {
		is, err := os.Lstat(name)
		if err != nil {
			return fmt.Errorf("%w: %w", ErrReplaced, err)
		}
		if !os.SameFile(was, is) {
			return fmt.Errorf("%w: %s is another file now", ErrReplaced, name)
		}
	}
	return nil
}

// Present returns an error if the store's files were removed or replaced, and
// then ends the store: OnFatal is called and nothing more is acknowledged. It
// takes some microseconds.
func (s *Store) Present() error {
	err := s.place.still()
	if err == nil {
		err = s.whole()
	}
	if err != nil {
		s.fail(err)
		return failed(err)
	}
	return nil
}

// whole returns an error if the database has become smaller. SQLite only ever makes
// it longer here, so somebody writes over it.
func (s *Store) whole() error {
	was := s.size.Load()
	if InMemory(s.path) {
		return nil
	}
	info, err := os.Lstat(s.path)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrReplaced, err)
	}
	if info.Size() < was {
		return fmt.Errorf("%w: it has %d bytes and had %d", ErrReplaced, info.Size(), was)
	}
	s.size.CompareAndSwap(was, info.Size())
	return nil
}

// closeReplaced ends a store whose files are not in their place any more. What it
// holds goes into a file of its own, and into its database, wherever that was
// moved to. Its connections are left to the end of the program: SQLite would
// remove by name a log that may be another database's.
func (s *Store) closeReplaced() error {
	ctx := context.Background()
	held, err := s.hold(ctx)
	if err == nil {
		err = problem.Newf(problem.Refused, "db", "%v", ErrReplaced).
			WithHint("What the server still held is in %s. To go on with it: kerfside restore -db %s %s", held, s.path, held)
	}
	if _, failed := s.write.ExecContext(ctx, `PRAGMA wal_checkpoint(TRUNCATE)`); failed != nil {
		return errors.Join(err, failed)
	}
	for _, end := range ends[1:] { // its own log, now empty, would spoil another database
		if is, gone := os.Stat(s.path + end); gone == nil && os.SameFile(is, s.place[s.path+end]) {
			err = errors.Join(err, os.Remove(s.path+end))
		}
	}
	return err
}

// heldEnd ends the name of a copy of what a replaced store held.
const heldEnd = ".held"

// hold writes all that the store holds into a new file beside its place.
func (s *Store) hold(ctx context.Context) (string, error) {
	name := s.path + heldEnd
	for i := 2; exists(name); i++ {
		name = fmt.Sprintf("%s%s-%d", s.path, heldEnd, i)
	}
	f, err := os.OpenFile(name, os.O_CREATE|os.O_RDWR|os.O_EXCL, 0o600)
	if err != nil {
		return "", fmt.Errorf("keep what the server held: %w", err)
	}
	defer f.Close()
	if _, err := s.write.ExecContext(ctx, `VACUUM INTO ?`, name); err != nil {
		return "", errors.Join(fmt.Errorf("keep what the server held: %w", err), os.Remove(name))
	}
	return name, f.Sync()
}

// Held lists the files in which servers on the store at path left what they held
// when it was removed or replaced.
func Held(path string) []string {
	files, _ := filepath.Glob(escapeGlob(path) + heldEnd + "*") // the pattern is sound
	return files
}

func exists(name string) bool {
	_, err := os.Lstat(name)
	return err == nil
}

// checkRemains refuses to begin an empty store where parts of another lie: its
// database is lost or misplaced, and phones that met an empty one would be told
// that they belong to another crew. backups is where its copies lie.
func checkRemains(path, backups string, beginAnew bool) error {
	if info, err := os.Stat(path); InMemory(path) || err == nil && info.Size() > 0 {
		return nil
	}
	left, newest := remains(path, backups)
	if len(left) == 0 {
		return nil
	}
	if beginAnew {
		return putLogAside(path)
	}
	p := problem.Newf(problem.Refused, "db", "there is no database %s, but this is left of one: %s", path, strings.Join(left, ", "))
	const anew = " To begin an empty journal all the same: kerfside serve -begin-anew"
	if newest != "" {
		return p.WithHint("Bring it back: kerfside restore -db %s %s. Phones bring what came after it."+anew, path, newest)
	}
	return p.WithHint("Put the database back where it was, or restore a backup: kerfside restore -db %s FILE."+anew, path)
}

// remains lists what lies of a store without its database, and the copy of it to
// restore, "" if there is none.
func remains(path, backups string) (left []string, newest string) {
	for _, end := range []string{"-wal", ".erased"} {
		if info, err := os.Stat(path + end); err == nil && info.Size() > 0 {
			left = append(left, path+end)
		}
	}
	if pictures, err := os.ReadDir(path + ".photos"); err == nil && len(pictures) > 0 {
		left = append(left, path+".photos")
	}
	for _, dir := range []string{path + ".backups", backups} {
		if files, err := CopyFiles(path, dir); err == nil && len(files) > 0 && dir != "" && newest == "" {
			newest = files[len(files)-1]
			left = append(left, newest)
		}
	}
	if files := Former(path); len(files) > 0 {
		left = append(left, files...)
		if newest == "" {
			newest = files[len(files)-1]
		}
	}
	for _, pattern := range []string{".before-*Z", heldEnd + "*"} {
		if aside, err := filepath.Glob(escapeGlob(path) + pattern); err == nil && len(aside) > 0 {
			newest = aside[len(aside)-1]
			left = append(left, newest)
		}
	}
	return left, newest
}

// leftEnd ends the name of a log that has lost its database.
const leftEnd = ".log-left"

// putLogAside keeps a log that has lost its database; beside another it would
// spoil that.
func putLogAside(path string) error {
	if !exists(path + "-wal") {
		return nil
	}
	name := path + leftEnd
	for i := 2; exists(name); i++ {
		name = fmt.Sprintf("%s%s-%d", path, leftEnd, i)
	}
	return errors.Join(os.Rename(path+"-wal", name), RemoveLog(path))
}
