package form

import (
	"encoding/json"
	"maps"
	"os"
	"testing"

	"kerfside/calc/problem"
)

// kept is a calculator with fields of each owner, as testdata/known.json takes it.
var kept = Calculator{Name: "kept", Fields: []Field{
	{Key: "today", Takes: Text()},
	{Key: "amps", Takes: Text(), Owner: OfRig},
	{Key: "least", Takes: Text(), Owner: OfPlate},
	{Key: "air", Takes: Text(), Owner: OfTruck, Item: "compressor"},
	{Key: "tank", Takes: Text(), Owner: OfTruck, Item: "compressor"},
	{Key: "hose", Takes: Text(), Owner: OfTruck, Item: "hose"},
	{Key: "volts", Takes: Text(), Owner: OfSite},
}}

// TestKnown walks the same table as the phone's knownOf.
func TestKnown(t *testing.T) {
	data, err := os.ReadFile("../../testdata/known.json")
	if err != nil {
		t.Fatal(err)
	}
	var cases []struct {
		Name       string
		Rig, Site  map[string]any
		Want, From map[string]string
	}
	if err := json.Unmarshal(data, &cases); err != nil {
		t.Fatal(err)
	}
	for _, c := range cases {
		r := NewReader(&kept, map[string]any{"rig": c.Rig, "site": c.Site})
		if err := r.Err(); err != nil {
			t.Errorf("%s: %v", c.Name, err)
		}
		from := map[string]string{}
		for key, owner := range r.from {
			from[key] = string(owner)
		}
		if !maps.Equal(r.values, c.Want) || !maps.Equal(from, c.From) {
			t.Errorf("%s: %v from %v, want %v from %v", c.Name, r.values, from, c.Want, c.From)
		}
	}
}

func TestEnteredOverKept(t *testing.T) {
	r := NewReader(&kept, map[string]any{"amps": "30A", "rig": map[string]any{"amps": "45A", "today": []any{}}})
	if err := r.Err(); err != nil || r.values["amps"] != "30A" || r.From("amps") != OfNone {
		t.Errorf("amps = %q from %q, %v; want 30A, entered", r.values["amps"], r.From("amps"), err)
	}
}

func TestKeptRefusals(t *testing.T) {
	for field, values := range map[string]map[string]any{
		"rig":  {"rig": "45A"},
		"site": {"site": []any{"volts"}},
		"amps": {"rig": map[string]any{"amps": []any{"45A"}}},
		"hose": {"site": map[string]any{"hose": map[string]any{}}},
	} {
		p := problem.From(NewReader(&kept, values).Err())
		if p == nil || p.Field != field || p.Kind != problem.Malformed || p.Hint == "" {
			t.Errorf("%v: %v, want a malformed %s and what to do", values, p, field)
		}
	}
}
