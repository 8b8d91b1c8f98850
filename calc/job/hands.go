package job

import "kerfside/calc/unit"

// Order is when pieces are marked out.
type Order string

const (
	MarkEach   Order = "each"   // each before it is cut
	MarkWaits  Order = "waits"  // the next ones while the hand waits for air or cooling, else as each
	MarkFirst  Order = "first"  // all before the first cut
	MarkHelper Order = "helper" // by another hand, from the start of the job
)

// Times are how long the hand takes.
type Times struct {
	Gate, Inspect unit.Duration // once, before the first cut
	Mark          unit.Duration // a piece
	Row           unit.Duration // to the first piece of another row
	Move          unit.Duration // to the next piece of a row
	Reset         unit.Duration // between two runs of a piece
	Change        unit.Duration // of parts, torch made dead and back
	Drain         unit.Duration // of the trap, once
	Watch         unit.Duration // after the last arc
}

// row is a row of the cut list as it is played.
type row struct {
	pieces, runs int           // runs of a piece
	run          unit.Duration // of arc
	heat         float64       // taken of the machine's coolness each second of arc
	draw         unit.MassFlow // while the valve is open
	least        unit.Pressure // in the tank, gauge
}

// part is one of tip and electrode as it is played: lives are those of the one fitted
// and of those that follow, in equivalent minutes.
type part struct {
	known    bool // or nothing is reckoned of it
	used     float64
	perStart float64             // what a start counts as
	life     func(n int) float64 // of the n-th, from 0
}

// with is what will be used of it after one more run.
func (p *part) with(run unit.Duration) float64 {
	return p.used + (float64(run/unit.Minute) + p.perStart)
}

// play is one way in which a job may go.
type play struct {
	rows    []row
	times   Times
	air     Air
	after   unit.Duration
	least   unit.Ratio // the least duty cycle of all rows; 1 if none is known
	marking Order
	every   unit.Duration // of arc between two drains; 0 for none
	trap    unit.Duration // of arc since the last one
	parts   [2]part       // tip, electrode
	heard   func(Span)    // told of each while; nil for nobody
}

// Outcome is how a play went.
type Outcome struct {
	Totals        [kinds]unit.Duration
	Work          unit.Duration // from the beginning to the last arc off
	Elapsed       unit.Duration // and the fire watch after it
	Arc, Wait     []unit.Duration
	Spent         []unit.Duration // from the end of the row before to the last arc off of this
	Longest       []unit.Duration // of arc in one go
	Starts        []int
	Split         []int // further starts, since the air or the duty cycle did not serve a run
	Changes       [2]int
	Pumped, Drawn unit.Mass
	Held          unit.Mass // in the tank at the end, above no gauge pressure
	Ran           unit.Duration
	Stuck         bool // the tank serves no arc at all, or breaks it off for ever; the rest is of no use then
}

// empty makes it the outcome of a job of n rows that has not begun. It keeps its arrays
// if they are as long: a job is played many times.
func (o *Outcome) empty(n int) {
	if len(o.Starts) != n {
		times, counts := make([]unit.Duration, 4*n), make([]int, 2*n)
		*o = Outcome{Arc: times[:n], Wait: times[n : 2*n], Spent: times[2*n : 3*n], Longest: times[3*n:], Starts: counts[:n], Split: counts[n:]}
		return
	}
	for _, each := range [...][]unit.Duration{o.Arc, o.Wait, o.Spent, o.Longest} {
		clear(each)
	}
	clear(o.Starts)
	clear(o.Split)
	*o = Outcome{Arc: o.Arc, Wait: o.Wait, Spent: o.Spent, Longest: o.Longest, Starts: o.Starts, Split: o.Split}
}

// hands play a job.
type hands struct {
	play
	*Outcome
	t       unit.Duration
	valve   unit.Duration // that the after-flow still lasts
	tank    tank
	machine coolness
	row     int
	longest unit.Duration // of arc in one go, in this row
	goes    int           // further ones of runs that were broken off
	marked  int           // pieces marked in whole
	begun   unit.Duration // of marking the next
	lives   [2]float64    // of the parts in the torch
}

// do plays a job.
func (p play) do() Outcome {
	var o Outcome
	p.doInto(&o)
	return o
}

// doInto plays a job into an outcome, of which nothing stays.
func (p *play) doInto(o *Outcome) {
	o.empty(len(p.rows))
	h := hands{play: *p, Outcome: o, tank: newTank(p.air), machine: newCoolness(p.least), row: -1}
	for i := range h.parts {
		if part := &h.parts[i]; part.known {
			h.lives[i] = part.life(0)
		}
	}
	h.spend(Gate, p.times.Gate)
	h.spend(Inspect, p.times.Inspect)
	if p.marking == MarkFirst {
		for _, r := range p.rows {
			h.spend(Marking, p.times.Mark*unit.Duration(r.pieces))
		}
	}
	piece, ended := 0, unit.Duration(0)
	for i := range h.rows {
		r := &h.rows[i]
		h.row = i
		h.tank.serve(r.draw, r.least)
		h.longest = min(h.tank.most-h.after, unit.Duration(1/max(r.heat, 1e-12)))
		for k := range r.pieces {
			if h.Stuck {
				return
			}
			h.mark(piece)
			switch {
			case k > 0:
				h.spend(Moving, p.times.Move)
			case i > 0:
				h.spend(Moving, p.times.Row)
			}
			for j := range r.runs {
				if j > 0 {
					h.spend(Moving, p.times.Reset)
				}
				h.burn(r)
			}
			piece++
		}
		h.Spent[i], ended = h.t-ended, h.t
	}
	h.Work = h.t
	h.spend(Watch, p.times.Watch)
	h.Elapsed, h.Pumped, h.Drawn, h.Held, h.Ran = h.t, h.tank.pumped, h.tank.drawn, h.tank.held, h.tank.ran
}

// spend lets the hands do something for so long, the arc off.
func (h *hands) spend(k Kind, t unit.Duration) {
	if t <= 0 {
		return
	}
	from := h.t
	for left := t; left > 0; {
		left -= h.advance(left, false, 0)
	}
	h.t = from + t
	h.Totals[k] += t
	h.tell(k, from)
}

func (h *hands) tell(k Kind, from unit.Duration) {
	if h.heard != nil {
		s := Span{Kind: k, Row: h.row, From: from, Lasts: h.t - from}
		if h.tank.Known {
			s.Pressure = h.tank.pressure()
		}
		h.heard(s)
	}
}

// advance lets at most t pass, up to the next event, and returns how long it was.
func (h *hands) advance(t unit.Duration, arc bool, heat float64) unit.Duration {
	open := arc || h.valve > 0
	if !arc && open {
		t = sooner(t, h.valve)
	}
	if h.tank.Known {
		t = h.tank.pass(t, open)
	}
	if arc {
		h.machine.work(t, heat)
		h.valve = h.after
	} else {
		h.machine.rest(t)
		h.valve = later(0, h.valve-t)
	}
	h.t += t
	return t
}

// mark sees to it that a piece is marked out before it is cut.
func (h *hands) mark(piece int) {
	switch h.marking {
	case MarkFirst:
	case MarkHelper:
		h.spend(Marking, h.times.Mark*unit.Duration(piece+1)-h.t)
	default:
		if h.marked <= piece {
			h.spend(Marking, h.times.Mark-h.begun)
			h.marked, h.begun = piece+1, 0
		}
	}
}

// ahead marks further pieces in a wait.
func (h *hands) ahead(t unit.Duration) {
	if h.marking != MarkWaits || h.times.Mark <= 0 {
		return
	}
	total := 0
	for _, r := range h.rows {
		total += r.pieces
	}
	h.begun += t
	for h.begun >= h.times.Mark && h.marked < total {
		h.marked, h.begun = h.marked+1, h.begun-h.times.Mark
	}
	if h.marked >= total {
		h.begun = 0
	}
}
