package event

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

// unhex fills to with what text spells.
func unhex(to, text []byte) error {
	if len(text) != 2*len(to) {
		return fmt.Errorf("%.80q has not %d hex digits", text, 2*len(to))
	}
	_, err := hex.Decode(to, text)
	return err
}
