package event

import (
	"encoding/json"
	"fmt"
	"strconv"
)

// space returns the first index from i on that holds no white space.
func space(raw []byte, i int) int {
	for i < len(raw) && (raw[i] == ' ' || raw[i] == '\t' || raw[i] == '\n' || raw[i] == '\r') {
		i++
	}
	return i
}

// value returns where the value that begins at i ends, and its depth. raw is
// known to be valid, so brackets only have to be counted.
func value(raw []byte, i int) (end, depth int) {
	open := 0
	for ; i < len(raw); i++ {
		switch raw[i] {
		case '"':
			for i++; i < len(raw) && raw[i] != '"'; i++ {
				if raw[i] == '\\' {
					i++
				}
			}
		case '{', '[':
			open++
			depth = max(depth, open)
			continue
		case '}', ']':
			if open == 0 {
				return i, depth
			}
			open--
		case ',', ':', ' ', '\t', '\n', '\r':
			if open == 0 {
				return i, depth
			}
			continue
		default:
			for i+1 < len(raw) && !delimits(raw[i+1]) {
				i++
			}
		}
		if open == 0 {
			return i + 1, depth
		}
	}
	return i, depth
}

// delimits reports whether c ends a number or a word of JSON.
func delimits(c byte) bool {
	switch c {
	case ',', ':', '}', ']', ' ', '\t', '\n', '\r':
		return true
	}
	return false
}

// Unquote returns the text of a JSON string.
func Unquote(raw []byte) (string, error) {
	if len(raw) < 2 || raw[0] != '"' {
		return "", fmt.Errorf("%.40s is no text", raw)
	}
	for _, c := range raw {
		if c == '\\' {
			var s string
			err := json.Unmarshal(raw, &s)
			return s, err
		}
	}
	return string(raw[1 : len(raw)-1]), nil
}

// ReadInt returns the integer that raw spells, without fraction or exponent.
func ReadInt(raw []byte) (int64, bool) {
	n, err := strconv.ParseInt(string(raw), 10, 64)
	return n, err == nil
}
