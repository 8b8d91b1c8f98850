package event

import (
	"encoding/json"
	"testing"
)

// TestStandings: every kind that stands is one that the fold knows; an answer stands if
// it failed.
func TestStandings(t *testing.T) {
	for kind := range standings {
		if _, ok := kinds[kind]; !ok {
			t.Errorf("%s is no kind", kind)
		}
	}
	for _, result := range []string{"fail", "change", "not-done"} {
		if StandingOf(Event{Kind: "check.answered", Body: json.RawMessage(`{"result":"` + result + `"}`)}) != Lasting {
			t.Errorf("a check answered %q passes", result)
		}
	}
	if StandingOf(Event{Kind: "check.answered", Body: json.RawMessage(`{"result":"good"}`)}) != Passing || StandingOf(Event{Kind: "drone.flown"}) != Passing {
		t.Error("a good answer or an unknown kind stands")
	}
}
