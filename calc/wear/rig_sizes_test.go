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
		{"the tip fitted", `{"tips": "20A:0.7mm,40A:0.95mm", "fitted": "40A"}`, 0.95, 0.95 * 1.15, 0.95 * 1.3},
		{"the only tip", `{"tips": "40:0.04in"}`, 1.016, 1.016 * 1.15, 1.016 * 1.3},
		{"one of two, which is not said", `{"tips": "20A:0.7mm,40A:0.95mm"}`, 0, 0, 0},
		{"a tip that is not listed", `{"tips": "20A:0.7mm", "fitted": "40A"}`, 0, 0, 0},
		{"a rig without tips", `{"max_current": "40A"}`, 0, 0, 0},
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
			}{{"orifice", "new", test.bore}, {"orifice", "limit", test.limit}, {"offset", "kerf", test.cut}} {
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
