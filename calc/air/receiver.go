package air

import (
	"kerfside/calc/unit"
)

// Receiver is a compressor's tank. Its air is taken to stay at one temperature,
// which makes both fill and run time a few per cent long when they are short.
type Receiver struct {
	Volume unit.Volume
	At     unit.Temperature
}

// Mass returns the mass of air that a change of pressure stands for.
//
//	Δm = V·Δp/(R·T)
func (v Receiver) Mass(change unit.Pressure) unit.Mass {
	return unit.Mass(float64(v.Volume) * float64(Density(change, v.At)))
}

// Time returns how long a net mass flow takes to change the pressure by that
// much; net > 0.
//
//	t = V·Δp/(R·T·ṁ), which is V·(p1 − p2)/(pa·q) with the free air q at pa and T
//
// Source: receiver sizing in compressed-air handbooks.
func (v Receiver) Time(change unit.Pressure, net unit.MassFlow) unit.Duration {
	return unit.Duration(float64(v.Mass(change)) / float64(net))
}

// Compressor is what fills the receiver.
type Compressor struct {
	Delivery unit.MassFlow // while it runs, on this site
	Duty     unit.Ratio    // share of the time that it may run
	CutIn    unit.Pressure // gauge, at which it starts
	CutOut   unit.Pressure // gauge, at which it stops
}

// RunTime returns how long the receiver serves a draw from cut-out down to
// least (gauge), and false when it never gets there. The compressor rests
// until the pressure falls to cut-in, unless it is running from the start.
func (c Compressor) RunTime(v Receiver, draw unit.MassFlow, least unit.Pressure, running bool) (unit.Duration, bool) {
	rests := c.CutOut - max(c.CutIn, least)
	if running {
		rests = 0
	}
	var t unit.Duration
	if rests > 0 {
		t = v.Time(rests, draw)
	}
	left := c.CutOut - rests - least
	if left <= 0 {
		return t, true
	}
	if draw <= c.Delivery {
		return 0, false
	}
	return t + v.Time(left, draw-c.Delivery), true
}

// Rhythm is a cut and a wait that a compressor can keep up for ever.
type Rhythm struct {
	Open unit.Duration // valve open
	Wait unit.Duration // valve shut
}

// Arc turns the valve's rhythm into the hand's: how long the arc burns, and the
// wait from arc out to the next arc, the after-flow counted in. It is nothing
// when the after-flow takes all of the open valve.
func (r Rhythm) Arc(afterFlow unit.Duration) (burn, wait unit.Duration) {
	if r.Open <= afterFlow {
		return 0, 0
	}
	return r.Open - afterFlow, r.Wait + afterFlow
}

// Rhythm returns the longest draw that a full receiver serves and the wait
// until it is full again, lengthened if the compressor's duty asks for it.
// forever is true when it can serve the draw without any wait.
//
//	refill = V·(cut-out − least)/(R·T·delivery)     wait ≥ draw·open/(delivery·duty) − open
func (c Compressor) Rhythm(v Receiver, draw unit.MassFlow, least unit.Pressure) (r Rhythm, forever bool) {
	sustained := c.Delivery * unit.MassFlow(c.Duty)
	if draw <= sustained {
		return Rhythm{}, true
	}
	open, ends := c.RunTime(v, draw, least, false)
	if !ends {
		open = longestRun // the duty is the only limit: one spell of its usual cycle
	}
	refill := unit.Duration(0)
	if ends {
		refill = v.Time(c.CutOut-least, c.Delivery)
	}
	byDuty := unit.Duration(float64(draw)/float64(sustained)-1) * open
	return Rhythm{Open: open, Wait: max(refill, byDuty)}, false
}

// longestRun is the spell over which a compressor's duty is reckoned when
// nothing else ends the draw (common practice: ten minutes, as for a welder).
const longestRun = 10 * unit.Minute
