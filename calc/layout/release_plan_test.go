package layout

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kerfside/calc/unit"
)

const metre = unit.Metre

// drawRelease draws a piece with holds and cuts that do not meet.
func drawRelease(t *rapid.T) ReleaseInput {
	in := ReleaseInput{Length: 6 * metre, Weight: 120}
	if rapid.Bool().Draw(t, "uneven") {
		in.Balance = unit.Length(rapid.Float64Range(2.1, 3.9).Draw(t, "balance"))
	}
	for range rapid.IntRange(0, 5).Draw(t, "holds") {
		in.Holds = append(in.Holds, Hold{Kind: rapid.SampledFrom([]string{Stand, Strap, Clamp, Weld, BuiltIn}).Draw(t, "kind"), At: unit.Length(rapid.IntRange(0, 12).Draw(t, "at")) * metre / 2, Angle: 90 * unit.Degree})
	}
	for _, n := range rapid.SliceOfNDistinct(rapid.IntRange(1, 5), 1, 4, rapid.ID[int]).Draw(t, "cuts") {
		in.Cuts = append(in.Cuts, LetGo{At: unit.Length(n)*metre + metre/4, Drops: rapid.SampledFrom([]string{"nothing", "left", "right"}).Draw(t, "drops")})
	}
	return in
}

// TestReleaseLaws: pieces weigh together what the whole does and balance where it does;
// what a hold carries is no more than its piece; the best order is no worse than any
// other, and than the given one.
func TestReleaseLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawRelease(t)
		res, err := ComputeRelease(in)
		if err != nil {
			t.Fatal(err)
		}
		_, whole := in.weigh(0, in.Length)
		rank := func(states []State) (worst int) {
			for _, s := range states {
				f, _ := s.Worst()
				worst = max(worst, f.rank())
				m, mx := unit.Mass(0), 0.0
				for _, b := range s.Bodies {
					m += b.Weight
					mx += float64(b.Weight) * float64(b.At)
					for _, c := range b.Carry {
						if c.Low < 0 || c.High > b.Weight*(1+1e-9) || c.Low > c.High {
							t.Errorf("a hold carries %v to %v of %v", c.Low, c.High, b.Weight)
						}
					}
				}
				if math.Abs(float64(m-in.Weight)) > 1e-9*120 || math.Abs(mx/120-whole.x) > 1e-9*6 {
					t.Errorf("the pieces weigh %v and balance at %v, want %v and %v", m, mx/120, in.Weight, whole.x)
				}
			}
			return worst
		}
		best, given := rank(res.Best), rank(res.Given)
		if best > given {
			t.Errorf("the best order ends at rank %d, the given one at %d", best, given)
		}
		// Another order, by chance.
		other := rapid.Permutation(res.Order).Draw(t, "another order")
		turned := in
		turned.Cuts = nil
		for _, i := range other {
			turned.Cuts = append(turned.Cuts, in.Cuts[i])
		}
		again, err := ComputeRelease(turned)
		if err != nil {
			t.Fatal(err)
		}
		if got := rank(again.Given); got < best {
			t.Errorf("order %v ends at rank %d, the best at %d", other, got, best)
		}
		if got := rank(again.Best); got != best {
			t.Errorf("the best of the same cuts ends at rank %d, and at %d", got, best)
		}
	})
}

// TestReleaseMirrored: a piece seen from its other side has the same fates.
func TestReleaseMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawRelease(t)
		seen := in
		seen.Holds, seen.Cuts = slices.Clone(in.Holds), slices.Clone(in.Cuts)
		if in.Balance > 0 {
			seen.Balance = in.Length - in.Balance
		}
		for i := range seen.Holds {
			seen.Holds[i].At = in.Length - in.Holds[i].At
		}
		for i, c := range in.Cuts {
			seen.Cuts[i].At = in.Length - c.At
			seen.Cuts[i].Drops = map[string]string{"left": "right", "right": "left", "nothing": "nothing"}[c.Drops]
		}
		a, err := ComputeRelease(in)
		if err != nil {
			t.Fatal(err)
		}
		b, err := ComputeRelease(seen)
		if err != nil {
			t.Fatal(err)
		}
		for i := range a.Given {
			n := len(a.Given[i].Bodies)
			for k, body := range a.Given[i].Bodies {
				if got := b.Given[i].Bodies[n-1-k]; got.Fate != body.Fate || math.Abs(float64(got.Clear-body.Clear)) > 1e-9 {
					t.Errorf("state %d: from one side %s, %v from tipping; from the other %s, %v", i, body.Fate, body.Clear, got.Fate, got.Clear)
				}
			}
		}
	})
}

// TestReleaseTaper: a rafter of 25 ft that is 14 in deep at one end and 10 in at the other
// balances 11.8 ft from the large end (R. G. Hatfield, The American House-Carpenter, 1880,
// art. 85, second-hand); given that, the heavier half weighs (14 + 12)/(2·24) of it, by the
// area of its face.
func TestReleaseTaper(t *testing.T) {
	const large, small = 14.0, 10.0
	balance := (2*small + large) / (3 * (small + large))
	if math.Abs(25*balance-11.8) > 0.05 {
		t.Fatalf("a face of those depths balances at %v ft, want 11.8", 25*balance)
	}
	in := ReleaseInput{Length: 25 * unit.Foot, Weight: 100, Balance: unit.Length(balance) * 25 * unit.Foot}
	half, _ := in.weigh(0, in.Length/2)
	if want := (large + 12) / (2 * (large + small)) * 100; math.Abs(float64(half)-want) > 1e-9 {
		t.Errorf("the heavier half weighs %v, want %v", half, want)
	}
}

// TestReleaseVerdicts: what is said of each sort of ending, and what is not.
func TestReleaseVerdicts(t *testing.T) {
	const base = `"length": "3m", "weight": "60kg"`
	for _, c := range []struct {
		name, in    string
		says, words string
		never       string
	}{
		{name: "held on two straps", in: `"holds": "built-in 0m; strap 0.9m; strap 2.5m", "cuts": "0.4m", "spring": "no"`, says: "holds", words: "as far as statics say", never: "safe"},
		{name: "the end drops first", in: `"holds": "built-in 0m; strap 0.8m; strap 1.6m", "cuts": "0.4m name=root; 2.4m name=stub drops=right", "spring": "no"`, says: "other-order",
			words: "Not in that order. After root: the piece from 400 mm to 3000 mm swings, its right end goes down. First stub, then root."},
		{name: "nothing under the end", in: `"holds": "built-in 0m; strap 0.8m; strap 1.6m", "cuts": "0.4m name=root; 2.4m name=stub", "spring": "no"`, says: "none", words: "No order of these cuts holds it. After root: the piece from 400 mm to 3000 mm swings, its right end goes down. Take it up first, by a hoist"},
		{name: "one stand, no more", in: `"holds": "built-in 0m; stand 2m", "cuts": "0.5m", "spring": "no"`, says: "none", words: "tips, its left end goes down"},
		{name: "nothing at all", in: `"cuts": "1m", "holds": "built-in 0m", "spring": "no"`, says: "none", words: "the piece from 1000 mm to 3000 mm falls: nothing holds it."},
		{name: "a weld", in: `"holds": "weld 0m; weld 3m", "cuts": "2m", "spring": "no"`, says: "unknown", words: "nobody knows how much that holds"},
		{name: "near the edge", in: `"holds": "built-in 0m; strap 1m; strap 1.8m", "cuts": "0.5m", "spring": "no"`, says: "edge", words: "is 50 mm from tipping"},
		{name: "past its tag", in: `"holds": "built-in 0m; strap 1m rated=10kg; strap 2.6m", "cuts": "0.5m", "spring": "no"`, says: "over", words: "may put 27 kg on the strap at 1000 mm, which is rated for 10 kg"},
		{name: "bent", in: `"holds": "built-in 0m; strap 0.9m; strap 2.5m", "cuts": "0.4m", "spring": "unsure"`, says: "unknown", words: "it may spring when it is cut"},
		{name: "as it is", in: `"holds": "stand 0.5m; stand 2.5m", "spring": "no"`, says: "holds", words: "Enter the cuts"},
		{name: "not even as it is", in: `"holds": "stand 0.5m; stand 1m", "spring": "no"`, says: "none", words: "Before any cut: the whole piece tips, its right end goes down. Hold it before you cut."},
		{name: "under a hook", in: `"holds": "strap 0.5m; strap 2.5m", "rigging": "hook", "hook_at": "1.5m", "hook_height": "1m", "spring": "no"`, says: "holds", words: "as far as statics say"},
		{name: "beside a hook", in: `"holds": "strap 0.5m; strap 2.5m", "rigging": "hook", "hook_at": "1.8m", "hook_height": "1m", "spring": "no"`, says: "none", words: "swings, its left end goes down, up to 17° from level."},
		{name: "out to the side of a hook", in: `"holds": "strap 0.5m across=-0.5m; strap 0.5m across=0.5m; strap 2.5m across=-0.5m; strap 2.5m across=0.5m", "across": "0.3m", "rigging": "hook", "hook_at": "1.5m", "hook_height": "1m", "spring": "no"`,
			says: "none", words: "swings, its near or far side goes down, up to 17° from level."},
		{name: "past the straps below a hook", in: `"holds": "strap 0.5m; strap 1.2m", "rigging": "hook", "hook_at": "1m", "hook_height": "1m", "spring": "no"`, says: "none", words: "swings, its right end goes down. Hold it"},
		{name: "straps that lean to points of their own", in: `"holds": "built-in 0m; strap 0.9m lean=60°; strap 2.5m lean=60°", "cuts": "0.4m name=root", "spring": "no"`, says: "unknown", words: "After root: the piece from 400 mm to 3000 mm is pulled sideways by a strap that leans"},
		{name: "straps that are all but plumb", in: `"holds": "strap 0.9m lean=86°; strap 2.5m lean=86°", "spring": "no"`, says: "holds", words: "as it is"},
		{name: "a hook and a stand", in: `"holds": "strap 0.5m; stand 2.5m", "rigging": "hook", "hook_at": "1.2m", "hook_height": "1m", "spring": "no"`, says: "unknown", words: "pulled sideways"},
		{name: "a hook straight above, and a stand", in: `"holds": "strap 0.5m; stand 2.5m", "rigging": "hook", "hook_at": "0.5m", "hook_height": "1m", "spring": "no"`, says: "holds", words: "as it is"},
		{name: "only near to tipping in another order", in: `"holds": "built-in 0m; strap 0.8m; strap 1.45m", "cuts": "0.4m name=root; 2.4m name=stub drops=right", "spring": "no"`, says: "edge",
			words: "After root: the piece from 400 mm to 2400 mm is 50 mm from tipping: nobody knows its balance point that well. Move a hold, so that it lies well between. That is in the best order: first stub, then root. Yours is worse. After root: the piece from 400 mm to 3000 mm swings, its right end goes down."},
	} {
		a, err := ReleasePlan.Calculator().Calculate([]byte("{" + base + ", " + c.in + "}"))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		says, _ := a.Results().Get("says")
		verdict, _ := a.Results().Get("verdict")
		if says != c.says || !strings.Contains(fmt.Sprint(verdict), c.words) {
			t.Errorf("%s: %s, %q; want %s and %q", c.name, says, verdict, c.says, c.words)
		}
		if c.never != "" && strings.Contains(fmt.Sprint(verdict), c.never) {
			t.Errorf("%s says %q", c.name, verdict)
		}
		if _, told := a.Results().Get("last"); told != (len(strings.Split(c.in, `"cuts"`)) > 1 && (c.says == "holds" || c.says == "other-order")) {
			t.Errorf("%s: a last cut is told: %v", c.name, told)
		}
	}
}
