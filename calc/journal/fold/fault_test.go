package fold

import (
	"testing"

	"kerfside/calc/journal/event"
)

// TestFoundCountsTheLastWord: a fault counts once, for what it was found to be
// last; a voided finding does not count.
func TestFoundCountsTheLastWord(t *testing.T) {
	f := NewFold()
	events := []string{
		`{"id":"AAAAAAAAAAAAAAAAAAAAA1","t":"0199f3c0b4000001","device":"a","kind":"fault.found","v":1,"about":"FFFFFFFFFFFFFFFFFFFFF1","body":{"cause":"tip-worn"}}`,
		`{"id":"AAAAAAAAAAAAAAAAAAAAA2","t":"0199f3c0b4000002","device":"a","kind":"fault.found","v":1,"about":"FFFFFFFFFFFFFFFFFFFFF1","body":{"cause":"air-wet"}}`,
		`{"id":"AAAAAAAAAAAAAAAAAAAAA3","t":"0199f3c0b4000003","device":"a","kind":"fault.found","v":1,"about":"FFFFFFFFFFFFFFFFFFFFF2","body":{"cause":"air-wet"}}`,
		`{"id":"AAAAAAAAAAAAAAAAAAAAA4","t":"0199f3c0b4000004","device":"a","kind":"fault.found","v":1,"about":"FFFFFFFFFFFFFFFFFFFFF3","body":{"cause":"tip-worn"}}`,
		`{"id":"AAAAAAAAAAAAAAAAAAAAA5","t":"0199f3c0b4000005","device":"a","kind":"void","v":1,"body":{"of":"AAAAAAAAAAAAAAAAAAAAA4","on":true}}`,
	}
	for _, raw := range events {
		e, err := event.Decode([]byte(raw))
		if err != nil {
			t.Fatal(err)
		}
		f.Add(e, nil, 0)
	}
	if got := f.Now().Found; len(got) != 1 || got["air-wet"] != 2 {
		t.Errorf("found = %v, want air-wet twice and nothing else", got)
	}
}
