package cutting

import (
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/source"
)

// everyAnswer calls f with every combination of answers to the gate.
func everyAnswer(f func(GateInput)) {
	choices := map[string][]string{"wet": {"no", "yes"}}
	keys := []string{"wet"}
	for _, field := range MayICut.Fields {
		if field.Takes.Kind != form.KindChoice {
			continue
		}
		keys = append(keys, field.Key)
		for _, c := range field.Takes.Choices {
			choices[field.Key] = append(choices[field.Key], c.Word)
		}
	}
	in := GateInput{}
	var next func(i int)
	next = func(i int) {
		if i == len(keys) {
			f(in)
			return
		}
		for _, w := range choices[keys[i]] {
			in[keys[i]] = w
			next(i + 1)
		}
	}
	next(0)
}

// TestGate holds every combination against what must always stop, and against
// the verdict that its findings ask for.
func TestGate(t *testing.T) {
	always := map[string][]string{
		"what": {"vessel", "sealed", "wheel", "strut", "spring", "line"}, "near": {"vapour", "solvent"},
		"behind": {"unknown"}, "place": {"confined"}, "coating": {"cadmium"}, "wet": {"yes"},
	}
	combinations, passes := 0, 0
	everyAnswer(func(in GateInput) {
		combinations++
		got := ComputeGate(in)
		want := "go"
		if len(got.Conditions) > 0 {
			want = "conditions"
		}
		if len(got.Stops) > 0 {
			want = "stop"
		}
		for key, words := range always {
			for _, w := range words {
				if in[key] == w {
					want = "stop"
				}
			}
		}
		if got.Verdict != want {
			t.Errorf("%v: verdict %q, want %q", in, got.Verdict, want)
		}
		if got.Verdict == "go" {
			passes++
		}
	})
	if passes != 1 {
		t.Errorf("%d of %d combinations pass without a word, want only plain plate in the open", passes, combinations)
	}
}

// TestGateRules: every answer that is not the harmless first one brings
// a finding of its own, no rule names an answer that cannot be given, and every
// rule applies somewhere.
func TestGateRules(t *testing.T) {
	words := map[answered]bool{{"wet", "yes"}: true}
	for _, field := range MayICut.Fields {
		for i, c := range field.Takes.Choices {
			words[answered{field.Key, c.Word}] = true
			if i > 0 {
				in := GateInput{"wet": "no"}
				for _, f := range MayICut.Fields {
					if len(f.Takes.Choices) > 0 {
						in[f.Key] = f.Takes.Choices[0].Word
					}
				}
				in[field.Key] = c.Word
				if ComputeGate(in).Verdict == "go" {
					t.Errorf("%s %s brings neither a stop nor a condition", field.Key, c.Word)
				}
			}
		}
	}
	for _, r := range gateRules {
		if _, ok := source.Get(r.source); !ok || r.by == "" || r.text == "" || len(r.when) == 0 {
			t.Errorf("rule %q lacks a source, a clearer or an answer", r.text)
		}
		for _, w := range r.when {
			if !words[w] {
				t.Errorf("rule %q waits for %s %s, which nobody can answer", r.text, w.key, w.word)
			}
		}
	}
}
