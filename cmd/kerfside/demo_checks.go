package main

import (
	"maps"
	"time"
)

// look writes the inspection before the day's work.
func (t *demoTruck) look() {
	const guide = "torch-inspection"
	t.tap("guide.opened", nil, body{"guide": guide})
	for _, one := range demoLook {
		answer := body{"guide": guide, "step": one.step, "result": "done"}
		if one.slot != "" {
			answer["slot"], answer["result"] = one.slot, "good"
		}
		if p := t.parts[one.slot]; p != nil {
			answer["part"] = p.id
			if p.used > 0.55 && (one.slot == "tip" || one.slot == "electrode") {
				answer["result"] = "worn"
			}
		}
		t.tap("check.answered", nil, answer)
		if one.step == "tip-size" || one.step == "electrode-pit" {
			t.read(one.slot, nil, nil)
		}
	}
	t.wait(6 * time.Minute)
}

// glance writes a quick look, of which each step was done.
func (t *demoTruck) glance() {
	t.tap("guide.opened", nil, body{"guide": "quick-look"})
	for _, step := range demoGlance {
		t.tap("check.answered", nil, body{"guide": "quick-look", "step": step, "result": "done"})
	}
}

// gate answers what could kill, and clears what it stopped for. Today nothing stops it.
func (t *demoTruck) gate(site string, today bool) {
	answers := body{"what": "open", "behind": "open", "near": "clear", "place": "open", "coating": "bare", "wet": "no"}
	told := body{"step": "asked", "result": "go"}
	switch {
	case today:
	case t.likely(0.12):
		answers["behind"] = "unknown"
		told = body{"step": "behind", "result": "fail", "says": "not known what is behind", "by": "you"}
	case t.likely(0.1):
		answers["wet"] = "yes"
		told = body{"step": "wet", "result": "fail", "says": "something is wet", "by": "you"}
	case t.likely(0.3):
		answers["coating"] = "painted"
		told["result"] = "conditions"
	case site == "yard":
		answers["place"] = "workshop"
		told["result"] = "conditions"
	}
	maps.Copy(told, body{"guide": "may-i-cut", "rig": t.rig, "site": t.demoCrew.id(site), "answers": answers, "took": t.in(25, 80) * 1000})
	asked := t.tap("check.answered", nil, told)
	if told["result"] == "fail" {
		t.wait(4 * time.Minute)
		done := map[any]string{"behind": "Looked: nothing behind it", "wet": "Moved to a dry place"}[told["step"]]
		t.tap("check.cleared", nil, body{"of": asked, "why": done})
	}
}
