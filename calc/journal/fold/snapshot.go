package fold

import (
	"fmt"
	"strconv"
	"strings"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// snapshot is the fold as a phone stores it, so that it need not read ten thousand
// events at each start: a list of lines, cut into segments. Lines stand in the order
// in which facts came. The fold does not depend on that order, so what arrives late
// makes no segment wrong: a snapshot grows at its top alone.
//
// Each segment names the one below by its hash. Two tabs may each have written
// segments, and theirs must not be mixed.
type snapshot struct {
	full      []string // full segments that were not handed out yet
	top       int      // number of the segment that is being filled
	below     string   // hash of the segment below it
	lines     []string // of the segment that is being filled
	unwritten int      // lines that came since segments were handed out
	emptied   int      // number of the last segment that must become empty
}

func newSnapshot() snapshot { return snapshot{below: "-"} }

// add appends a line.
func (s *snapshot) add(line string) {
	s.lines = append(s.lines, line)
	s.unwritten++
	if len(s.lines) == segmentLines {
		data := s.data()
		s.full = append(s.full, data)
		s.top++
		s.below = segmentHash(data)
		s.lines = nil
	}
}

// data returns the segment that is being filled.
func (s *snapshot) data() string {
	return "kerfside " + strconv.Itoa(FoldVersion) + "\t" + strconv.Itoa(s.top) + "\t" + s.below + "\n" + strings.Join(s.lines, "\n")
}

// ChangedSegments returns the segments that changed since it was last called, if
// there are enough new lines or all is true. They hold all changes up to l.
func (f *Fold) ChangedSegments(l int64, all bool) []Segment { return f.snapshot.changed(l, all) }

func (s *snapshot) changed(l int64, all bool) []Segment {
	if s.unwritten == 0 || s.unwritten < writeAfter && !all {
		return nil
	}
	var list []Segment
	for i, data := range s.full {
		list = append(list, Segment{Name: segmentName(s.top - len(s.full) + i), Fold: FoldVersion, L: l, Data: data})
	}
	list = append(list, Segment{Name: segmentName(s.top), Fold: FoldVersion, L: l, Data: seal(s.data())})
	for i := s.top + 1; i <= s.emptied; i++ {
		list = append(list, Segment{Name: segmentName(i), Fold: FoldVersion, L: l})
	}
	s.full, s.unwritten, s.emptied = nil, 0, 0
	return list
}

// rewrite begins the snapshot anew with these facts alone, so that no segment holds
// the body of an event that was erased. Segments that are left over become empty.
func (s *snapshot) rewrite(facts map[string]*fact) {
	was := max(s.top, s.emptied)
	*s = newSnapshot()
	for _, id := range order.Keys(facts) {
		s.add(facts[id].encode())
	}
	s.emptied, s.unwritten = was, s.unwritten+writeAfter // it is written at once
}

// Restore returns the fold that segments hold and the local change number up to which
// it holds all changes. An error means that the segments do not make one snapshot;
// then the fold is empty and the number 0.
func Restore(segments []Segment) (*Fold, int64, error) {
	f := NewFold()
	byName := map[string]Segment{}
	for _, r := range segments {
		if r.Data != "" {
			byName[r.Name] = r
		}
	}
	var l int64
	for i := range len(byName) {
		r, ok := byName[segmentName(i)]
		if !ok || r.Fold != FoldVersion {
			return NewFold(), 0, fmt.Errorf("segment %d is missing or of another version", i)
		}
		data, last := r.Data, i == len(byName)-1
		var err error
		if last {
			data, err = unseal(data)
		}
		if err == nil {
			err = f.readSegment(data, last)
		}
		if err != nil {
			return NewFold(), 0, fmt.Errorf("segment %d: %w", i, err)
		}
		l = max(l, r.L)
	}
	f.snapshot.full, f.snapshot.unwritten = nil, 0
	return f, l, nil
}

// readSegment takes one segment in.
func (f *Fold) readSegment(data string, last bool) error {
	list := strings.Split(data, "\n")
	if want := f.snapshot.data(); list[0] != want[:len(want)-1] {
		return fmt.Errorf("it does not stand on the one below")
	}
	if full := len(list) == segmentLines+1; full == last {
		return fmt.Errorf("it has %d lines", len(list)-1)
	}
	lines := list[1:]
	if len(lines) == 1 && lines[0] == "" {
		lines = nil // an empty segment on top of a full one
	}
	for _, text := range lines {
		if err := f.readLine(text); err != nil {
			return err
		}
	}
	f.snapshot.adopt(data, lines, last)
	return nil
}

// adopt takes over a segment that was read, which is full unless it is the last.
func (s *snapshot) adopt(data string, lines []string, last bool) {
	if last {
		s.lines = lines
		return
	}
	s.top++
	s.below = segmentHash(data)
}

// readLine takes one line of a segment in: "+" a fact, "=" what the server said of one.
func (f *Fold) readLine(text string) error {
	var p [factFields]string
	n := splitFields(text, &p)
	x := f.facts[p[1]]
	switch {
	case p[0] == "+" && x == nil && n == factFields:
		x, err := decodeFact(&p)
		if err == nil {
			f.insert(x)
		}
		return err
	case p[0] == "=" && x != nil && n == 4:
		var err error
		if x.o, err = event.ParseStamp(p[2]); err != nil {
			return err
		}
		x.n, err = strconv.ParseInt(p[3], 10, 64)
		f.index = nil
		return err
	}
	return fmt.Errorf("%.60q stands in no segment", text)
}
