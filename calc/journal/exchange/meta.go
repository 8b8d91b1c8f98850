package exchange

import (
	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// Meta is the part of a replica's one record in the store meta that the sync
// keeps. calc/journal/states.md says what each field means; the fields that the
// phone keeps for itself are not here.
type Meta struct {
	Crew           string         `json:"crew"`
	Cursor         int64          `json:"cursor"`
	Head           event.Chain    `json:"head"`
	Marks          []Mark         `json:"marks"`
	Gen            int64          `json:"gen"`
	Revision       int64          `json:"turn"`
	Rewinding      bool           `json:"rewinding"`
	Rewinds        []int64        `json:"rewinds"`
	MaxO           event.Stamp    `json:"maxO"`
	Offset         int64          `json:"offset"`
	Max            int64          `json:"max"`
	BackedUp       int64          `json:"backedUp"`
	SameDisk       int64          `json:"sameDisk"`
	LastReply      int64          `json:"heard"`
	Batch          int            `json:"batch"`
	Truncations    int            `json:"strikes"`
	Failures       int            `json:"fails"`
	PullOnly       bool           `json:"pullOnly"`
	ErasuresDigest string         `json:"gone"`
	Stopped        *problem.Error `json:"stopped"`
	RetryAfter     int            `json:"wait"`
	Early          string         `json:"early"`
	EarlyEnd       int64          `json:"coming"`
}

// Promise is a number above the cursor that the server gave.
type Promise struct {
	ID string `json:"id"`
	N  int64  `json:"n"`
}

// batch is how many events the next request may carry.
func (m *Meta) batch() int {
	if m.Batch < 1 || m.Batch > MaxPush {
		return MaxPush
	}
	return m.Batch
}

// pause is the upper end, in ms, of the pause after m.Fails failures.
func (m *Meta) pause() int64 {
	if m.Failures == 0 {
		return 0
	}
	return max(min(int64(1000)<<min(m.Failures-1, 9), maxPause), int64(m.RetryAfter)*1000)
}
