// Package store keeps the journal of a crew in one SQLite file. It numbers
// arrivals and hands them out again by number; what an event means it does not
// know. The rules of numbering, clamping and chaining are in package
// calc/journal/exchange; here they meet a disk.
//
// One goroutine writes, in transactions that take in whatever waits (group
// commit); readers have connections of their own that cannot write. Append
// returns only after a commit with synchronous=FULL.
package store

import (
	"cmp"
	"context"
	"crypto/rand"
	"database/sql"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"sync"
	"sync/atomic"
)

// Options of Open. The zero value is what the server uses.
type Options struct {
	Crew    string      // id for the crew of an empty store; random if ""
	Erased  string      // file of the list of erasures; beside the store if ""
	Random  io.Reader   // where a random id comes from; crypto/rand if nil
	OnFatal func(error) // called once when the disk failed a commit; the program should exit and start afresh

	Backups   string // folder of its backups, if it is not the one beside it
	BeginAnew bool   // make an empty store even where parts of another lie

	Stretch int // arrivals whose ids stand together in the index; stretchSize if 0, and any number will do

	OnDamage func(error) // called once when the file is found damaged; reads go on, writes are refused
}

// Store is an open journal store. Its methods may be called from any goroutine.
type Store struct {
	*Access

	path    string
	crew    string
	write   *sql.DB
	read    *sql.DB
	lock    io.Closer
	jobs    chan *job
	place   place
	size    atomic.Int64 // of the database's file when it was last looked at
	closing chan struct{}
	done    chan struct{} // closed when the writer has ended
	once    sync.Once
	options Options

	mu     sync.RWMutex
	crews  map[string]*State
	recent map[string]*recent // the newest arrivals of crews
	bad    map[rowKey]string  // ids of rows whose bytes no longer fit their sum
	fatal  error
	harm   error // what is wrong with the file

	unclean bool // see Unclean

	stretched   map[int64]*stretches // by key of the crew; the writer's alone
	stretchSize int

	bells bells

	probing sync.Mutex // TryWrite has one file
}

// rowKey names a row of the table event.
type rowKey struct{ crew, n int64 }

// Open opens or creates the store at path, which may also be an SQLite URI such
// as "file:/name?vfs=memdb". It refuses a second opener of the same file and an
// SQLite that is known to lose commits.
func Open(path string, o Options) (*Store, error) {
	if o.Random == nil {
		o.Random = rand.Reader
	}
	if err := checkVersion(); err != nil {
		return nil, err
	}
	path, err := RealPath(path)
	if err != nil {
		return nil, err
	}
	lock, err := Lock(path)
	if err != nil {
		return nil, Unfit(path, err)
	}
	err = errors.Join(OneName(path), checkRemains(path, o.Backups, o.BeginAnew))
	if err == nil {
		err = makePrivate(path)
	}
	if err != nil {
		return nil, errors.Join(Unfit(path, err), lock.Close())
	}
	s := &Store{path: path, lock: lock, options: o, crews: map[string]*State{}, recent: map[string]*recent{}, bad: map[rowKey]string{}, bells: bells{of: map[string]chan struct{}{}},
		stretched: map[int64]*stretches{}, stretchSize: cmp.Or(o.Stretch, stretchSize),
		jobs: make(chan *job), closing: make(chan struct{}), done: make(chan struct{})}
	if s.unclean, err = markOpen(path); err != nil {
		return nil, errors.Join(Unfit(path, err), lock.Close())
	}
	s.write = connect(path, writing)
	s.read = connect(path, reading)
	s.Access = newAccess(path, s.write, s.read, o.Random)
	s.Access.explain, s.Access.writable, s.Access.present = s.explain, s.writable, s.Present
	s.Access.ring = s.bells.ring
	if o.Erased != "" {
		s.gone.path = o.Erased
	}
	if err := s.start(); err != nil {
		return nil, errors.Join(Unfit(path, err), s.write.Close(), s.read.Close(), lock.Close())
	}
	go s.run()
	return s, nil
}

// start brings the schema up to date and finds or makes the crew.
func (s *Store) start() error {
	ctx := context.Background()
	if err := bringUp(ctx, s.write, s.path); err != nil {
		return err
	}
	var err error
	if s.place, err = placeOf(s.path); err != nil {
		return err
	}
	if err := s.retire(ctx); err != nil {
		return err
	}
	found, err := s.loadCrews(ctx)
	if err != nil {
		return err
	}
	if found > 0 {
		return s.NoteErasures(ctx) // a restored backup is cleansed before it is served
	}
	id := s.options.Crew
	if id == "" {
		random := make([]byte, 16)
		if _, err := io.ReadFull(s.options.Random, random); err != nil {
			return fmt.Errorf("make an id for the crew: %w", err)
		}
		id = base64.RawURLEncoding.EncodeToString(random)
	}
	if _, err := s.write.ExecContext(ctx, `INSERT INTO crew (id) VALUES (?)`, id); err != nil {
		return fmt.Errorf("add crew %s: %w", id, err)
	}
	if _, err := s.loadCrews(ctx); err != nil {
		return err
	}
	return s.NoteErasures(ctx)
}

// Crew returns the id of the store's first crew, of those that are served here if any is.
func (s *Store) Crew() string { return s.crew }

// writable returns why nothing more is written, nil while all is well.
func (s *Store) writable() error {
	s.mu.RLock()
	defer s.mu.RUnlock()
	switch {
	case s.fatal != nil:
		return failed(s.fatal)
	case s.harm != nil:
		return unsound(s.harm)
	}
	return nil
}

// Close waits for what is being written and closes the files. Closing twice is
// harmless.
func (s *Store) Close() error {
	var err error
	s.once.Do(func() {
		close(s.closing)
		<-s.done
		if s.Present() != nil {
			err = errors.Join(s.closeReplaced(), s.lock.Close())
			return
		}
		err = errors.Join(s.Flush(), s.read.Close(), s.write.Close())
		if err == nil {
			err = s.unmark()
		}
		err = errors.Join(err, s.lock.Close())
	})
	return err
}
