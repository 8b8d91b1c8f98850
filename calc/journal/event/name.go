package event

// IsID reports whether s has the form of an event's id.
func IsID(s string) bool {
	if len(s) != idLength {
		return false
	}
	for i := range len(s) {
		if s[i] == '.' || !IsName(s[i:i+1]) {
			return false
		}
	}
	return true
}

// IsName reports whether s may name a kind, a device or a thing.
func IsName(s string) bool {
	if len(s) < 1 || len(s) > MaxName {
		return false
	}
	for i := range len(s) {
		c := s[i]
		if (c < 'a' || c > 'z') && (c < 'A' || c > 'Z') && (c < '0' || c > '9') && c != '-' && c != '_' && c != '.' {
			return false
		}
	}
	return true
}
