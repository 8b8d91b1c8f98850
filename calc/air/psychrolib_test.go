//go:build !js

// Native only: it runs another program, which a phone cannot.

package air

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"kerfside/calc/unit"
)

// psychrolibScript prints, for air of 5 to 45 °C and 10 to 100 % pressed to 2
// to 16 bar absolute, what the library finds: saturation pressure, humidity
// ratio and pressure dew point, and the pressure of the standard atmosphere.
const psychrolibScript = `
const psy = require(process.argv[1]);
psy.SetUnitSystem(psy.SI);
const rows = [];
for (let t = 5; t <= 45; t += 5) for (let rh = 10; rh <= 100; rh += 30) for (let h = 0; h <= 3000; h += 1500) for (const p of [2e5, 8e5, 16e5]) {
  const pa = psy.GetStandardAtmPressure(h);
  const w = psy.GetHumRatioFromRelHum(t, rh / 100, pa);
  rows.push({t, rh, h, p, pa, sat: psy.GetSatVapPres(t), w, dew: psy.GetTDewPointFromVapPres(190, p * w / (0.621945 + w))});
}
console.log(JSON.stringify(rows));
`

// TestAgainstPsychrolib runs the npm package psychrolib 1.1.1 beside our own
// sums. Its saturation follows Hyland and Wexler, ours IAPWS-IF97: they differ
// by 0.02 %.
func TestAgainstPsychrolib(t *testing.T) {
	dir, err := filepath.Abs("../../cmd/dev/npm/node_modules/psychrolib")
	if err != nil {
		t.Fatal(err)
	}
	node, missing := exec.LookPath("node")
	if _, err := os.Stat(dir); err != nil {
		missing = err
	}
	if missing != nil {
		if os.Getenv("CI") == "true" || os.Getenv("KERFSIDE_COMPARE") == "1" {
			t.Fatalf("psychrolib cannot run: %v", missing)
		}
		t.Logf("not compared with psychrolib: %v", missing)
		return
	}
	out, err := exec.Command(node, "-e", psychrolibScript, dir).Output()
	if err != nil {
		t.Fatalf("psychrolib: %v", err)
	}
	var rows []struct{ T, RH, H, P, PA, Sat, W, Dew float64 }
	if err := json.Unmarshal(out, &rows); err != nil || len(rows) != 9*4*3*3 {
		t.Fatalf("psychrolib printed %d rows: %v", len(rows), err)
	}
	for _, row := range rows {
		at := unit.Celsius(row.T)
		pa := AirPressure(unit.Length(6356766 * row.H / (6356766 - row.H))) // its altitude is geopotential
		sat := Saturation(at)
		w := HumidityRatio(unit.Pressure(row.RH/100)*sat, unit.Pressure(row.PA))
		dew := DewPoint(VapourPressure(w, unit.Pressure(row.P))).Celsius()
		if math.Abs(float64(pa)/row.PA-1) > 5e-5 || math.Abs(float64(sat)/row.Sat-1) > 3e-4 || math.Abs(float64(w)/row.W-1) > 4e-4 || math.Abs(dew-row.Dew) > 0.02 {
			t.Errorf("%+v: ours %.1f Pa, %.2f Pa, %.6f, %.3f °C", row, float64(pa), float64(sat), float64(w), dew)
		}
	}
	t.Logf("%d states compared", len(rows))
}
