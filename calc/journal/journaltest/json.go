package journaltest

import (
	"bytes"
	"encoding/json"
)

// SameJSON reports whether a and b are the same as JSON.
func SameJSON(a, b any) bool {
	x, err := json.Marshal(a)
	y, err2 := json.Marshal(b)
	return err == nil && err2 == nil && bytes.Equal(x, y)
}

// JSON returns v as JSON.
func JSON(v any) (string, error) {
	b, err := json.Marshal(v)
	return string(b), err
}
