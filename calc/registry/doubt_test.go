package registry

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/source"
)

// doubtful are the results that come out of the kerf's energy balance, which is
// right within some tens of a hundred: by quantity, or lengths and plain numbers by
// their key. Those that only repeat what was entered or measured are left out.
var (
	doubtfulQuantities = []string{"speed", "pace", "heat per length", "power"}
	doubtfulKeys       = regexp.MustCompile(`^(kerf|kerf_new|severs|severs_new|limit_.*|standoff|calibration.*|capacity|speed_left|pace_4in|cut_time)$`)
	measured           = []string{"passed", "trial-strips kerf", "trial-strips speed", "calibration speed"}
)

// TestFiguresNeverFinerThanTheirDoubt walks over the answers to all vectors of the
// calculators that rest on the balance, in both systems: no text of a result that
// comes out of it has more than two figures.
func TestFiguresNeverFinerThanTheirDoubt(t *testing.T) {
	seen := 0
	for name, cases := range load(t) {
		c, err := Get(name)
		if err != nil || !slices.Contains(c.Sources, source.ID("kerf-balance")) {
			continue
		}
		for _, v := range cases {
			for _, units := range []string{"metric", "us"} {
				values := map[string]any{}
				if err := json.Unmarshal(v.Input, &values); err != nil {
					t.Fatal(err)
				}
				values["units"] = units
				a, err := c.CalculateValues(values)
				if err != nil {
					continue
				}
				seen += rough(t, name, v.Name+" in "+units, a.Results())
			}
		}
	}
	if seen < 500 {
		t.Errorf("only %d texts were looked at", seen)
	}
}

// rough reports the doubtful texts of a group that have more than two figures, and
// how many it looked at.
func rough(t *testing.T, name, where string, g *form.Group) int {
	t.Helper()
	seen := 0
	for _, key := range g.Keys() {
		switch v, _ := g.Get(key); v := v.(type) {
		case form.Value:
			if slices.Contains(measured, key) || slices.Contains(measured, name+" "+key) || !doubtfulKeys.MatchString(key) && !slices.Contains(doubtfulQuantities, bySI[v.Unit]) {
				continue
			}
			for _, text := range []string{v.Text, v.Also} {
				seen++
				if n := figures(text); n > 2 {
					t.Errorf("%s, %s: %s says %q, %d figures", name, where, key, text, n)
				}
			}
		case []*form.Group:
			for _, row := range v {
				seen += rough(t, name, where, row)
			}
		}
	}
	return seen
}

// bySI names a quantity by its SI unit.
var bySI = map[string]string{"m/s": "speed", "s/m": "pace", "J/m": "heat per length", "W": "power"}

var number = regexp.MustCompile(`[0-9]+(\.[0-9]+)?(-[0-9]+/[0-9]+|/[0-9]+)?`)

// figures counts the significant figures of the finest number in a text. A fraction
// as a rule shows it has none too many.
func figures(text string) int {
	most := 0
	text = strings.NewReplacer("s per 100 mm", "", "s per 4 in", "").Replace(text)
	for _, n := range number.FindAllString(text, -1) {
		if strings.Contains(n, "/") {
			continue
		}
		digits := strings.TrimLeft(strings.Replace(n, ".", "", 1), "0")
		if !strings.Contains(n, ".") {
			digits = strings.TrimRight(digits, "0")
		}
		most = max(most, len(digits))
	}
	return most
}
