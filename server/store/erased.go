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
	"maps"
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
	file  fs.FileInfo // as it was read
	size  int64       // of its whole lines
	crews map[string]*erasures
}

// erasures are those of one crew. One that is handed out never changes.
type erasures struct {
	list  []exchange.Erasure
	bySum map[event.Sum]exchange.Erasure // by the sum of what was there, and of its stub
	names []string                       // a hash of the list after each of them, so that phones can tell how far they followed it

	forgotten map[string]int64 // device → when
	moved     int64            // number of the last move that led away from here
}

// name is the hash of the whole list, "" of none.
func (x *erasures) name() string {
	if len(x.names) == 0 {
		return ""
	}
	return x.names[len(x.names)-1]
}

// after returns where the list goes on behind that name: at its start for one that
// it never had.
func (x *erasures) after(name string) int {
	if name == x.name() {
		return len(x.list)
	}
	return slices.Index(x.names, name) + 1
}

// copy returns one that may be added to.
func (x *erasures) copy() *erasures {
	c := &erasures{bySum: map[event.Sum]exchange.Erasure{}, forgotten: map[string]int64{}}
	if x != nil {
		c.list, c.names = slices.Clip(x.list), slices.Clip(x.names)
		maps.Copy(c.bySum, x.bySum)
		maps.Copy(c.forgotten, x.forgotten)
		c.moved = x.moved
	}
	return c
}

// erasedLine is one line of the file.
type erasedLine struct {
	Crew string `json:"crew"`
	exchange.Erasure
	At  int64  `json:"at"` // ms since 1970 UTC
	Why string `json:"why,omitempty"`

	Device string `json:"device,omitempty"` // one that was forgotten; then the line is a forgottenLine
	Moved  int64  `json:"moved,omitempty"`  // the crew was handed over with that move; then the line is a movedLine
}

// forgottenLine is the line of a device that was forgotten: a backup from before
// does not bring back that it was in the crew.
type forgottenLine struct {
	Crew   string `json:"crew"`
	Device string `json:"device"`
	At     int64  `json:"at"`
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
	crews, from := map[string]*erasures{}, int64(0)
	if l.size > 0 && info.Size() > l.size && os.SameFile(info, l.file) { // it has only grown, and may be long
		crews, from = maps.Clone(l.crews), l.size
	}
	text, err := readFrom(l.path, from)
	if err != nil {
		return false, fmt.Errorf("read the list of erasures: %w", err)
	}
	if err := readErasures(crews, text); err != nil {
		return false, fmt.Errorf("%s: %w", l.path, err)
	}
	l.crews, l.file, l.size = crews, info, from+int64(bytes.LastIndexByte(text, '\n')+1)
	return true, nil
}

// readFrom reads a file from a place on.
func readFrom(path string, from int64) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if _, err := f.Seek(from, io.SeekStart); err != nil {
		return nil, err
	}
	return io.ReadAll(f)
}

// again lets the next refresh read the list once more.
func (l *erasedList) again() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.size = -1
}

// readErasures adds the lines of a list to what is known of crews, none of which it
// changes: it puts a longer one in the place. A last line without an end was cut by
// a crash and had no effect yet.
func readErasures(crews map[string]*erasures, text []byte) error {
	mine := map[string]bool{}
	lines := bytes.SplitAfter(text, []byte("\n"))
	for i, line := range lines {
		var x erasedLine
		if !bytes.HasSuffix(line, []byte("\n")) || len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		if err := json.Unmarshal(line, &x); err != nil {
			return fmt.Errorf("line %d: %w", i+1, err)
		}
		if !mine[x.Crew] {
			mine[x.Crew], crews[x.Crew] = true, crews[x.Crew].copy()
		}
		crews[x.Crew].take(x)
	}
	return nil
}

// take adds a line, unless it is there already.
func (x *erasures) take(line erasedLine) {
	if line.Device != "" {
		x.forgotten[line.Device] = max(line.At, x.forgotten[line.Device])
		return
	}
	if line.Moved != 0 {
		x.moved = max(x.moved, line.Moved)
		return
	}
	if _, ok := x.bySum[line.Sum]; ok {
		return
	}
	name := sha256.Sum256(append([]byte(x.name()), line.Sum[:]...))
	x.list, x.names = append(x.list, line.Erasure), append(x.names, hex.EncodeToString(name[:16]))
	x.bySum[line.Sum], x.bySum[event.SumOf(line.Stub)] = line.Erasure, line.Erasure
}

// add appends lines and flushes them to the disk.
func (l *erasedList) add(list ...any) (err error) {
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
func (x *erasures) pictures() []string { return picturesOf(x.list) }

func picturesOf(list []exchange.Erasure) []string {
	var sums []string
	for _, e := range list {
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
	if err := readErasures(map[string]*erasures{}, ours); err != nil {
		return fmt.Errorf("%s: %w", from, err)
	}
	return disk.WriteWhole(to, ours)
}
