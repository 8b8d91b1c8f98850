package fold

import (
	"encoding/hex"
	"fmt"
	"strconv"
	"strings"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// A phone keeps the fold as rungs of a ladder, so that it does not have to read
// ten thousand events at each start. A rung is a list of facts in the order in
// which they came; 1000 lines make a rung, which then never changes again. Since
// the fold does not depend on the order, no rung is ever wrong because of what
// arrives late: the ladder only grows at its upper end.
const (
	rungLines = 1000 // lines of a full rung
	rungEvery = 100  // lines after which the top rung is written anew
)

// Rung is one record of the store snapshot.
type Rung struct {
	Name string `json:"name"` // its number in six digits
	Fold int    `json:"fold"` // FoldVersion
	L    int64  `json:"l"`    // local change number up to which it holds all changes
	Data string `json:"data"`
}

// rungLog collects lines into rungs. The first line of a rung names the rung
// below by a hash: two tabs may each have written rungs, and must not be mixed.
type rungLog struct {
	full  []string // finished rungs that were not handed out yet
	top   int      // number of the rung that is being filled
	below string   // hash of the rung below it
	lines []string
	fresh int // lines since rungs were handed out
	blank int // rungs from the top on that hold what is no longer true
}

func newRungLog() rungLog { return rungLog{below: "-"} }

// add appends a line.
func (g *rungLog) add(line string) {
	g.lines = append(g.lines, line)
	g.fresh++
	if len(g.lines) == rungLines {
		data := g.data()
		g.full = append(g.full, data)
		g.top++
		g.below = rungHash(data)
		g.lines = nil
	}
}

// data returns the rung that is being filled.
func (g *rungLog) data() string {
	return "kerfside " + strconv.Itoa(FoldVersion) + "\t" + strconv.Itoa(g.top) + "\t" + g.below + "\n" + strings.Join(g.lines, "\n")
}

func rungHash(data string) string {
	sum := event.SumOf([]byte(data))
	return hex.EncodeToString(sum[:16])
}

// take hands out the rungs that changed since the last time, if there are
// enough new lines or all is true. They hold all changes up to l.
func (g *rungLog) take(l int64, all bool) []Rung {
	if g.fresh == 0 || g.fresh < rungEvery && !all {
		return nil
	}
	var list []Rung
	for i, data := range g.full {
		list = append(list, Rung{rungName(g.top - len(g.full) + i), FoldVersion, l, data})
	}
	list = append(list, Rung{rungName(g.top), FoldVersion, l, sealed(g.data())})
	for i := g.top + 1; i <= g.blank; i++ {
		list = append(list, Rung{rungName(i), FoldVersion, l, ""})
	}
	g.full, g.fresh, g.blank = nil, 0, 0
	return list
}

// TakeSegments is take of the fold's own log.
func (f *Fold) TakeSegments(l int64, all bool) []Rung { return f.log.take(l, all) }

// renew begins the ladder anew, so that no rung holds the body of an event that
// was erased. Rungs that are left over become empty.
func (g *rungLog) renew(facts map[string]*fact) {
	was := max(g.top, g.blank)
	*g = newRungLog()
	for _, id := range order.Keys(facts) {
		g.add(facts[id].line())
	}
	g.blank, g.fresh = was, g.fresh+rungEvery // it is written at once
}

func rungName(i int) string { return fmt.Sprintf("%06d", i) }

// The rung above names a full rung by its hash; the top rung has none above it
// and ends in a line with its own.
const seal = "\n#\t"

func sealed(data string) string { return data + seal + rungHash(data) }

// unsealed returns the data of a top rung if it is as it was written.
func unsealed(text string) (string, error) {
	data, _, _ := strings.Cut(text, seal)
	if sealed(data) != text {
		return "", fmt.Errorf("it is damaged")
	}
	return data, nil
}

// RestoreFold returns the fold that was kept in rungs and the change number up
// to which it holds all changes. An error means that the rungs do not make one
// ladder; then the fold begins with nothing.
func RestoreFold(rungs []Rung) (*Fold, int64, error) {
	f := NewFold()
	byName := map[string]Rung{}
	for _, r := range rungs {
		if r.Data != "" {
			byName[r.Name] = r
		}
	}
	var l int64
	for i := range len(byName) {
		r, ok := byName[rungName(i)]
		if !ok || r.Fold != FoldVersion {
			return NewFold(), 0, fmt.Errorf("rung %d is missing or of another version", i)
		}
		data, last := r.Data, i == len(byName)-1
		var err error
		if last {
			data, err = unsealed(data)
		}
		if err == nil {
			err = f.climb(data, last)
		}
		if err != nil {
			return NewFold(), 0, fmt.Errorf("rung %d: %w", i, err)
		}
		l = max(l, r.L)
	}
	f.log.full, f.log.fresh = nil, 0
	return f, l, nil
}

// climb takes one rung in.
func (f *Fold) climb(data string, last bool) error {
	list := strings.Split(data, "\n")
	g := &f.log
	if want := g.data(); list[0] != want[:len(want)-1] {
		return fmt.Errorf("it does not stand on the one below")
	}
	if full := len(list) == rungLines+1; full == last {
		return fmt.Errorf("it has %d lines", len(list)-1)
	}
	lines := list[1:]
	if len(lines) == 1 && lines[0] == "" {
		lines = nil // an empty rung on top of a full one
	}
	for _, text := range lines {
		if err := f.read(text); err != nil {
			return err
		}
	}
	g.stand(data, lines, last)
	return nil
}

// stand takes over a rung that was read, which is full unless it is the last.
func (g *rungLog) stand(data string, lines []string, last bool) {
	if last {
		g.lines = lines
		return
	}
	g.top++
	g.below = rungHash(data)
}

// read takes one line of a rung in: "+" a fact, "=" what the server said of one.
func (f *Fold) read(text string) error {
	var p [factFields]string
	n := split(text, &p)
	x := f.facts[p[1]]
	switch {
	case p[0] == "+" && x == nil && n == factFields:
		x, err := readFact(&p)
		if err == nil {
			f.take(x)
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
	return fmt.Errorf("%.60q stands in no rung", text)
}
