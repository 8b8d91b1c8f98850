package site

import (
	"fmt"

	"kerfside/calc/form"
	"kerfside/calc/margin"
	"kerfside/calc/unit"
)

// figure is one quantity in a sentence.
type figure struct {
	q          *unit.Quantity
	v          float64
	metric, us string // units; "" for what suits the size
	round      round
	sort       unit.Sort
	typed      *form.Typed
}

// round is how a figure is rounded.
type round int

const (
	near  round = iota // to two figures
	up                 // to two figures upwards: a need
	down               // to two figures downwards: what is there at most
	exact              // what a person has read, or volts
	plate              // down to the next plate or sheet that a welder knows
)

// as is f rounded in that way.
func (f figure) as(r round) figure { f.round = r; return f }

// fig is a figure as far as plates and sums know it, to two figures.
func fig[M unit.Measure](m M, metric, us string) figure {
	return figure{q: m.Quantity(), v: float64(m), metric: metric, us: us}
}

// read is a figure of that sort that a person has read, or volts.
func read[M unit.Measure](in Input, m M, metric, us string, sort unit.Sort) figure {
	f := fig(m, metric, us).as(exact)
	f.sort, f.typed = sort, in.Typed
	return f
}

// text prints f.
func (f figure) text(s unit.System) string {
	if f.round == plate {
		return known(unit.Length(f.v), s)
	}
	name := f.metric
	if s == unit.US {
		name = f.us
	}
	if name == "" {
		name = f.q.UnitFor(f.v, s)
	}
	switch {
	case f.round == up:
		return f.q.Up(f.v, name, unit.InDoubt)
	case f.round == down:
		return f.q.Down(f.v, name, unit.InDoubt)
	case f.round == near:
		return f.q.Say(f.v, name, unit.InDoubt)
	}
	return f.typed.Say(f.q, f.v, name, unit.Doubt{Sort: f.sort})
}

// words are the sentences of one check: how each begins by its verdict, and the
// figures that all of them end in, %[1]s there and %[2]s needed. What a check
// cannot come to has no beginning.
type words struct{ ok, tight, fails, doubt, figures string }

// sentences hold one sentence for each check and verdict, by the check's key or,
// where the same check gives out in another way, by that.
var sentences = []struct {
	key string
	words
}{
	{"hose", words{ok: "Hose wide enough", tight: "Hose only just wide enough", fails: "Hose too thin for its length", doubt: "Hose may be too thin for its length",
		figures: "it passes %s of free air at the pressure needed, the torch takes %s."}},
	{"hose pressure", words{fails: "Pressure too low before the hose", doubt: "Pressure may be too low before the hose", figures: "%s there, the machine needs %s behind it."}},
	{"compressor", words{ok: "Compressor large enough", tight: "Compressor only just large enough", fails: "Compressor too small", doubt: "Compressor may be too small",
		figures: "it keeps up %s of free air here, the torch takes %s on average."}},
	{"tank", words{ok: "Tank large enough", tight: "Tank only just large enough", fails: "Tank too small", doubt: "Tank may be too small", figures: "full, it lasts %s, the longest cut takes %s with its after-flow."}},
	{"tank holds", words{ok: "Tank large enough", figures: "the compressor keeps its pressure up as long as you cut."}},
	{"tank pressure", words{fails: "Pressure in the tank too low", doubt: "Pressure in the tank may be too low", figures: "it fills to %s, the torch needs %s in it."}},
	{"cord", words{ok: "Cord thick enough", tight: "Cord only just thick enough", fails: "Cord too thin for its length", doubt: "Cord may be too thin for its length", figures: "it carries %s here, the machine draws %s."}},
	{"cord hopeless", words{fails: "The cord can't carry it", doubt: "The cord may not carry it", figures: "its copper eats the volts; it carries %s here, the machine draws %s."}},
	{"volts", words{ok: "Volts enough at the machine", tight: "Volts only just enough at the machine", fails: "Too few volts at the machine", doubt: "Volts may be too few at the machine", figures: "%s arrive, it needs %s or more."}},
	{"volts socket", words{ok: "Volts enough at the socket", fails: "Too few volts at the socket", figures: "%s there, the machine needs %s or more."}},
	{"breaker", words{ok: "Breaker large enough", tight: "Breaker only just large enough", fails: "Breaker too small", doubt: "Breaker may be too small", figures: "it holds %s, cut and pause together heat it like %s."}},
	{"generator", words{ok: "Generator large enough", tight: "Generator only just large enough", fails: "Generator too small", doubt: "Generator may be too small", figures: "it gives %s here with its headroom left, this takes %s."}},
	{"generator start", words{ok: "Generator starts the compressor while you cut", tight: "Generator only just starts the compressor while you cut", fails: "Generator stalls when the compressor starts while you cut",
		doubt: "Generator may stall when the compressor starts while you cut", figures: "it gives %s here, that takes %s."}},
	{"generator first", words{ok: "Generator starts the compressor before the cut", tight: "Generator only just starts the compressor before the cut", fails: "Generator stalls when the compressor starts, even before the cut",
		doubt: "Generator may stall when the compressor starts, even before the cut", figures: "it gives %s here, that takes %s."}},
	{"duty", words{ok: "Duty cycle long enough", tight: "Duty cycle only just long enough", fails: "More cutting than the duty cycle allows", doubt: "Perhaps more cutting than the duty cycle allows", figures: "the machine may cut %s in ten here, you mean to cut %s."}},
	{"duty plate", words{fails: "More current than the plate states", figures: "its duty cycle ends at %s, this takes %s."}},
	{"thickness", words{ok: "Cuts clean", tight: "Cuts clean", figures: "surely up to %s, and this is %s."}},
	{"thickness rough", words{tight: "Severs rough", figures: "clean is sure up to %s only, and this is %s."}},
	{"thickness none", words{doubt: "Will not cut, as far as Kerfside knows", figures: "severing is sure up to %s only, and this is %s. A trial strip settles it."}},
	{"tip", words{ok: "Tip good", tight: "Tip near its end", fails: "Tip worn out", doubt: "Tip may be worn out", figures: "it is changed at a bore of %s and reads %s."}},
	{"electrode", words{ok: "Electrode good", tight: "Electrode near its end", fails: "Electrode worn out", doubt: "Electrode may be worn out", figures: "it is changed at a pit of %s and reads %s."}},
}

// Say tells in one sentence what there is and what is needed.
func (c Check) Say(s unit.System) string {
	way := c.way
	if way == "" {
		way = c.Key
	}
	for _, line := range sentences {
		if line.key != way {
			continue
		}
		begin := line.begin(c.Verdict())
		if c.there.q == nil {
			return begin + ": " + line.figures + c.note
		}
		there, needed := c.there.text(s), c.needed.text(s)
		if there == needed && c.needed.v > c.there.v {
			needed = "a little over " + needed
		}
		return begin + ": " + fmt.Sprintf(line.figures, there, needed) + c.note
	}
	panic("site: no sentence for " + way)
}

func (w words) begin(v margin.Verdict) string {
	switch v {
	case margin.OK:
		return w.ok
	case margin.Tight:
		return w.tight
	case margin.Doubt:
		return w.doubt
	}
	return w.fails
}
