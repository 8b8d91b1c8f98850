package event

import (
	"encoding/json"
	"os"
	"testing"

	"pgregory.net/rapid"
)

// TestClockVectors runs the vectors that the phone's clock runs too.
func TestClockVectors(t *testing.T) {
	text, err := os.ReadFile("../../../testdata/journal/clock.json")
	if err != nil {
		t.Fatal(err)
	}
	var vectors struct {
		Stamps []struct {
			Name         string
			Last, Want   Stamp
			Wall, Offset int64
		}
		Settles []struct {
			Name              string
			Last, Known, Want Stamp
			Unsent            bool
		}
	}
	if err := json.Unmarshal(text, &vectors); err != nil {
		t.Fatal(err)
	}
	if len(vectors.Stamps) < 20 || len(vectors.Settles) < 5 {
		t.Fatalf("%d stamps and %d settles: the file was cut", len(vectors.Stamps), len(vectors.Settles))
	}
	for _, v := range vectors.Stamps {
		if got := Next(v.Last, v.Wall, v.Offset); got != v.Want {
			t.Errorf("%s: Next(%v, %d, %d) = %v, want %v", v.Name, v.Last, v.Wall, v.Offset, got, v.Want)
		}
	}
	for _, v := range vectors.Settles {
		if got := Settle(v.Last, v.Known, v.Unsent); got != v.Want {
			t.Errorf("%s: Settle(%v, %v, %t) = %v, want %v", v.Name, v.Last, v.Known, v.Unsent, got, v.Want)
		}
	}
}

// TestClockNeverStandsStill lets the wall clock do what it likes, ten years
// either way: each stamp is above the one before and never behind the clock.
func TestClockNeverStandsStill(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		last := Stamp(0)
		wall := rapid.Int64Range(0, 4e12).Draw(t, "wall")
		for _, jump := range rapid.SliceOfN(rapid.Int64Range(-316e9, 316e9), 1, 40).Draw(t, "jumps") {
			wall += jump
			offset := rapid.Int64Range(-1e12, 1e12).Draw(t, "offset")
			next := Next(last, wall, offset)
			if next <= last {
				t.Fatalf("Next(%v, %d, %d) = %v, not above", last, wall, offset, next)
			}
			if next < StampOf(wall+offset) {
				t.Fatalf("Next(%v, %d, %d) = %v, behind its clock", last, wall, offset, next)
			}
			last = next
		}
	})
}

func TestStampReadsWhatItPrints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Stamp(rapid.Uint64().Draw(t, "stamp"))
		if got, err := ParseStamp(s.String()); err != nil || got != s {
			t.Errorf("ParseStamp(%q) = %v, %v", s.String(), got, err)
		}
	})
	for _, bad := range []string{"", "0", "0199F3C0B4000000", "+199f3c0b400000", "0199f3c0b40000000", "0199f3c0b400000g"} {
		if s, err := ParseStamp(bad); err == nil {
			t.Errorf("ParseStamp(%q) = %v, want an error", bad, s)
		}
	}
}
