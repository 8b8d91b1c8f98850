package job

import "kerfside/calc/unit"

// cycle is the time that a duty cycle is counted in.
const cycle = 10 * unit.Minute

// coolness is how cool a body with a duty cycle is: 1 when cool, 0 when it must rest.
type coolness struct {
	left unit.Ratio
	back float64 // gained each second of rest
}

// newCoolness is that of a cool body whose heaviest use may last least of the time.
func newCoolness(least unit.Ratio) coolness {
	c := coolness{left: 1}
	if least < 1 {
		c.back = 1 / float64(cycle*unit.Duration(1-least))
	}
	return c
}

// taken is what a second of work at that duty takes of a coolness.
func taken(duty unit.Ratio) float64 {
	if duty >= 1 {
		return 0
	}
	return 1 / float64(cycle*unit.Duration(duty))
}

// work and rest move the coolness on.
func (c *coolness) work(t unit.Duration, rate float64) {
	c.left = later(0, c.left-unit.Ratio(rate*float64(t)))
}

func (c *coolness) rest(t unit.Duration) {
	c.left = sooner(1, c.left+unit.Ratio(c.back*float64(t)))
}

// lasts is how long work at that rate may go on, forever if it takes nothing.
func (c *coolness) lasts(rate float64) unit.Duration {
	if rate == 0 {
		return forever
	}
	return unit.Duration(float64(c.left) / rate)
}

// until is the rest that it takes to work so long at that rate, as far as a cool body
// serves that.
func (c *coolness) until(t unit.Duration, rate float64) unit.Duration {
	lacks := sooner(1, unit.Ratio(rate*float64(t))) - c.left
	if lacks <= 0 {
		return 0
	}
	return unit.Duration(float64(lacks) / c.back)
}

// sooner and later are the lesser and the greater of two numbers, where neither may be
// NaN: min and max look for that, and in WebAssembly by a call.
func sooner[M ~float64](a, b M) M {
	if b < a {
		return b
	}
	return a
}

func later[M ~float64](a, b M) M {
	if b > a {
		return b
	}
	return a
}

// forever is longer than any job.
const forever = 1e12 * unit.Second
