package fold

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestPhoto: a part's photo is found by its event until it is taken out.
func TestPhoto(t *testing.T) {
	s := (&script{T: t}).Add("photo", 4*minute, "photo.added", `{'sha256':'ab'}`)
	if p := foldOf(s).Photo(id("photo")); !sameJSON(p, PartPhoto{ID: id("photo"), At: t0 + 4*minute, Body: []byte(`{"sha256":"ab"}`)}) {
		t.Errorf("the photo is %+v", p)
	}
	s.Add("gone", 10*minute, "void", `{'of':'`+id("photo")+`'}`)
	if p := foldOf(s).Photo(id("photo")); p != nil {
		t.Errorf("it was taken out, and is %+v", p)
	}
	if p := foldOf(s).Photo(id("gone")); p != nil {
		t.Errorf("what is no photo is %+v", p)
	}
}

// TestPartsPageIsThatOfLives: pages of any size make up one list, in the order of the lives
// of these parts, and say the same of each.
func TestPartsPageIsThatOfLives(t *testing.T) {
	laws(t, func(t *rapid.T) {
		f := foldAll(genJournal(t))
		slot, rig := rapid.SampledFrom([]string{"", "tip"}).Draw(t, "slot"), rapid.SampledFrom([]string{"", "rig-1", "rig-2"}).Draw(t, "rig")
		var rows []PartRow
		for before, more := "", true; more; {
			page := f.PartsPage(before, rapid.IntRange(1, 3).Draw(t, "size"), slot, rig)
			rows = append(rows, page.Parts...)
			if more = page.More; len(page.Parts) > 0 {
				before = page.Parts[len(page.Parts)-1].Part
			} else if more {
				t.Fatal("an empty page says that more follow")
			}
			if page.Total != len(f.Lives(rig, slot, 1<<30).Lives) {
				t.Fatalf("%d in all", page.Total)
			}
		}
		want := f.Lives(rig, slot, 1<<30).Lives
		if len(rows) != len(want) {
			t.Fatalf("%d rows, %d lives", len(rows), len(want))
		}
		for i, l := range want {
			r := rows[i]
			if r.Part != l.Part || r.Slot != l.Slot || r.Line != l.Line || r.From != l.From || r.To != l.To || r.Ended != l.Ended || r.Failed != l.Failed || r.Ms != l.Ms ||
				r.Starts != l.Starts || r.Readings != len(l.Readings) || !slices.Contains(l.Rigs, r.Rig) || !slices.Equal(r.Same, l.Same) {
				t.Fatalf("row %+v, life %+v", r, l)
			}
		}
	})
}
