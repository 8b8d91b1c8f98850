package event

import (
	"encoding/json"
	"fmt"
	"strconv"
)

// Stamp is a time of the hybrid clock: 48 bits of milliseconds since 1970 UTC
// above 16 bits of counter. On the wire it is 16 lower-case hex digits, which
// sort as text.
//
// The clock is after Kulkarni, Demirbas, Madappa, Avva and Leone, "Logical
// Physical Clocks", OPODIS 2014, with the bits split as there (section 6.2).
type Stamp uint64

// StampOf returns the first stamp of a millisecond; one that the 48 bits do not
// hold counts as the nearest that they do.
func StampOf(ms int64) Stamp { return Stamp(uint64(min(max(ms, 0), MaxMillis)) << 16) }

// LastStampOf returns the last stamp of a millisecond.
func LastStampOf(ms int64) Stamp { return StampOf(ms) | 0xffff }

// Ms returns the milliseconds of s.
func (s Stamp) Ms() int64 { return int64(s >> 16) }

// String returns 16 hex digits.
func (s Stamp) String() string { return string(s.Append(make([]byte, 0, stampLength))) }

// Append appends the 16 hex digits to b.
func (s Stamp) Append(b []byte) []byte {
	for shift := 60; shift >= 0; shift -= 4 {
		b = append(b, "0123456789abcdef"[s>>shift&15])
	}
	return b
}

// MarshalText returns 16 hex digits, so that a stamp in JSON is text.
func (s Stamp) MarshalText() ([]byte, error) { return s.Append(nil), nil }

// UnmarshalText reads 16 hex digits; the empty text is 0.
func (s *Stamp) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*s = 0
		return nil
	}
	t, err := ParseStamp(string(text))
	*s = t
	return err
}

// ParseStamp reads 16 lower-case hex digits.
func ParseStamp(text string) (Stamp, error) {
	n, err := strconv.ParseUint(text, 16, 64)
	if err != nil || len(text) != stampLength {
		return 0, fmt.Errorf("%.40q is no stamp of 16 hex digits", text)
	}
	for i := range len(text) {
		if text[i] >= 'A' && text[i] <= 'F' || text[i] == '+' {
			return 0, fmt.Errorf("%q: the digits of a stamp are lower case", text)
		}
	}
	return Stamp(n), nil
}

// Next returns the stamp that a phone gives after last, when its own clock
// shows wall and the server's was offset ahead at the last sync (all in ms).
// The result is always above last, except at the very end of the 48 bits,
// about the year 10889, where it stays.
func Next(last Stamp, wall, offset int64) Stamp {
	if now := StampOf(add(wall, offset)); now.Ms() > last.Ms() {
		return now
	}
	if last == 1<<64-1 {
		return last
	}
	return last + 1 // the counter's overflow carries into the milliseconds
}

// add is a + b, held inside the 64 bits.
func add(a, b int64) int64 {
	switch sum := a + b; {
	case a > 0 && b > 0 && sum < 0:
		return 1<<63 - 1
	case a < 0 && b < 0 && sum >= 0:
		return -1 << 63
	default:
		return sum
	}
}

// Settle returns what the phone's clock is set to after a sync: known is the
// highest o it knows. With nothing unsent it follows known even backwards,
// which mends a clock that ran ahead; else it never goes back.
func Settle(last, known Stamp, unsent bool) Stamp {
	if unsent {
		return max(last, known)
	}
	return known
}

// WallMillis returns the ms of an event's wall, the clock that the phone showed, false
// if it showed nothing that can be.
func WallMillis(wall json.RawMessage) (int64, bool) {
	i := space(wall, 1)
	end, _ := value(wall, i)
	ms, ok := ReadInt(wall[i:end])
	return ms, ok && -MaxMillis <= ms && ms <= MaxMillis
}
