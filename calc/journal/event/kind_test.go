package event_test

import (
	"encoding/json"
	"slices"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// TestKindsFileKnowsAllKinds: the odd entries below are made of every kind.
func TestKindsFileKnowsAllKinds(t *testing.T) {
	all, _ := examples(t)
	if got, want := order.Keys(all), event.Kinds(); !slices.Equal(got, want) {
		t.Errorf("%s has %v, the fold knows %v: give each kind a good body there", kindsFile, got, want)
	}
	for kind, e := range all {
		text, _ := jsonOf(e.Body)
		if lack := event.Missing(kind, e.About, event.ReadBody(json.RawMessage(text))); lack != "" {
			t.Errorf("%s: %s", kind, lack)
		}
	}
}
