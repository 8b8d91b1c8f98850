package guides

import (
	"slices"
	"strings"
	"testing"
)

func TestWords(t *testing.T) {
	for _, line := range strings.Split(read(t, "../testdata/guides/words.txt"), "\n") {
		text, want, ok := strings.Cut(line, "=>")
		if !ok || strings.HasPrefix(line, "#") {
			continue
		}
		if got, want := Words(text), strings.Fields(want); !slices.Equal(got, want) {
			t.Errorf("Words(%q) = %q, want %q", text, got, want)
		}
	}
}

// Folding twice changes nothing, or a query would miss what it was made from.
func TestSynonymsAreFolded(t *testing.T) {
	for _, group := range same {
		for _, phrase := range group {
			if got := Words(phrase); !slices.Equal(got, []string{group[0]}) {
				t.Errorf("Words(%q) = %q, want the group's word %q", phrase, got, group[0])
			}
			if n := strings.Count(phrase, " ") + 1; n > longestPhrase {
				t.Errorf("%q has %d words, more than are looked at together", phrase, n)
			}
		}
	}
}

func TestSearchIndexOfShipped(t *testing.T) {
	lib := shipped(t)
	ix := newSearchIndex(lib.guides)
	for word, entries := range ix.Words {
		if !slices.IsSorted(entries) {
			t.Errorf("entries of %q are not in order", word)
		}
		for _, e := range entries {
			if e/8 >= len(ix.Docs) || e%8 < inText || e%8 > inTitle {
				t.Errorf("entry %d of %q points nowhere", e, word)
			}
		}
	}
	// What people call things finds the step that shows them.
	for _, c := range []struct{ word, guide, step string }{
		{word: "retaining cap", guide: "torch-inspection", step: "cup-holes"},
		{word: "swirl ring", guide: "torch-inspection", step: "diffuser"},
		{word: "slag", guide: "reading-the-cut", step: "dross"},
		{word: "genset", guide: "generator-and-cord", step: "generator"},
		{word: "moisture", guide: "air-and-trap", step: "trap"},
		{word: "earth clamp", guide: "work-clamp"},
		{word: "arc eye", guide: "worst-day", step: "arc-eye"},
		{word: "GFCI", guide: "generator-and-cord", step: "rcd"},
		{word: "blow through", guide: "pierce"},
		{word: "4T", guide: "trigger-and-lead", step: "mode"},
		{word: "plunger", guide: "trigger-and-lead", step: "slide"},
		{word: "neutral", guide: "shared-power", step: "neutral"},
		{word: "safety valve", guide: "upkeep", step: "belt-and-valve"},
		{word: "dust mask", guide: "respirator", step: "choose"},
		{word: "lug nut", guide: "vehicle-extras"},
		{word: "expanded metal", guide: "mesh-and-grating"},
		{word: "fishmouth", guide: "saddle"},
		{word: "chamfer", guide: "cut-a-bevel"},
		{word: "balance point", guide: "let-go", step: "balance"},
	} {
		found := slices.ContainsFunc(ix.Words[Words(c.word)[0]], func(e int) bool {
			d := ix.Docs[e/8]
			return d.Guide == c.guide && d.Step == c.step
		})
		if !found {
			t.Errorf("%q does not find %s#%s", c.word, c.guide, c.step)
		}
	}
	if n := len(lib.SearchJSON()); n > 112<<10 { // a third of it over the air
		t.Errorf("the search index is %d bytes; keep it under 112 KiB for the phone", n)
	}
}
