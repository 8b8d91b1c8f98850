package registry

import (
	"testing"

	"kerfside/calc/form"
)

// released are the keys that rigs and sites have kept in journals, which replay
// for ever, by who keeps them today.
var released = map[form.Owner][]string{
	form.OfRig:   {"min_current", "max_current", "arc_volts", "tips", "fitted", "pressure_kind", "pressure", "calibration"},
	form.OfPlate: {"air_need", "air_least", "duty_points", "machine_efficiency", "power_factor", "least_volts"},
	form.OfTruck: {"free_air", "tank", "cut_in", "cut_out", "compressor_duty", "regulator", "hose_length", "bore", "couplers", "coupler_c", "size", "cord_length", "compressor_power"},
	form.OfSite:  {"volts", "phases", "breaker", "generator", "headroom", "stretch", "compressor_first", "altitude", "temperature", "humidity"},
}

// TestOwners holds what is kept: site-check takes all of it, and whoever else asks
// for it under an owner has the same one.
func TestOwners(t *testing.T) {
	all, _ := Get("site-check")
	owners := map[string]form.Field{}
	for _, f := range all.Fields {
		if f.Owner != form.OfNone {
			owners[f.Key] = f
		}
		if f.Owner == form.OfTruck && f.Item == "" {
			t.Errorf("%s is the truck's and no part of an item, which a site may have of its own", f.Key)
		}
	}
	for owner, keys := range released {
		for _, key := range keys {
			if got := owners[key].Owner; got != owner {
				t.Errorf("%s belongs to %q, want %q", key, got, owner)
			}
		}
	}
	for _, c := range All() {
		for _, f := range c.Fields {
			if f.Key == "rig" || f.Key == "site" {
				t.Errorf("%s has a field %s: that is what is kept", c.Name, f.Key)
			}
			if want := owners[f.Key]; f.Owner != form.OfNone && (f.Owner != want.Owner || f.Item != want.Item) {
				t.Errorf("%s has %s of %s, site-check has it of %q", c.Name, f.Key, f.Owner, want.Owner)
			}
			if f.Owner != form.OfNone && f.Hazard {
				t.Errorf("%s asks %s, a hazard, of what is kept", c.Name, f.Key)
			}
		}
	}
}
