package load

import (
	"slices"
	"time"
)

// Figures are what a load measured.
type Figures struct {
	Brought  int64 // events that were acknowledged
	Came     int64 // events that devices took in
	Failures int   // exchanges that had to be repeated
	Took     time.Duration

	waits []time.Duration // of every exchange; ascending
}

// Join adds what another run of the same load measured.
func (f *Figures) Join(other Figures) {
	f.Brought += other.Brought
	f.Came += other.Came
	f.Failures += other.Failures
	f.Took += other.Took
	f.waits = append(f.waits, other.waits...)
	slices.Sort(f.waits)
}

// Rate returns how many events a second were brought.
func (f Figures) Rate() float64 { return float64(f.Brought) / f.Took.Seconds() }

// CameRate returns how many events a second were taken in.
func (f Figures) CameRate() float64 { return float64(f.Came) / f.Took.Seconds() }

// Wait returns the shortest time that p percent of the exchanges did not exceed.
func (f Figures) Wait(p int) time.Duration {
	if len(f.waits) == 0 {
		return 0
	}
	return f.waits[(len(f.waits)*p+99)/100-1]
}
