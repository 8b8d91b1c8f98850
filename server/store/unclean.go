package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"kerfside/server/disk"
)

// markOpen puts a file beside the store at path that says it is open, and
// reports whether one was there already: then the last stop was not clean. A
// store in memory has none.
func markOpen(path string) (unclean bool, err error) {
	if InMemory(path) {
		return false, nil
	}
	f, err := os.OpenFile(path+".open", os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return true, nil
	}
	if err != nil {
		return false, fmt.Errorf("mark the store as open: %w", err)
	}
	// Without this a power cut could take the mark with it.
	return false, errors.Join(f.Close(), disk.SyncFolder(filepath.Dir(path)))
}

// unmark takes the mark away, unless the file still waits for its check, is
// damaged, or its disk has failed.
func (s *Store) unmark() error {
	s.mu.RLock()
	keep := s.unclean || s.harm != nil || s.fatal != nil
	s.mu.RUnlock()
	if keep || InMemory(s.path) {
		return nil
	}
	if err := os.Remove(s.path + ".open"); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// Unclean reports whether the store was not closed cleanly before it was opened
// and no check has passed since.
func (s *Store) Unclean() bool {
	s.mu.RLock()
	defer s.mu.RUnlock()
	return s.unclean
}
