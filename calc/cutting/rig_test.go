package cutting

import (
	"encoding/json"
	"testing"

	"kerfside/calc/form"
)

// A tip whose bore nobody has read is planned with the bore that its amps suggest,
// as a machine of which no tip is known is.
func TestTipOfUnknownBore(t *testing.T) {
	plan := func(input string) string {
		r, err := form.NewJSONReader(CutPlan.Calculator(), []byte(input))
		if err != nil {
			t.Fatal(err)
		}
		a := form.NewAnswer(r)
		if err := CutPlan.Calculator().Run(r, a); err != nil {
			t.Fatal(input, err)
		}
		text, err := json.Marshal(a)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	unknown := plan(`{"thickness": "6mm", "max_current": "40A", "tips": "40A"}`)
	if want := plan(`{"thickness": "6mm", "max_current": "40A"}`); unknown != want {
		t.Errorf("a tip without its bore: %s\nno tip at all: %s", unknown, want)
	}
	if read := plan(`{"thickness": "6mm", "max_current": "40A", "tips": "40A:0.95mm"}`); unknown == read {
		t.Error("a bore that was read changes nothing")
	}
	for input, known := range map[string]bool{`{"tips": "40A"}`: false, `{"tips": "25A,40A:0.95mm"}`: false, `{"tips": "25A,40A:0.95mm", "fitted": "25A"}`: false, `{"tips": "25A,40A:0.95mm", "fitted": "40A"}`: true} {
		r, err := form.NewJSONReader(CutPlan.Calculator(), []byte(input))
		if err != nil {
			t.Fatal(err)
		}
		if _, ok := FittedTip(r); ok != known {
			t.Errorf("the tip fitted by %s is known: %v", input, ok)
		}
	}
}
