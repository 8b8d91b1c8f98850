package event

import (
	"encoding/json"
	"testing"
)

// TestStandings: an answer lasts if it failed; what nobody knows passes.
func TestStandings(t *testing.T) {
	for _, result := range []string{"fail", "change", "not-done"} {
		if StandingOf(Event{Kind: "check.answered", Body: json.RawMessage(`{"result":"` + result + `"}`)}) != Lasting {
			t.Errorf("a check answered %q passes", result)
		}
	}
	if StandingOf(Event{Kind: "check.answered", Body: json.RawMessage(`{"result":"good"}`)}) != Passing || StandingOf(Event{Kind: "drone.flown"}) != Passing {
		t.Error("a good answer or an unknown kind stands")
	}
}
