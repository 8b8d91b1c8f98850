package registry

import "testing"

// apart are fields whose default means another thing in one calculator than in
// the others, with what it means there.
var apart = map[string]map[string]string{
	"temperature": {"duty": "the 40 °C of the plate"},
	"share":       {"air-tank": "of the open valve, not of the arc"},
	"efficiency":  {"supply": "of the machine", "generator": "of the machine", "job-cost": "of the machine"},
	"duty":        {"fault-rank": "a verdict, not a share"},
	"shape":       {"guide-offset": "of the cut, not of the piece", "job-plan": "of the cut, not of the piece"},
	"pressure":    {"air-water": "in the tank, not before the hose", "air-hose": "before the hose, not at the torch"},
}

// TestSameDefaults: what two calculators take for granted of the same thing is
// the same. A field that one of them leaves open is asked there and nothing is
// taken for granted.
func TestSameDefaults(t *testing.T) {
	first, from, excused := map[string]string{}, map[string]string{}, 0
	for _, c := range All() {
		for _, f := range allFields(c) {
			if apart[f.Key][c.Name] != "" {
				excused++
				continue
			}
			if f.Default == "" {
				continue
			}
			if was, ok := first[f.Key]; ok && was != f.Default {
				t.Errorf("%s is %s in %s and %s in %s", f.Key, was, from[f.Key], f.Default, c.Name)
			}
			first[f.Key], from[f.Key] = f.Default, c.Name
		}
	}
	listed := 0
	for _, names := range apart {
		listed += len(names)
	}
	if excused != listed || len(first) < 40 {
		t.Errorf("%d defaults were seen and %d of %d excuses were needed", len(first), excused, listed)
	}
}
