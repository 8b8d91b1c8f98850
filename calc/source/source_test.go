package source

import "testing"

// TestNobodysSource: behind each source stands somebody, but for what the
// authors judged and what is common practice.
func TestNobodysSource(t *testing.T) {
	twice := map[ID]bool{}
	for _, s := range Listed() {
		id := s.ID
		if twice[id] {
			t.Errorf("%s stands in two lists", id)
		}
		twice[id] = true
		if s.Title == "" || s.By == "" && s.Standing != Judgement && id != "from-memory" {
			t.Errorf("%s: by %q, title %q", id, s.By, s.Title)
		}
	}
}

// TestCite: a title that begins with its author or body does not name them twice.
func TestCite(t *testing.T) {
	for id, want := range map[ID]string{
		"iso-6358":     "ISO 6358-1, Flow-rate characteristics of components using compressible fluids, C and b, second-hand",
		"pearl-1988":   "Pearl, Probabilistic Reasoning in Intelligent Systems (1988), noisy-OR, p. 184, second-hand",
		CommonPractice: "common practice, no published source",
		"from-memory":  "from memory, verify before relying on it",
	} {
		if s, _ := Get(id); s.Cite() != want {
			t.Errorf("%s is cited as %q, want %q", id, s.Cite(), want)
		}
	}
}
