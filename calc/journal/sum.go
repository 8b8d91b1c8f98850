//go:build !js

package journal

import "crypto/sha256"

// SumOf returns the sum of raw.
func SumOf(raw []byte) Sum { return sha256.Sum256(raw) }
