package guides

import (
	"slices"
	"strings"
	"testing"
)

func shipped(t testing.TB) *Library {
	t.Helper()
	lib, err := Load(Files)
	if err != nil {
		t.Fatalf("the shipped guides have faults:\n%v", err)
	}
	return lib
}

func TestShippedGuides(t *testing.T) {
	lib := shipped(t)
	steps := 0
	for _, e := range lib.Index() {
		steps += len(e.Steps)
	}
	if n := len(lib.Index()); n < 15 || steps < 120 {
		t.Errorf("%d guides with %d steps, want at least 15 and 120", n, steps)
	}
	for _, id := range []string{"bring-up", "torch-inspection", "worst-day", "edge-start", "pierce", "reading-the-cut",
		"work-clamp", "air-and-trap", "pack-up-and-fire-watch", "changing-parts", "hazards", "storage-and-weather", "shade-card", "sheet-gauge-card", "dross-card", "wear-limits-card",
		"make-dead", "quick-look", "trigger-and-lead", "mesh-and-grating", "saddle", "cut-a-hole", "cut-a-bevel", "gouge", "let-go"} {
		if _, err := lib.Guide(id); err != nil {
			t.Errorf("Guide(%q): %v", id, err)
		}
	}
}

// The order in which a torch is made dead and taken apart is a matter of life;
// it follows 29 CFR 1910.147 (off, isolated, stored energy relieved) and then
// the order in which the parts come off.
func TestInspectionOrder(t *testing.T) {
	g, err := shipped(t).Guide("torch-inspection")
	if err != nil {
		t.Fatal(err)
	}
	var ids, slots []string
	for _, st := range g.Steps {
		ids = append(ids, st.ID)
		if st.Slot != "" && !slices.Contains(slots, st.Slot) {
			slots = append(slots, st.Slot)
		}
	}
	if want := []string{"after-flow", "unplug", "cool", "bleed"}; !slices.Equal(ids[:4], want) {
		t.Errorf("the inspection starts with %q, want %q", ids[:4], want)
	}
	if want := []string{"cup", "tip", "diffuser", "electrode", "o-ring", "head"}; !slices.Equal(slots, want) {
		t.Errorf("parts in the order %q, want %q", slots, want)
	}
	for _, st := range g.Steps[:4] {
		if st.Slot != "" {
			t.Errorf("step %s is about the %s before the torch is dead", st.ID, st.Slot)
		}
	}
}

// The quick look goes from what is free to the head, takes the parts as they
// come off, and holds them to the limits of the full inspection.
func TestQuickLook(t *testing.T) {
	lib := shipped(t)
	quick, err := lib.Guide("quick-look")
	if err != nil {
		t.Fatal(err)
	}
	full, _ := lib.Guide("torch-inspection")
	var ids []string
	for _, st := range quick.Steps {
		if slices.Contains([]string{"drain", "clamp", "cup-holes", "tip", "electrode"}, st.ID) {
			ids = append(ids, st.ID)
		}
	}
	if want := []string{"drain", "clamp", "cup-holes", "tip", "electrode"}; !slices.Equal(ids, want) {
		t.Errorf("the quick look goes %q, want %q", ids, want)
	}
	for id, like := range map[string]string{"cup-holes": "cup-holes", "tip": "tip-size", "electrode": "electrode-pit"} {
		st, of := quick.Step(id), full.Step(like)
		if st.Slot != of.Slot {
			t.Errorf("quick-look#%s is about the %q, torch-inspection#%s about the %q", id, st.Slot, like, of.Slot)
		}
		for _, r := range st.Readings {
			if !slices.ContainsFunc(of.Readings, func(f Reading) bool { return f.Key == r.Key && f.Quantity == r.Quantity }) {
				t.Errorf("quick-look#%s reads %s, which torch-inspection#%s does not", id, r.Key, like)
			}
		}
		for _, limit := range []string{"15 in 100", "1.5 mm (1/16 in)", "off to one side"} {
			if strings.Contains(of.Change, limit) && !strings.Contains(st.Change, limit) {
				t.Errorf("quick-look#%s: Change when does not say %q", id, limit)
			}
		}
	}
}

// Limits are stated as the app reckons them: 15 and 10 in 100 for the tip,
// 1.5 mm for the electrode (common practice, no published source).
func TestInspectionLimits(t *testing.T) {
	g, _ := shipped(t).Guide("torch-inspection")
	for id, words := range map[string][]string{
		"tip-size":      {"15 in 100", "10 in 100"},
		"electrode-pit": {"1.5 mm (1/16 in)", "off to one side"},
		"tip-edge":      {"nick", "keyhole"},
		"diffuser":      {"chip", "crack", "melted", "scorched"},
	} {
		for _, w := range words {
			if st := g.Step(id); st == nil || !strings.Contains(st.Change, w) {
				t.Errorf("torch-inspection#%s: Change when does not say %q", id, w)
			}
		}
	}
}

// The card must be readable at once: no answers to give, numbered lists.
func TestWorstDay(t *testing.T) {
	g, err := shipped(t).Guide("worst-day")
	if err != nil {
		t.Fatal(err)
	}
	if g.Form != "card" || g.Place != "safety" {
		t.Errorf("worst-day is a %s in %s, want a card in safety", g.Form, g.Place)
	}
	for _, id := range []string{"shock", "burn", "arc-eye", "gas", "fire", "call"} {
		if g.Step(id) == nil {
			t.Errorf("worst-day says nothing about %s", id)
		}
	}
}
