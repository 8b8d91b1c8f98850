package journal

import (
	"encoding/json"
	"fmt"
	"strconv"
)

// member is one key of an object with the bytes of its value.
type member struct {
	key   string
	value []byte
	start int // where the value begins in the object's bytes
}

// members returns the keys of the JSON object raw in their order, exactly as
// spelt. encoding/json would match keys without regard to case and let the last
// of two equal keys win; a browser reads them otherwise, and both must agree.
// It also returns how many levels deep raw goes.
func members(raw []byte) (list []member, depth int, err error) {
	if !json.Valid(raw) {
		return nil, 0, fmt.Errorf("this is no JSON")
	}
	i := space(raw, 0)
	if raw[i] != '{' {
		return nil, 0, fmt.Errorf("this is no JSON object")
	}
	list, depth = make([]member, 0, usualKeys), 1
	for i = space(raw, i+1); raw[i] != '}'; i = space(raw, i) {
		if raw[i] == ',' {
			i = space(raw, i+1)
		}
		end, _ := value(raw, i)
		key, err := readKey(raw[i:end])
		if err != nil {
			return nil, 0, err
		}
		for _, m := range list {
			if m.key == key {
				return nil, 0, fmt.Errorf("the key %q stands twice", key)
			}
		}
		i = space(raw, space(raw, end)+1) // past the colon
		end, deep := value(raw, i)
		list = append(list, member{key, raw[i:end], i})
		depth = max(depth, 1+deep)
		i = end
	}
	return list, depth, nil
}

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
			for i++; raw[i] != '"'; i++ {
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

// usualKeys is how many keys an event or a reply's line has, and some more.
const usualKeys = 12

// readKey is unquote that makes no copy of a key that an event has.
func readKey(raw []byte) (string, error) {
	switch string(raw) {
	case `"id"`:
		return "id", nil
	case `"t"`:
		return "t", nil
	case `"wall"`:
		return "wall", nil
	case `"device"`:
		return "device", nil
	case `"kind"`:
		return "kind", nil
	case `"v"`:
		return "v", nil
	case `"in"`:
		return "in", nil
	case `"about"`:
		return "about", nil
	case `"body"`:
		return "body", nil
	}
	return unquote(raw)
}

// unquote returns the text of a JSON string.
func unquote(raw []byte) (string, error) {
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

// whole returns the integer that raw spells, without fraction or exponent.
func whole(raw []byte) (int64, bool) {
	n, err := strconv.ParseInt(string(raw), 10, 64)
	return n, err == nil
}
