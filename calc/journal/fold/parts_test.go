package fold

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestFittedParts: what is in each torch, with the photo that it was read off.
func TestFittedParts(t *testing.T) {
	s := (&script{T: t}).
		Add("rig", 0, "rig.set", `{'name':'Truck 1'}`, about("rig-1")).
		Add("fit", 0, "part.fitted", `{'slot':'tip','rig':'rig-1'}`, about("p-1")).
		Add("arc", 3*minute, "arc.run", run(minute, 2*minute, "rig-1")).
		Add("photo", 4*minute, "photo.added", `{'sha256':'ab'}`).
		Add("read-1", 5*minute, "part.reading", `{'dmax':1200,'photo':'`+id("photo")+`'}`, about("p-1")).
		Add("read-2", 6*minute, "part.reading", `{'dmax':1210}`, about("p-1")).
		Add("arc-2", 9*minute, "arc.run", run(7*minute, 8*minute, "rig-1"))
	p := foldOf(s).FittedParts().Rigs[0].Parts[0]
	if p.Part != "p-1" || p.Ms != 2*minute || p.ReadMs != minute || p.ReadStarts != 1 || string(p.Reading) != `{"dmax":1210}` {
		t.Errorf("p-1 = %+v", p)
	}
	if !sameJSON(p.Photo, PartPhoto{ID: id("photo"), At: t0 + 4*minute, Body: []byte(`{"sha256":"ab"}`)}) {
		t.Errorf("its photo is %+v", p.Photo)
	}
	s.Add("gone", 10*minute, "void", `{'of':'`+id("photo")+`'}`).Add("two", 10*minute, "part.fitted", `{'slot':'tip','rig':'rig-1'}`, about("p-2"))
	v := foldOf(s).FittedParts().Rigs[0]
	if len(v.Parts) != 2 || v.Parts[0].Photo != nil || len(v.Parts[0].Check) != 1 || v.Name != "Truck 1" || v.Ms != 2*minute {
		t.Errorf("two tips: %+v", v)
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

// TestFittedAreThoseNow: what is fitted is what the view now shows in each rig.
func TestFittedAreThoseNow(t *testing.T) {
	laws(t, func(t *rapid.T) {
		f := foldAll(genJournal(t))
		fitted := f.FittedParts().Rigs
		for i, r := range f.Now().Rigs {
			var parts []PartNow
			for _, p := range fitted[i].Parts {
				parts = append(parts, p.PartNow)
			}
			if fitted[i].Rig != r.Rig || len(parts) != len(r.Parts) || len(parts) > 0 && !sameJSON(parts, r.Parts) {
				t.Fatalf("fitted %+v, now %+v", fitted[i], r)
			}
		}
	})
}
