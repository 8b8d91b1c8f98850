package site

import (
	"fmt"
	"math"

	"kerfside/calc/margin"
	"kerfside/calc/unit"
)

// figure is one quantity in a sentence.
type figure struct {
	q          *unit.Quantity
	v          float64
	metric, us string // units; "" for what suits the size
	round      round
}

// round is how a figure is rounded.
type round int

const (
	near  round = iota // to two figures
	up                 // to two figures upwards: a need
	down               // to two figures downwards: what is there at most
	exact              // to three figures: what a person has read, or volts
	plate              // down to the next plate or sheet that a welder knows
)

// as is f rounded in that way.
func (f figure) as(r round) figure { f.round = r; return f }

// fig is a figure as far as plates and sums know it, to two figures.
func fig[M unit.Measure](m M, metric, us string) figure {
	return figure{q: m.Quantity(), v: float64(m), metric: metric, us: us}
}

// read is a figure that a person has read, or volts.
func read[M unit.Measure](m M, metric, us string) figure { return fig(m, metric, us).as(exact) }

// text prints f; whole is for two that would read the same by two figures.
func (f figure) text(s unit.System, whole bool) string {
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
	if f.round == exact || whole || f.v == 0 {
		return f.q.In(f.v, name)
	}
	if f.round == near {
		return f.q.About(f.v, name, 2)
	}
	u, _ := f.q.Find(name)
	step := u.Size * math.Pow10(int(math.Floor(math.Log10(math.Abs(f.v/u.Size))))-1)
	if f.round == up {
		return f.q.In(math.Ceil(f.v/step-1e-6)*step, name)
	}
	return f.q.In(math.Floor(f.v/step+1e-6)*step, name)
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
	{"hose", words{"Hose wide enough", "Hose only just wide enough", "Hose too thin for its length", "Hose may be too thin for its length",
		"it passes %s of free air at the pressure that the machine needs, the torch takes %s."}},
	{"hose pressure", words{"", "", "Pressure too low before the hose", "Pressure may be too low before the hose", "%s there, the machine needs %s behind it."}},
	{"compressor", words{"Compressor large enough", "Compressor only just large enough", "Compressor too small", "Compressor may be too small",
		"it keeps up %s of free air here, the torch takes %s on average."}},
	{"tank", words{"Tank large enough", "Tank only just large enough", "Tank too small", "Tank may be too small", "full, it lasts %s, the longest cut takes %s with its after-flow."}},
	{"tank holds", words{"Tank large enough", "", "", "", "the compressor keeps its pressure up as long as you cut."}},
	{"tank pressure", words{"", "", "Pressure in the tank too low", "Pressure in the tank may be too low", "it fills to %s, the torch needs %s in it."}},
	{"cord", words{"Cord thick enough", "Cord only just thick enough", "Cord too thin for its length", "Cord may be too thin for its length", "it carries %s here, the machine draws %s."}},
	{"cord hopeless", words{"", "", "The cord can't carry it", "The cord may not carry it", "its copper eats the volts; it carries %s here, the machine draws %s."}},
	{"volts", words{"Volts enough at the machine", "Volts only just enough at the machine", "Too few volts at the machine", "Volts may be too few at the machine", "%s arrive, it needs %s or more."}},
	{"volts socket", words{"Volts enough at the socket", "", "Too few volts at the socket", "", "%s there, the machine needs %s or more."}},
	{"breaker", words{"Breaker large enough", "Breaker only just large enough", "Breaker too small", "Breaker may be too small", "it holds %s, cut and pause together heat it like %s."}},
	{"generator", words{"Generator large enough", "Generator only just large enough", "Generator too small", "Generator may be too small", "it gives %s here with its headroom left, this takes %s."}},
	{"generator start", words{"Generator starts the compressor while you cut", "Generator only just starts the compressor while you cut", "Generator stalls when the compressor starts while you cut",
		"Generator may stall when the compressor starts while you cut", "it gives %s here, that takes %s."}},
	{"generator first", words{"Generator starts the compressor before the cut", "Generator only just starts the compressor before the cut", "Generator stalls when the compressor starts, even before the cut",
		"Generator may stall when the compressor starts, even before the cut", "it gives %s here, that takes %s."}},
	{"duty", words{"Duty cycle long enough", "Duty cycle only just long enough", "More cutting than the duty cycle allows", "Perhaps more cutting than the duty cycle allows", "the machine may cut %s in ten here, you mean to cut %s."}},
	{"duty plate", words{"", "", "More current than the plate states", "", "its duty cycle ends at %s, this takes %s."}},
	{"thickness", words{"Cuts clean", "Cuts clean", "", "", "surely up to %s, and this is %s."}},
	{"thickness rough", words{"", "Severs rough", "", "", "clean is sure up to %s only, and this is %s."}},
	{"thickness none", words{"", "", "", "Will not cut, as far as the sum knows", "severing is sure up to %s only, and this is %s. A trial strip settles it."}},
	{"tip", words{"Tip good", "Tip near its end", "Tip worn out", "Tip may be worn out", "it is changed at a bore of %s and reads %s."}},
	{"electrode", words{"Electrode good", "Electrode near its end", "Electrode worn out", "Electrode may be worn out", "it is changed at a pit of %s and reads %s."}},
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
		there, needed := c.there.text(s, false), c.needed.text(s, false)
		if there == needed {
			there, needed = c.there.text(s, true), c.needed.text(s, true)
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
