package event

import "encoding/hex"

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
	b = o.Append(b)
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
