package journal

// SumOf returns the sum of raw.
func SumOf(raw []byte) Sum { return sha256Of(raw) }
