package journal

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
)

// Sum is SHA-256 of an event's bytes.
type Sum [sha256.Size]byte

// SumOf returns the sum of raw.
func SumOf(raw []byte) Sum { return sha256.Sum256(raw) }

// MarshalText returns the sum in hex.
func (s Sum) MarshalText() ([]byte, error) { return []byte(hex.EncodeToString(s[:])), nil }

// UnmarshalText reads a sum in hex.
func (s *Sum) UnmarshalText(text []byte) error { return unhex(s[:], text) }

// Chain is the state of the chain of arrivals at one of them: half a SHA-256,
// which is enough to tell two histories apart. The zero Chain is that of no
// arrival.
type Chain [16]byte

// Next returns the chain after one more arrival.
//
//	h(n) = SHA-256(h(n−1) ‖ id ‖ o ‖ sum)[:16]
func (c Chain) Next(id string, o Stamp, sum Sum) Chain {
	b := make([]byte, 0, len(c)+len(id)+stampLength+len(sum))
	b = append(b, c[:]...)
	b = append(b, id...)
	b = o.append(b)
	b = append(b, sum[:]...)
	h := SumOf(b)
	return Chain(h[:len(c)])
}

// String returns 32 hex digits.
func (c Chain) String() string { return hex.EncodeToString(c[:]) }

// MarshalText returns 32 hex digits.
func (c Chain) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText reads 32 hex digits; the empty text is the zero Chain.
func (c *Chain) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*c = Chain{}
		return nil
	}
	return unhex(c[:], text)
}

// unhex fills to with what text spells.
func unhex(to, text []byte) error {
	if len(text) != 2*len(to) {
		return fmt.Errorf("%.80q has not %d hex digits", text, 2*len(to))
	}
	_, err := hex.Decode(to, text)
	return err
}

// Mark is a checkpoint: the chain at arrival N.
type Mark struct {
	N int64 `json:"n"`
	H Chain `json:"h"`
}

// How many marks a phone keeps: the newest ones all, for a server restored from
// last night's backup; below them one for each stretch, so that a year of marks
// stays small and a deep rewind pulls at most a stretch too much.
const (
	marksDense   = 32
	marksStretch = 2000
)

// Remember returns marks with m added at the end, thinned out.
func Remember(marks []Mark, m Mark) []Mark {
	all := append(append([]Mark(nil), marks...), m)
	if len(all) <= marksDense {
		return all
	}
	old, kept := all[:len(all)-marksDense], []Mark(nil)
	for i, o := range old {
		if i+1 == len(old) || o.N/marksStretch != old[i+1].N/marksStretch {
			kept = append(kept, o)
		}
	}
	return append(kept, all[len(all)-marksDense:]...)
}

// UpTo returns the marks at or below n.
func UpTo(marks []Mark, n int64) []Mark {
	for i, m := range marks {
		if m.N > n {
			return marks[:i]
		}
	}
	return marks
}
