package process

import "time"

// burst is how long a slowed program runs at a stretch. A slow processor gives
// each thing a little all the time, so it is short against anything that is
// measured; it is long against what a stop and the way back cost, which is some
// tenths of a millisecond for a process with fifteen threads.
const burst = 2 * time.Millisecond

// slowed is a program that can be stopped and let go on.
type slowed interface {
	pause()
	resume()
	// used tells how much of the processors it used since it was asked last, and how
	// much of that time stops took from it, where the system knows.
	used() (d, lost time.Duration, known bool)
}

// account holds a program to its share of the time. Timers and signals are late
// by as much as a burst is long, so what came out is measured, and what is
// missing is made up for in the next turn.
type account struct {
	times float64       // how many times slower
	owed  time.Duration // how long it has yet to stand still
}

// ran notes that the program was let run for wall, and used so much of the
// processors. What it did not use costs it nothing: a slow processor makes no
// disk slower, and a busy machine has slowed it already.
func (a *account) ran(wall, used time.Duration) {
	a.owed += time.Duration(float64(min(wall, used)) * (a.times - 1))
}

// stood notes that it was to stand still for wall, and used so much of the
// processors all the same: a thread that is not the one signalled hears of the
// stop when the system next looks at it, milliseconds later.
func (a *account) stood(wall, used time.Duration) {
	used = min(wall, used)
	a.owed -= wall - used
	a.ran(wall, used)
}

// turns stops and continues until told to end: run for a burst, stand still for
// what is owed for it.
func turns(times float64, p slowed, end <-chan struct{}) {
	a := account{times: times}
	last := time.Now()
	since := func() (wall time.Duration) {
		now := time.Now()
		wall, last = now.Sub(last), now
		return wall
	}
	for waited(burst, end) {
		wall := since()
		used, lost, known := p.used()
		if !known {
			used = wall
		}
		a.ran(max(wall-lost, 0), used)
		if a.owed <= 0 {
			continue
		}
		on := true
		for on && a.owed > 0 {
			p.pause()
			on = waited(a.owed, end)
			wall := since()
			used, _, _ := p.used()
			a.stood(wall, used)
		}
		p.resume()
		if !on {
			return
		}
	}
}

// waited waits and says whether the end has not come meanwhile.
func waited(d time.Duration, end <-chan struct{}) bool {
	select {
	case <-time.After(d):
		return true
	case <-end:
		return false
	}
}
