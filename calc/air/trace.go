package air

import "kerfside/calc/unit"

// TracePoint is the gauge pressure in the tank at a time.
type TracePoint struct {
	At       unit.Duration
	Pressure unit.Pressure
}

// Trace follows the pressure in a receiver through so many rounds of valve open
// and shut, from cut-out with the compressor at rest. Between the points the
// pressure moves on a straight line: the compressor starts at cut-in, stops at
// cut-out, and the valve opens and shuts. The pressure stops at 0.
func (c Compressor) Trace(v Receiver, draw unit.MassFlow, r Rhythm, rounds int) []TracePoint {
	now := TracePoint{0, c.CutOut}
	points := []TracePoint{now}
	running := false
	for range rounds {
		for _, phase := range []struct {
			long unit.Duration
			draw unit.MassFlow
		}{{r.Open, draw}, {r.Wait, 0}} {
			for left := phase.long; left > 1e-9; {
				step := c.next(v, &now, &running, phase.draw, left)
				left -= step
				points = append(points, now)
			}
		}
	}
	return points
}

// next moves on to what happens first: the end of the phase, or the compressor
// starting or stopping. It returns how long that took.
func (c Compressor) next(v Receiver, now *TracePoint, running *bool, draw unit.MassFlow, left unit.Duration) unit.Duration {
	if now.Pressure <= c.CutIn && c.Delivery > 0 {
		*running = true
	}
	net := -draw
	if *running {
		net += c.Delivery
	}
	target, step := now.Pressure, left
	switch {
	case net > 0:
		target = c.CutOut
	case net < 0 && !*running && c.Delivery > 0 && now.Pressure > c.CutIn:
		target = c.CutIn
	case net < 0:
		target = 0
	}
	if target != now.Pressure {
		step = min(left, v.Time(target-now.Pressure, net))
	}
	now.At += step
	if step < left {
		now.Pressure = target
		*running = *running && target != c.CutOut
		if target == 0 {
			rest := left - step
			now.At += rest
			return step + rest // empty until the valve shuts
		}
		return max(step, 1e-6)
	}
	now.Pressure += unit.Pressure(float64(net) * float64(step) / float64(v.Mass(1)))
	return step
}
