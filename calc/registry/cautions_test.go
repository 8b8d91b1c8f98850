package registry

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/power"
	"kerfside/calc/safety"
)

// cautioned says which of the shared cautions every answer of a calculator
// carries. One that is not listed carries a caution of its own; one that needs none
// stands here with none, so that somebody thought about it.
var cautioned = map[string][]string{
	// a hand measures at the head
	"tip-wear": {safety.MadeDead}, "electrode-wear": {safety.MadeDead}, "photo-gauge": {safety.MadeDead},
	// the head is held over the work, then the arc comes
	"travel-pace": {safety.MadeDead, safety.ArcOn}, "trial-strips": {safety.MadeDead, safety.ArcOn}, "guide-offset": {safety.MadeDead, safety.ArcOn},
	"may-i-cut": {safety.ArcOn, safety.Return}, "cut-plan": {safety.ArcOn}, "rig-table": {safety.ArcOn},
	// something is plugged in
	"supply": {power.Protected}, "generator": {power.Protected}, "site-check": {power.Protected}, "job-plan": {power.Protected, safety.ArcOn, "fire watch"},
	// pressure
	"air-tank": {"relief valve", "Bleed the line"}, "air-hose": {"Bleed the line"}, "air-water": {"Bleed the pressure"},
	"duty":         {"Leave the machine on", "manual"},
	"face-grade":   {"hot", "sharp"},
	"piece-weight": {"hands and feet out from under"},
	"eye-shade":    {"Start too dark, go lighter"}, "fire-watch": {"You stay, or a named person does"}, "fume": {"even when well", "competent person"},
	"spares":     {"Never mix"},
	"noise-dose": {"plugs"}, "work-lead": {safety.Return},
	// layouts
	"bevel-cut":   {safety.Rehearse, safety.ArcOn, "procedure"},
	"arc-offsets": {safety.MadeDead, safety.ArcOn, "wanders"},
	"circle-hole": {safety.MadeDead, safety.ArcOn},
	"fault-rank":  nil, "calibration": nil, "air-flow": nil, "job-cost": nil, "gauge": nil, "convert": nil,
	"frame-lengths":   {safety.ArcOn},
	"gouge":           {safety.MadeDead, safety.ArcOn, "Louder than cutting", "Melt flies far", safety.Fitted, "smear a crack shut", "manual"},
	"bracket-develop": {"measure it", safety.ArcOn},
}

// TestCautioned: every good vector's answer carries the cautions of its
// calculator.
func TestCautioned(t *testing.T) {
	cases := load(t)
	for _, c := range All() {
		want, thought := cautioned[c.Name]
		answers := 0
		for _, v := range cases[c.Name] {
			var told struct {
				Cautions []string
				Error    any
			}
			if err := json.Unmarshal(reply(c.Name, v.Input), &told); err != nil {
				t.Fatal(err)
			}
			if told.Error != nil {
				continue
			}
			answers++
			all := strings.Join(told.Cautions, "\n")
			if !thought && all == "" {
				t.Errorf("%s, %s: it carries no caution, and nobody said here that it needs none", c.Name, v.Name)
			}
			for _, w := range want {
				if !strings.Contains(all, w) {
					t.Errorf("%s, %s: does not say %q", c.Name, v.Name, w)
				}
			}
		}
		if answers == 0 {
			t.Errorf("%s: no answer was looked at", c.Name)
		}
	}
}

// TestDeadWhereAHandMeasures: whoever is asked for the tip's bore or the
// electrode's pit has a hand in the head.
func TestDeadWhereAHandMeasures(t *testing.T) {
	seen := 0
	cases := load(t)
	for _, c := range All() {
		for _, v := range cases[c.Name] {
			var given map[string]any
			if json.Unmarshal(v.Input, &given) != nil {
				continue
			}
			for _, key := range []string{"cup", "rim", "largest", "smallest", "pit", "depth", "tip_reading"} {
				asked := slices.ContainsFunc(c.Fields, func(f form.Field) bool { return f.Key == key })
				if !asked || given[key] == nil {
					continue
				}
				answer := string(reply(c.Name, v.Input))
				if strings.Contains(answer, `"error"`) {
					continue
				}
				seen++
				if !strings.Contains(answer, safety.MadeDead) {
					t.Errorf("%s, %s: asks for %s, and says nothing of a dead torch", c.Name, v.Name, key)
				}
			}
		}
	}
	if seen < 20 {
		t.Errorf("only %d answers were looked at", seen)
	}
}
