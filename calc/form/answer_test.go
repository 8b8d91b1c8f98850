package form

import (
	"encoding/json"
	"testing"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// TestPutOf: a result whose quantity the input decides carries its SI value
// and its text in the unit asked for.
func TestPutOf(t *testing.T) {
	var pressure unit.Pressure
	c := Calculator{
		Name:    "any",
		Results: []Result{{Key: "result", Label: "Result", Gives: AnyNumber()}},
		Run: func(_ *Reader, a *Answer) error {
			a.PutOf("result", pressure.Quantity(), "bar", 620528.15628515, 6)
			return nil
		},
	}
	a, err := c.CalculateValues(nil)
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(a.Results())
	if err != nil {
		t.Fatal(err)
	}
	const want = `{"result":{"value":620528.15628515,"unit":"Pa","text":"6.20528 bar"}}`
	if string(b) != want {
		t.Errorf("results = %s, want %s", b, want)
	}
}

// TestNoResultIsNaN: a sum that went wrong is our fault and says so, whatever
// the calculator did.
func TestNoResultIsNaN(t *testing.T) {
	zero := 0.0
	c := Calculator{
		Name:    "broken",
		Results: []Result{{Key: "result", Label: "Result", Gives: Factor()}},
		Run:     func(_ *Reader, a *Answer) error { a.PutFactor("result", zero/zero); return nil },
	}
	if _, err := c.CalculateValues(nil); problem.KindOf(err) != problem.Internal {
		t.Errorf("a result of NaN gives %v, want an internal problem", err)
	}
}
