package air

import (
	"testing"

	"kerfside/calc/unit"
)

// TestWaterClass: the limits of ISO 8573-1:2010 (three agreeing copies); a
// limit belongs to its class.
func TestWaterClass(t *testing.T) {
	tests := []struct {
		dew    float64 // °C
		liquid float64 // g/m³
		want   string
	}{
		{-90, 0, "1"}, {-70, 0, "1"}, {-69.9, 0, "2"}, {-40, 0, "2"}, {-39.9, 0, "3"}, {-20, 0, "3"}, {-19.9, 0, "4"},
		{3, 0, "4"}, {3.1, 0, "5"}, {7, 0, "5"}, {7.1, 0, "6"}, {10, 0, "6"}, {10.1, 0, "7"},
		{20, 0.5, "7"}, {20, 0.51, "8"}, {20, 5, "8"}, {20, 5.01, "9"}, {20, 10, "9"}, {20, 10.01, "X"},
		{-20, 0.1, "7"}, // liquid water rules, however cold
	}
	for _, test := range tests {
		if got := WaterClass(unit.Celsius(test.dew), unit.Density(test.liquid)*gramPerCubicMetre); got != test.want {
			t.Errorf("WaterClass(%g °C, %g g/m³) = %s, want %s", test.dew, test.liquid, got, test.want)
		}
	}
}
