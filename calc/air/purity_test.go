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
		{dew: -90, liquid: 0, want: "1"}, {dew: -70, liquid: 0, want: "1"}, {dew: -69.9, liquid: 0, want: "2"}, {dew: -40, liquid: 0, want: "2"}, {dew: -39.9, liquid: 0, want: "3"}, {dew: -20, liquid: 0, want: "3"}, {dew: -19.9, liquid: 0, want: "4"},
		{dew: 3, liquid: 0, want: "4"}, {dew: 3.1, liquid: 0, want: "5"}, {dew: 7, liquid: 0, want: "5"}, {dew: 7.1, liquid: 0, want: "6"}, {dew: 10, liquid: 0, want: "6"}, {dew: 10.1, liquid: 0, want: "7"},
		{dew: 20, liquid: 0.5, want: "7"}, {dew: 20, liquid: 0.51, want: "8"}, {dew: 20, liquid: 5, want: "8"}, {dew: 20, liquid: 5.01, want: "9"}, {dew: 20, liquid: 10, want: "9"}, {dew: 20, liquid: 10.01, want: "X"},
		{dew: -20, liquid: 0.1, want: "7"}, // liquid water rules, however cold
	}
	for _, test := range tests {
		if got := WaterClass(unit.Celsius(test.dew), unit.Density(test.liquid)*gramPerCubicMetre); got != test.want {
			t.Errorf("WaterClass(%g °C, %g g/m³) = %s, want %s", test.dew, test.liquid, got, test.want)
		}
	}
}
