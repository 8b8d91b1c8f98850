package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"kerfside/calc/journal/event"
)

// movedLine is the line of a crew that was handed over to another server: a backup from
// before does not make this one serve it again.
type movedLine struct {
	Crew  string `json:"crew"`
	Moved int64  `json:"moved"` // number of the move
	At    int64  `json:"at"`
}

// linesOf returns the lines of a crew that go with it, each with its end, as the file
// has them.
func (l *erasedList) linesOf(crew string) ([]byte, error) {
	text, err := os.ReadFile(l.path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("read the list of erasures: %w", err)
	}
	var lines []byte
	for line := range bytes.Lines(text) {
		if !bytes.HasSuffix(line, []byte("\n")) || len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		var x erasedLine
		if err := json.Unmarshal(line, &x); err != nil {
			return nil, fmt.Errorf("%s: %w", l.path, err)
		}
		if x.Crew == crew && x.Moved == 0 {
			lines = append(lines, line...)
		}
	}
	return lines, nil
}

// addLines adds those lines that are not there yet. Phones know how far they followed
// the list by its order, which stays.
func (l *erasedList) addLines(lines []byte) error {
	ours, err := os.ReadFile(l.path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("read the list of erasures: %w", err)
	}
	known := map[string]bool{}
	for line := range bytes.Lines(ours) {
		known[string(line)] = true
	}
	var fresh []any
	for line := range bytes.Lines(lines) {
		if !known[string(line)] {
			fresh = append(fresh, json.RawMessage(bytes.TrimSpace(line)))
		}
	}
	if len(fresh) == 0 {
		return nil
	}
	return l.add(fresh...)
}

// MovedErasures are the erasures of one crew as they came with it.
type MovedErasures struct{ x *erasures }

// ReadMovedErasures reads lines of a list of erasures that all have to be of one crew.
func ReadMovedErasures(crew string, lines []byte) (MovedErasures, error) {
	crews := map[string]*erasures{}
	if err := readErasures(crews, lines); err != nil {
		return MovedErasures{}, err
	}
	x := crews[crew]
	if x == nil {
		x = (*erasures)(nil).copy()
		crews[crew] = x
	}
	if len(crews) > 1 || len(lines) > 0 && !bytes.HasSuffix(lines, []byte("\n")) {
		return MovedErasures{}, errors.New("the list of erasures is not that of the crew alone")
	}
	return MovedErasures{x}, nil
}

// Fits reports whether the bytes of an arrival are those of its sum, or the stub that
// stands in their place.
func (m MovedErasures) Fits(e MovedEvent) bool { return m.x.fits(e.Sum, e.Raw) }

// fits reports whether raw has that sum, or is the stub of what had it.
func (x *erasures) fits(sum, raw []byte) bool {
	if len(sum) != len(event.Sum{}) {
		return false
	}
	if e, ok := x.bySum[event.Sum(sum)]; ok {
		return bytes.Equal(raw, e.Stub)
	}
	return event.SumOf(raw) == event.Sum(sum)
}
