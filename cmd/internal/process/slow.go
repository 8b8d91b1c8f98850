package process

import "time"

// slice is one turn of a slowed program. It is short against anything that a
// person would notice, and long against the clock of the system.
const slice = 30 * time.Millisecond

// turns stops and continues until told to end: run for one part of the slice,
// stand still for the rest.
func turns(times float64, pause, resume func(), end <-chan struct{}) {
	run := time.Duration(float64(slice) / times)
	for {
		if !waited(run, end) {
			return
		}
		pause()
		on := waited(slice-run, end)
		resume()
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
