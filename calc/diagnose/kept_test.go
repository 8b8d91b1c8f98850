package diagnose

import (
	"strings"
	"testing"
)

// ask returns what fault-rank answers, as JSON.
func ask(t *testing.T, values map[string]any) string {
	t.Helper()
	answer, err := FaultRank.Calculator().CalculateValues(values)
	if err != nil {
		t.Fatal(err)
	}
	text, _ := answer.MarshalJSON()
	return string(text)
}

// TestNumbersOfTheRig: the least pressure and the tip's limit are numbers where
// the rig's plate and tips are known, in the units of the phone, and words where
// they are not.
func TestNumbersOfTheRig(t *testing.T) {
	rig := map[string]any{"air_least": "4.5bar", "tips": "25:0.8mm,45:1.05mm", "fitted": "45A"}
	tests := []struct {
		units string
		rig   map[string]any
		want  []string
	}{
		{units: "metric", rig: rig, want: []string{"under 4.5 bar while air flows", "The limit for this tip: 1.21 mm."}},
		{units: "us", rig: rig, want: []string{"under 65 psi while air flows", "The limit for this tip: 0.048 in."}},
		{units: "metric", want: []string{"under the least on its plate while air flows", "15 in 100 over new"}},
	}
	for _, test := range tests {
		values := map[string]any{"signs": "not-through, head-hot, wide-cut", "units": test.units}
		if test.rig != nil {
			values["rig"] = test.rig
		}
		text := ask(t, values)
		for _, want := range test.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: the answer lacks %q", test.units, want)
			}
		}
		if strings.Contains(text, "{least}") || strings.Contains(text, "{limit}") || strings.Contains(text, "{pit}") {
			t.Errorf("%s: a number was left out of a text", test.units)
		}
	}
}
