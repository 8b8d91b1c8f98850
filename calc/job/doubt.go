package job

import (
	"math"
	"sync"

	"kerfside/calc/chance"
	"kerfside/calc/unit"
)

// How far off what a job is planned with may be, as standard deviations of the
// logarithm. That of the speed is the plan's own (cutting.PlanResult.Off). All others are
// judgement: no published figure was found for any of them.
const (
	airOff     = 0.14 // draw over delivery: plates of small compressors are hopeful
	assumedOff = 0.45 // of a time of the hand that nobody has counted: half to twice, 9 in 10
	dayOff     = 0.15 // what the crew's own median is still off by on another day
	paceOff    = 0.1  // of the pace that a hand keeps on the whole, at whatever speed it means to
)

// handOff is how far off a time of the hand may be that rests on n of the crew's own.
func handOff(n int) float64 {
	if n == 0 {
		return assumedOff
	}
	return math.Hypot(dayOff, assumedOff/math.Sqrt(float64(n)))
}

// The dimensions that a job is drawn in.
const (
	ofSpeed = iota
	ofAir
	ofMark
	ofMove
	ofRow
	ofChange
	ofDrain
	ofBegin
	ofTip     // what is not known of tips
	ofTipLife // the life of the one fitted; of those that follow by a golden step each
	ofElectrode
	ofElectrodeLife
	ofPace
	dimensions
)

// draw is one point of the sequence, with the standard normal of each coordinate.
type draw struct {
	u, z [dimensions]float64
	pace float64 // that the hand keeps, over the one that it means to
}

// draws are those of the ranges, made once.
var draws = sync.OnceValue(func() []draw {
	list := make([]draw, samples)
	for i, point := range chance.Sobol(samples, dimensions) {
		list[i] = newDraw(point)
	}
	return list
})

func newDraw(point []float64) (d draw) {
	for i, u := range point {
		d.u[i], d.z[i] = u, chance.NormalQuantile(u)
	}
	d.pace = d.factor(ofPace, paceOff)
	return d
}

// middle is the draw of the plan itself.
func middle() (d draw) {
	for i := range d.u {
		d.u[i] = 0.5
	}
	d.pace = 1
	return d
}

// factor is a lognormal factor of that doubt.
func (d *draw) factor(of int, off float64) float64 {
	if d.z[of] == 0 {
		return 1
	}
	return math.Exp(off * d.z[of])
}

// scaled is a factor of that draw, by what was learnt or, before that, by its doubt.
func (d *draw) scaled(of int, f Factor, off float64) float64 {
	if f.Off > 0 {
		off = min(off, f.Off) // the crew's own times may know it better
	}
	return math.Exp(f.Mean) * d.factor(of, off)
}

// times are the hand's in that draw. What was learnt of the hand today holds for all that
// is done at each piece.
func (in Input) times(d *draw) Times {
	t := in.Times
	scale := func(t *unit.Duration, of, n int) {
		var f Factor
		if of == ofMark || of == ofMove || of == ofRow {
			f = in.Learnt.Hand
		}
		*t *= unit.Duration(d.scaled(of, f, handOff(n)))
	}
	scale(&t.Mark, ofMark, in.Own.Mark)
	scale(&t.Move, ofMove, in.Own.Move)
	scale(&t.Reset, ofMove, in.Own.Move)
	scale(&t.Row, ofRow, in.Own.Row)
	scale(&t.Change, ofChange, in.Own.Change)
	scale(&t.Drain, ofDrain, in.Own.Drain)
	scale(&t.Gate, ofBegin, 0)
	scale(&t.Inspect, ofBegin, 0)
	return t
}

// golden is the fraction by whose multiples the unit interval is filled evenly.
const golden = 0.6180339887498949

// play is the part fitted, with its life and those of the ones after it.
// Starts count as minutes by what that draw says a start is worth.
func (w Wearing) play(d *draw, of int) part {
	if w.Fitted == nil {
		return part{}
	}
	fresh, u, v := w.Fresh, d.u[of], d.u[of+1]
	left := w.Fitted.Draw(u, v)
	return part{known: true, perStart: left.PerStart, life: func(n int) float64 {
		if n == 0 {
			return left.Minutes
		}
		at := 0.5
		if v != 0.5 {
			_, at = math.Modf(v + golden*float64(n))
		}
		return fresh.Draw(u, at).Minutes
	}}
}
