package wear

import (
	"fmt"
	"math"
	"math/rand"
	"os"
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// shot is a made-up picture of a bore beside something round.
type shot struct {
	perMM   float64 // pixels of the picture
	scatter float64 // of a mark, pixels, each way
	marks   int     // on the rim
	lean    float64 // of the camera, degrees
	growth  float64 // of the largest diameter over new
	oval    float64 // largest − smallest over new
	scale   int     // marks on the object
	own     bool    // the object is the tip's own round edge, not a coin beside it
}

const simNew = 1.1 // mm

// take draws the marks. The directions of the lean, of the oval and of the
// first marks are any.
func (s shot) take(r *rand.Rand) PhotoInput {
	across, around := 2*math.Pi*r.Float64(), math.Pi*r.Float64()
	sin, cos := math.Sincos(across)
	deep, squeeze := math.Sincos(s.lean * math.Pi / 180)
	away := 100 + 60*r.Float64() // mm
	seen := func(p spot) spot {  // leaned, as a camera sees it, then off by the scatter
		u, v := cos*p.x+sin*p.y, cos*p.y-sin*p.x
		near := s.perMM * away / (away + v*deep)
		v *= squeeze
		return spot{near*(cos*u-sin*v) + s.scatter*r.NormFloat64() + 1500, near*(sin*u+cos*v) + s.scatter*r.NormFloat64() + 1500}
	}
	alongEdge := func(e ellipse, n int) (list []spot) {
		start := 2 * math.Pi * r.Float64()
		for i := range n {
			one := on(e, 1, start+2*math.Pi*(float64(i)+0.5*(r.Float64()-0.5))/float64(n), 0)
			list = append(list, seen(one[0]))
		}
		return list
	}
	coin, beside := 24.26, spot{15, 6}
	if s.own {
		coin, beside = 8, spot{}
	}
	in := PhotoInput{Width: unit.Length(coin) * unit.Millimetre, Mark: 0.5, New: simNew * unit.Millimetre, Limits: TipLimits{0.15, 0.10}}
	in.Rim = alongEdge(newEllipse(0, 0, simNew*(1+s.growth)/2, simNew*(1+s.growth-s.oval)/2, around), s.marks)
	edge := newEllipse(beside.x, beside.y, coin/2, coin/2, 0)
	if s.scale == 2 {
		for _, p := range on(edge, 2, 2*math.Pi*r.Float64(), 2*math.Pi) {
			in.Scale = append(in.Scale, seen(p))
		}
	} else {
		in.Scale = alongEdge(edge, s.scale)
	}
	return in
}

// worn is whether that tip is to be changed.
func (s shot) worn() bool { return s.growth >= 0.15 || s.oval > 0.10 }

// counts are what came of many pictures.
type counts struct {
	taken, refused             int
	good, change, untold       int
	passed, worn, condemned    int // worn ones told as good; fresh ones told to change
	fresh                      int
	largest, smallest, ovality int // held by the interval
}

func (c *counts) add(t *testing.T, s shot, in PhotoInput) {
	c.taken++
	if s.worn() {
		c.worn++
	} else {
		c.fresh++
	}
	res, err := ComputePhoto(in)
	if err != nil {
		c.refused++
		if p := problem.From(err); p.Hint == "" || p.Kind == problem.Internal {
			t.Errorf("%+v: %v, which says nothing to do", s, err)
		}
		return
	}
	held := func(got, err unit.Length, want float64) int {
		if math.Abs(float64(got)-want*1e-3) <= float64(err) {
			return 1
		}
		return 0
	}
	c.largest += held(res.Largest, res.LargestError, simNew*(1+s.growth))
	c.smallest += held(res.Smallest, res.SmallestError, simNew*(1+s.growth-s.oval))
	c.ovality += held(res.Out, res.OutError, simNew*s.oval)
	switch res.Verdict {
	case tipGood, tipWatch:
		c.good++
		if s.worn() {
			c.passed++
		}
	case tipChange:
		c.change++
		if !s.worn() {
			c.condemned++
		}
	case tipUnknown:
		c.untold++
	}
}

// sweep are the values that the table's pictures are drawn from, all alike likely.
var sweep = struct {
	perMM, scatter, lean, growth, oval []float64
	marks                              []int
}{
	perMM: []float64{15, 25, 40, 60, 80, 120}, scatter: []float64{0.5, 1, 2, 3}, marks: []int{8, 10, 12, 16}, lean: []float64{0, 10, 20, 30},
	growth: []float64{0, 0.05, 0.10, 0.14, 0.16, 0.20, 0.30}, oval: []float64{0, 0.04, 0.08, 0.12},
}

func drawShot(r *rand.Rand) shot {
	of := func(list []float64) float64 { return list[r.Intn(len(list))] }
	return shot{perMM: of(sweep.perMM), scatter: of(sweep.scatter), marks: sweep.marks[r.Intn(len(sweep.marks))], lean: of(sweep.lean), growth: of(sweep.growth), oval: of(sweep.oval), scale: 6, own: r.Intn(2) == 0}
}

// sweepRow is one line of the table: some of the sweep with one thing fixed,
// and what must hold of it, in percent.
type sweepRow struct {
	name    string
	fix     func(*shot)
	refused float64 // at most
}

func sweepRows() (rows []sweepRow) {
	most := map[float64]float64{15: 85, 25: 60, 40: 40, 60: 22, 80: 14, 120: 8}
	for _, v := range sweep.perMM {
		rows = append(rows, sweepRow{name: fmt.Sprintf("%g pixels a mm", v), fix: func(s *shot) { s.perMM = v }, refused: most[v]})
	}
	for _, v := range sweep.scatter {
		rows = append(rows, sweepRow{name: fmt.Sprintf("marks off by %g", v), fix: func(s *shot) { s.scatter = v }, refused: 60})
	}
	for _, v := range []int{5, 7} {
		rows = append(rows, sweepRow{name: fmt.Sprintf("%d marks", v), fix: func(s *shot) { s.marks = v }, refused: 100})
	}
	for _, v := range sweep.marks {
		rows = append(rows, sweepRow{name: fmt.Sprintf("%d marks", v), fix: func(s *shot) { s.marks = v }, refused: 50})
	}
	for _, v := range sweep.lean {
		rows = append(rows, sweepRow{name: fmt.Sprintf("leaning by %g°", v), fix: func(s *shot) { s.lean = v }, refused: 48})
	}
	for _, v := range sweep.growth {
		rows = append(rows, sweepRow{name: fmt.Sprintf("grown by %.0f %%", 100*v), fix: func(s *shot) { s.growth = v }, refused: 48})
	}
	for _, v := range sweep.oval {
		rows = append(rows, sweepRow{name: fmt.Sprintf("oval by %.0f %%", 100*v), fix: func(s *shot) { s.oval = v }, refused: 48})
	}
	return append(rows,
		sweepRow{name: "beside a coin", fix: func(s *shot) { s.own = false }, refused: 48},
		sweepRow{name: "in the tip's own edge", fix: func(s *shot) { s.own = true }, refused: 48},
		sweepRow{name: "two marks", fix: func(s *shot) { s.scale = 2 }, refused: 48},
		sweepRow{name: "40 a mm, off by 1", fix: func(s *shot) { s.perMM, s.scatter = 40, 1 }, refused: 10},
		sweepRow{name: "40 a mm, off by 1, new", fix: func(s *shot) { s.perMM, s.scatter, s.growth, s.oval = 40, 1, 0, 0 }, refused: 10},
		sweepRow{name: "the same, own edge", fix: func(s *shot) { s.perMM, s.scatter, s.growth, s.oval, s.own = 40, 1, 0, 0, true }, refused: 10},
		sweepRow{name: "80 a mm, off by 1, new", fix: func(s *shot) { s.perMM, s.scatter, s.growth, s.oval = 80, 1, 0, 0 }, refused: 5},
	)
}

// TestPhotoSweep draws pictures of bores that are known, as a camera from 100 to
// 160 mm away sees them, and counts what the gauge makes of them: how many it
// refuses, how many worn tips it passes as good and fresh ones it condemns, and
// how often what is told, give or take, holds the true size, which it says of
// 95 in 100.
func TestPhotoSweep(t *testing.T) {
	pictures := 400
	switch {
	case os.Getenv("KERFSIDE_SOAK") != "":
		pictures = 4000
	case os.Getenv("KERFSIDE_LONG") != "":
		pictures = 2000
	}
	t.Logf("%-24s %8s %8s %8s %8s | %8s %8s | %8s %8s %8s", "share of pictures, %", "refused", "untold", "good", "change", "passed", "condemn.", "largest", "smallest", "ovality")
	taken, read, held := 0, 0, 0
	for i, row := range sweepRows() {
		r := rand.New(rand.NewSource(int64(100 + i)))
		var c counts
		for range pictures {
			s := drawShot(r)
			row.fix(&s)
			c.add(t, s, s.take(r))
		}
		kept := c.taken - c.refused
		t.Logf("%-24s %8s %8s %8s %8s | %8s %8s | %8s %8s %8s", row.name, percent(c.refused, c.taken), percent(c.untold, c.taken), percent(c.good, c.taken), percent(c.change, c.taken),
			percent(c.passed, c.worn), percent(c.condemned, c.fresh), percent(c.largest, kept), percent(c.smallest, kept), percent(c.ovality, kept))
		if got := 100 * float64(c.refused) / float64(c.taken); got > row.refused {
			t.Errorf("%s: %.1f %% are refused, want at most %g", row.name, got, row.refused)
		}
		// So few pictures scatter themselves: twice the root of what is expected is let through.
		atMost := func(what string, n, of int, share float64) {
			if most := share * float64(of); float64(n) > most+2*math.Sqrt(most) {
				t.Errorf("%s: %d of %d %s, want at most %.0f %%", row.name, n, of, what, 100*share)
			}
		}
		atMost("largest diameters are outside what is told", kept-c.largest, kept, 0.07)
		atMost("smallest diameters are outside what is told", kept-c.smallest, kept, 0.07)
		atMost("ovalities are outside what is told", kept-c.ovality, kept, 0.07)
		atMost("worn tips pass as good", c.passed, c.worn, 0.01)
		atMost("tips are condemned that are not worn", c.condemned, c.fresh, 0.02)
		taken, read, held = taken+c.taken, read+3*kept, held+c.largest+c.smallest+c.ovality
	}
	if float64(held) < 0.95*float64(read) {
		t.Errorf("what is told holds in %d of %d readings, want 95 %%", held, read)
	}
	t.Logf("tally: %d pictures of known bores measured", taken)
	t.Logf("tally: %d sizes read off pictures", read)
	t.Logf("tally: %d sizes read off pictures within what they may be off by", held)
}

func percent(n, of int) string {
	if of == 0 {
		return "–"
	}
	return fmt.Sprintf("%.1f", 100*float64(n)/float64(of))
}

// TestPhotoTwoMarksNeverPass: where nothing tells the lean, no worn tip is told
// as good, however the camera leaned up to 30°, and however well it is marked.
func TestPhotoTwoMarksNeverPass(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	told := 0
	for range 1500 {
		s := drawShot(r)
		s.scale, s.perMM, s.scatter, s.lean = 2, 120, 0.2, 30*r.Float64()
		s.growth, s.oval = 0.15*r.Float64(), 0.10+0.05*r.Float64()
		if r.Intn(2) == 0 {
			s.growth, s.oval = 0.15+0.1*r.Float64(), 0.1*r.Float64()
		}
		s.growth = max(s.growth, s.oval) // a bore only grows
		res, err := ComputePhoto(s.take(r))
		if err != nil {
			continue
		}
		told++
		if s.worn() && (res.Verdict == tipGood || res.Verdict == tipWatch) {
			t.Errorf("%+v: a worn tip is told as %s", s, res.Verdict)
		}
	}
	if told < 1000 {
		t.Errorf("only %d of 1500 pictures were read", told)
	}
}

// TestPhotoLeanIsTakenOut: marked without any scatter, on its own edge, a bore
// reads the same from wherever it is seen.
func TestPhotoLeanIsTakenOut(t *testing.T) {
	r := rand.New(rand.NewSource(8))
	for range 300 {
		s := drawShot(r)
		s.own, s.scatter, s.lean, s.perMM = true, 0, 30*r.Float64(), 1000
		s.scale = 5 + r.Intn(4)
		res, err := ComputePhoto(s.take(r))
		if err != nil {
			t.Fatalf("%+v: %v", s, err)
		}
		for name, pair := range map[string][2]float64{
			"largest": {float64(res.Largest), simNew * 1e-3 * (1 + s.growth)}, "smallest": {float64(res.Smallest), simNew * 1e-3 * (1 + s.growth - s.oval)}} {
			if math.Abs(pair[0]/pair[1]-1) > 0.005 { // the picture is no parallel one
				t.Errorf("%+v: %s = %g m, want %g", s, name, pair[0], pair[1])
			}
		}
		if lean := unit.Value(res.Lean, "°"); math.Abs(lean-s.lean) > 1 && s.lean > 5 {
			t.Errorf("%+v: lean = %.1f°", s, lean)
		}
	}
}

// TestPhotoSaysWhatHelps: a refusal names what leaves the size open, and what
// it says to do does help.
func TestPhotoSaysWhatHelps(t *testing.T) {
	base := shot{perMM: 40, scatter: 0.5, marks: 12, scale: 6, own: true}
	for _, test := range []struct {
		name        string
		wrong       func(*shot, *PhotoInput)
		field, hint string
	}{
		{name: "few marks that scatter", wrong: func(s *shot, _ *PhotoInput) { s.marks, s.scatter = 8, 1.5 }, field: "rim", hint: "Mark more places on the rim: 8 are few"},
		{name: "from far away", wrong: func(s *shot, _ *PhotoInput) { s.marks, s.scatter, s.perMM = 16, 2.5, 18 }, field: "rim", hint: "come closer"},
		{name: "too small to mark", wrong: func(s *shot, _ *PhotoInput) { s.perMM = 12 }, field: "rim", hint: "come closer"},
		{name: "one mark beside the rim", wrong: func(_ *shot, in *PhotoInput) { in.Rim[4].x, in.Rim[4].y = in.Rim[4].x+25, in.Rim[4].y+25 }, field: "rim", hint: "Mark 5 lies"},
		{name: "half of the rim", wrong: func(_ *shot, in *PhotoInput) {
			in.Rim = in.Rim[:7]
			in.Rim = append(in.Rim, spot{(in.Rim[0].x + in.Rim[1].x) / 2, (in.Rim[0].y + in.Rim[1].y) / 2})
		}, field: "rim", hint: "Mark it all around"},
		{name: "a lean of 45°", wrong: func(s *shot, _ *PhotoInput) { s.lean = 45 }, field: "scale", hint: "Hold it straight above"},
		{name: "an object far too small", wrong: func(_ *shot, in *PhotoInput) { in.Scale = enlarged(in.Scale, 0.1) }, field: "scale", hint: "come closer"},
		{name: "four marks on an edge", wrong: func(_ *shot, in *PhotoInput) { in.Scale = in.Scale[:4] }, field: "scale", hint: "six places"},
	} {
		t.Run(test.name, func(t *testing.T) {
			r := rand.New(rand.NewSource(4))
			refused := 0
			for range 40 {
				s := base
				test.wrong(&s, &PhotoInput{Rim: make([]spot, 12), Scale: make([]spot, 6)})
				in := s.take(r)
				test.wrong(&s, &in)
				_, err := ComputePhoto(in)
				if err == nil {
					continue
				}
				refused++
				p := problem.From(err)
				if p.Kind == problem.Internal {
					t.Fatal(err)
				}
				if p.Field == test.field && strings.Contains(p.Hint, test.hint) {
					return
				}
			}
			t.Errorf("none of %d refusals blames %s and says %q", refused, test.field, test.hint)
		})
	}
}
