package safety

import (
	"testing"

	"kerfside/calc/unit"
)

// Every combination of answers: a watch is always set, never under the floor;
// each yes adds its reason and none is lost; only fuel that stays stops the cut.
func TestWatchEveryAnswer(t *testing.T) {
	for bits := range 1 << 6 {
		yes := func(i int) bool { return bits>>i&1 == 1 }
		for _, done := range []string{"moved", "shielded", "neither"} {
			in := WatchInput{Near: yes(0), Done: done, Far: yes(1), Openings: yes(2), Behind: yes(3), Larger: yes(4), Smoulder: yes(5), Rule: unit.Hour}
			got, err := ComputeWatch(in)
			if err != nil {
				t.Fatalf("%+v: %v", in, err)
			}
			reasons := 0
			for i := range 6 {
				if yes(i) {
					reasons++
				}
			}
			want := "watch anyway"
			if reasons > 0 {
				want = "watch required"
			}
			if in.Near && done == "neither" {
				want = "stop"
			}
			if got.Verdict != want || len(got.Reasons) != reasons || got.Watch < LegalWatch || (got.Further > 0) != in.Smoulder {
				t.Errorf("ComputeWatch(%+v) = %+v, want %s for %d reasons", in, got, want, reasons)
			}
		}
	}
}

// The longest of all rules wins, whatever their order, and what is left never
// grows while time goes by.
func TestWatchIsTheLongest(t *testing.T) {
	for rule := LegalWatch; rule <= 3*unit.Hour; rule += 10 * unit.Minute {
		for local := unit.Duration(0); local <= 3*unit.Hour; local += 10 * unit.Minute {
			last := unit.Duration(1e9)
			for since := unit.Duration(0); since < 4*unit.Hour; since += 15 * unit.Minute {
				got, err := ComputeWatch(WatchInput{Rule: rule, Local: local, Since: since})
				if err != nil || got.Watch != max(rule, local) || got.Left > last || got.Left < 0 || got.Over != (got.Left == 0) {
					t.Errorf("rule %v, local %v, since %v: %+v, %v", rule, local, since, got, err)
				}
				last = got.Left
			}
		}
	}
	if _, err := ComputeWatch(WatchInput{Rule: LegalWatch - 1}); err == nil {
		t.Error("a watch under the legal floor is not refused")
	}
}
