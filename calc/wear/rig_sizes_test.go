package wear

import (
	"math"
	"testing"

	"kerfside/calc/problem"
)

func TestRigSizes(t *testing.T) {
	tests := []struct {
		name, input      string
		bore, limit, cut float64 // 0 for none
	}{
		{name: "the tip fitted", input: `{"tips": "20A:0.7mm,40A:0.95mm", "fitted": "40A"}`, bore: 0.95, limit: 0.95 * 1.15, cut: 0.95 * 1.3},
		{name: "the only tip", input: `{"tips": "40:0.04in"}`, bore: 1.016, limit: 1.016 * 1.15, cut: 1.016 * 1.3},
		{name: "one of two, which is not said", input: `{"tips": "20A:0.7mm,40A:0.95mm"}`, bore: 0, limit: 0, cut: 0},
		{name: "a tip that is not listed", input: `{"tips": "20A:0.7mm", "fitted": "40A"}`, bore: 0, limit: 0, cut: 0},
		{name: "a rig without tips", input: `{"max_current": "40A"}`, bore: 0, limit: 0, cut: 0},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := RigSizes([]byte(test.input))
			if err != nil {
				t.Fatal(err)
			}
			for _, size := range []struct {
				drawing, key string
				want         float64
			}{{drawing: "orifice", key: "new", want: test.bore}, {drawing: "orifice", key: "limit", want: test.limit}, {drawing: "offset", key: "kerf", want: test.cut}} {
				if v := got[size.drawing][size.key]; math.Abs(v-size.want) > 1e-9 {
					t.Errorf("%s of the %s = %v mm, want %v", size.key, size.drawing, v, size.want)
				}
			}
		})
	}
	if _, err := RigSizes([]byte(`{"tips": 7, "nonsense": 1}`)); problem.From(err) == nil {
		t.Error("fields that no rig has raise no problem")
	}
}
