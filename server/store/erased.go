package store

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/server/disk"
)

// erasedList is the list of erasures beside the database, one JSON line each. It
// outlives a restore, so that an older backup brings nothing back. Commands add
// lines while a server runs; the server looks before each sync.
type erasedList struct {
	path string // "" keeps none

	mu    sync.RWMutex
	size  int64 // of the file's whole lines when it was read
	crews map[string]*erasures
}

// erasures are those of one crew. One that is handed out never changes.
type erasures struct {
	list  []exchange.Erasure
	bySum map[event.Sum]exchange.Erasure // by the sum of what was there, and of its stub
	name  string                         // a hash of the list, so that phones can tell whether it has grown
}

// erasedLine is one line of the file.
type erasedLine struct {
	Crew string `json:"crew"`
	exchange.Erasure
	At  int64  `json:"at"` // ms since 1970 UTC
	Why string `json:"why,omitempty"`
}

func newErasedList(path string) *erasedList {
	return &erasedList{path: path, crews: map[string]*erasures{}}
}

// ListOfErasures is where the list of a store lies; a store in memory has none.
func ListOfErasures(path string) string {
	if InMemory(path) {
		return ""
	}
	return path + ".erased"
}

// of returns the erasures of a crew.
func (l *erasedList) of(crew string) *erasures {
	l.mu.RLock()
	defer l.mu.RUnlock()
	if x := l.crews[crew]; x != nil {
		return x
	}
	return &erasures{}
}

// refresh reads the list again if it has grown.
func (l *erasedList) refresh() (grown bool, err error) {
	if l.path == "" {
		return false, nil
	}
	info, err := os.Stat(l.path)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, fmt.Errorf("look for the list of erasures: %w", err)
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if info.Size() == l.size {
		return false, nil
	}
	text, err := os.ReadFile(l.path)
	if err != nil {
		return false, fmt.Errorf("read the list of erasures: %w", err)
	}
	crews, err := readErasures(text)
	if err != nil {
		return false, fmt.Errorf("%s: %w", l.path, err)
	}
	l.crews, l.size = crews, int64(bytes.LastIndexByte(text, '\n')+1)
	return true, nil
}

// again lets the next refresh read the list once more.
func (l *erasedList) again() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.size = -1
}

// readErasures reads the list. A last line without an end was cut by a crash and
// had no effect yet.
func readErasures(text []byte) (map[string]*erasures, error) {
	crews := map[string]*erasures{}
	lines := bytes.SplitAfter(text, []byte("\n"))
	for i, line := range lines {
		var x erasedLine
		if !bytes.HasSuffix(line, []byte("\n")) || len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		if err := json.Unmarshal(line, &x); err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
		c := crews[x.Crew]
		if c == nil {
			c = &erasures{bySum: map[event.Sum]exchange.Erasure{}}
			crews[x.Crew] = c
		}
		if _, ok := c.bySum[x.Sum]; ok {
			continue
		}
		c.list = append(c.list, x.Erasure)
		c.bySum[x.Sum], c.bySum[event.SumOf(x.Stub)] = x.Erasure, x.Erasure
		name := sha256.Sum256(append([]byte(c.name), x.Sum[:]...))
		c.name = hex.EncodeToString(name[:16])
	}
	return crews, nil
}

// add appends erasures and flushes them to the disk.
func (l *erasedList) add(list []erasedLine) (err error) {
	f, err := os.OpenFile(l.path, os.O_CREATE|os.O_RDWR|os.O_APPEND, 0o600)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	old, err := io.ReadAll(f)
	if err != nil {
		return err
	}
	var text []byte
	if cut := bytes.LastIndexByte(old, '\n') + 1; cut < len(old) {
		if err := f.Truncate(int64(cut)); err != nil {
			return err
		}
	}
	for _, x := range list {
		line, err := json.Marshal(x)
		if err != nil {
			return err
		}
		text = append(append(text, line...), '\n')
	}
	if _, err = f.Write(text); err != nil {
		return err
	}
	return errors.Join(f.Sync(), disk.SyncFolder(filepath.Dir(l.path)))
}

// settle lays the stub over a row whose event is erased, whatever the row holds.
func (x *erasures) settle(r *Row) bool {
	e, ok := x.bySum[r.Sum]
	if ok {
		r.Raw, r.Erased, r.Photo = e.Stub, true, e.Photo
	}
	return ok
}

// touches reports whether a row's event is erased.
func (x *erasures) touches(r Row) bool {
	_, ok := x.bySum[r.Sum]
	return ok
}

// instead returns what is stored of a pushed event: the stub if it is erased.
func (x *erasures) instead(p exchange.Push) exchange.Push {
	if e, ok := x.bySum[p.Sum]; ok {
		p.Sum, p.Event.Raw = e.Sum, e.Stub
	}
	return p
}

// pictures returns the sums of the pictures that erased events named, each once.
func (x *erasures) pictures() []string {
	var sums []string
	for _, e := range x.list {
		if e.Photo != "" {
			sums = append(sums, e.Photo)
		}
	}
	slices.Sort(sums)
	return slices.Compact(sums)
}

// MergeErasures adds to the list at to what the list at from has besides.
func MergeErasures(to, from string) error {
	theirs, err := os.ReadFile(from)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	ours, err := os.ReadFile(to)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	ours = ours[:bytes.LastIndexByte(ours, '\n')+1]
	known := map[string]bool{}
	for line := range bytes.Lines(ours) {
		known[string(line)] = true
	}
	for line := range bytes.Lines(theirs) {
		if !known[string(line)] && bytes.HasSuffix(line, []byte("\n")) {
			ours = append(ours, line...)
		}
	}
	if _, err := readErasures(ours); err != nil {
		return fmt.Errorf("%s: %w", from, err)
	}
	return disk.WriteWhole(to, ours)
}
