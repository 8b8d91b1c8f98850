package cutting

import (
	"encoding/json"
	"fmt"
	"maps"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/source"
)

// everyAnswer calls f with every combination of answers to the gate.
func everyAnswer(f func(GateInput)) {
	choices := map[string][]string{"wet": {"no", "yes"}}
	keys := []string{"wet"}
	for _, field := range MayICut.Calculator().Fields {
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
		"behind": {"unknown"}, "place": {"confined"}, "coating": {"cadmium", "plastic", "beryllium"}, "wet": {"yes"},
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
	for _, field := range MayICut.Calculator().Fields {
		for i, c := range field.Takes.Choices {
			words[answered{field.Key, c.Word}] = true
			if i > 0 {
				in := GateInput{"wet": "no"}
				for _, f := range MayICut.Calculator().Fields {
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
	keys := map[string]bool{}
	for _, r := range gateRules {
		if _, ok := source.Get(r.source); !ok || r.by == "" || r.text == "" || r.name == "" || len(r.when) == 0 {
			t.Errorf("rule %q lacks a source, a clearer, a name or an answer", r.text)
		}
		if kind := fmt.Sprint(r.stops(), r.key); r.key == "" || keys[kind] {
			t.Errorf("rule %q has no key of its own: %q", r.text, r.key)
		} else {
			keys[kind] = true
		}
		for _, w := range r.when {
			if !words[w] {
				t.Errorf("rule %q waits for %s %s, which nobody can answer", r.text, w.key, w.word)
			}
		}
	}
}

// TestStopsSoFar: a stop is told as soon as its answers are given, and no
// answer that follows takes it away; what is not answered brings none.
func TestStopsSoFar(t *testing.T) {
	soFar := func(in GateInput) map[string]bool {
		text, err := json.Marshal(in)
		if err != nil {
			t.Fatal(err)
		}
		a, err := StopsSoFar(text)
		if err != nil {
			t.Fatalf("%v: %v", in, err)
		}
		raw, err := json.Marshal(a)
		if err != nil {
			t.Fatal(err)
		}
		var told struct {
			Results struct {
				Stop []struct{ Key string }
			}
		}
		if err := json.Unmarshal(raw, &told); err != nil {
			t.Fatal(err)
		}
		keys := map[string]bool{}
		for _, s := range told.Results.Stop {
			keys[s.Key] = true
		}
		return keys
	}
	if got := soFar(GateInput{"what": "vessel"}); !got["vessel"] || len(got) != 1 {
		t.Errorf("a tank alone: %v, want its stop", got)
	}
	n := 0
	everyAnswer(func(in GateInput) {
		if n++; n%97 > 0 { // enough of them
			return
		}
		given, before := GateInput{}, map[string]bool{}
		for _, f := range MayICut.Calculator().Fields {
			if got := soFar(given); len(given) == 0 && len(got) > 0 {
				t.Fatalf("a stop before any answer: %v", got)
			}
			given[f.Key] = in[f.Key]
			now := soFar(given)
			for key := range before {
				if !now[key] {
					t.Fatalf("%v takes the stop %s away", given, key)
				}
			}
			before = now
		}
		whole := map[string]bool{}
		for _, s := range ComputeGate(in).Stops {
			whole[s.Key] = true
		}
		if !maps.Equal(before, whole) {
			t.Errorf("%v: %v so far, %v by the gate", in, before, whole)
		}
	})
}

// TestTogether: a sentence that answers several questions at once answers none
// that has a rule, and never what the thing itself is.
func TestTogether(t *testing.T) {
	for _, s := range MayICut.Calculator().Together {
		if f := ComputeGate(s.Says); f.Verdict != "go" || s.Says["what"] != "" || len(s.Says) < 2 {
			t.Errorf("%q: %+v, %v", s.Label, f, s.Says)
		}
		for key, word := range s.Says {
			r := form.NewReader(MayICut.Calculator(), map[string]any{key: word})
			if key == "wet" {
				form.GetYes(r, key)
			} else {
				form.GetWord(r, key)
			}
			if err := r.Err(); err != nil {
				t.Errorf("%q: %v", s.Label, err)
			}
		}
	}
}

// TestWays: each stop can be cleared by what its hazard asks for, and by
// leaving the work alone.
func TestWays(t *testing.T) {
	stops := Stops()
	if len(stops) != 15 {
		t.Errorf("%d stops, want the 15 of the gate", len(stops))
	}
	for _, s := range stops {
		if n := len(s.Ways); n < 2 || s.Ways[n-1] != leftAlone || s.By == "" {
			t.Errorf("%s: cleared by %q, %q", s.Key, s.Ways, s.By)
		}
	}
}
