package event

import (
	"slices"
	"strings"
)

// Private reports whether an event says what an export leaves out by default, and whether
// it says nothing else. An amendment says what it sets, of whatever kind its target is.
// What cannot be read is private where the key stands in it.
func Private(raw string) (private, alone bool) {
	keys := privateKeys("")
	if !slices.ContainsFunc(append(keys, `\u`), func(key string) bool { return strings.Contains(raw, key) }) {
		return false, false
	}
	e, err := Decode([]byte(raw))
	if err != nil {
		return slices.ContainsFunc(keys, func(key string) bool { return strings.Contains(raw, `"`+key+`"`) }), false
	}
	body := ReadBody(e.Body)
	if keys = privateKeys(e.Kind); e.Kind == "amend" {
		body, keys = ReadBody(body.Get("set")), privateKeys("")
	}
	n := 0
	for _, m := range body.Members() {
		if slices.Contains(keys, m.Key) {
			n++
		}
	}
	return n > 0, n > 0 && n == len(body.Members())
}

// privateKeys are the private keys of a kind, of all where it is "".
func privateKeys(kind string) []string {
	var keys []string
	for _, k := range kinds {
		for _, f := range k.Body {
			if f.Private && (kind == "" || kind == k.Name) {
				keys = append(keys, f.Key)
			}
		}
	}
	return keys
}
