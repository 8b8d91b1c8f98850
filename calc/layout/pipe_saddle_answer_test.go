package layout

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

func saddleAnswer(t *testing.T, values map[string]any) *form.Answer {
	t.Helper()
	all := map[string]any{"header_size": "3in", "branch_size": "2in", "angle": "60°"}
	for key, v := range values {
		all[key] = v
	}
	a, err := PipeSaddle.Calculator().CalculateValues(all)
	if err != nil {
		t.Fatalf("%v: %v", all, err)
	}
	return a
}

// handedOn are the templates and cuts of an answer.
func handedOn(t *testing.T, a *form.Answer) (templates []string, cuts []form.Onward) {
	t.Helper()
	var told struct {
		Templates []form.Offered
		Cuts      []form.Onward
	}
	data, err := json.Marshal(a)
	if err != nil || json.Unmarshal(data, &told) != nil {
		t.Fatal(err)
	}
	for _, o := range told.Templates {
		templates = append(templates, o.Key)
	}
	return templates, told.Cuts
}

// TestSaddleHandsOn: a post has no hole unless somebody asks for one, and a branch that is
// set in has one; what is cut can be typed into a cut list.
func TestSaddleHandsOn(t *testing.T) {
	for _, test := range []struct {
		values map[string]any
		want   string
	}{
		{values: map[string]any{}, want: "branch"},
		{values: map[string]any{"hole": "cut"}, want: "branch hole"},
		{values: map[string]any{"fit": "in"}, want: "branch hole"},
		{values: map[string]any{"fit": "in", "units": "us"}, want: "branch hole"},
	} {
		templates, cuts := handedOn(t, saddleAnswer(t, test.values))
		if got := strings.Join(templates, " "); got != test.want || len(cuts) != len(templates) {
			t.Errorf("%v: templates %s and %d cuts, want %s", test.values, got, len(cuts), test.want)
		}
		for _, c := range cuts {
			for _, key := range []string{"thickness", "length"} {
				v, err := form.Number[unit.Length]("mm", "in").Parse(c.Fields[key], unit.Metric)
				if err != nil || v < 0.003 || v > 0.3 {
					t.Errorf("%v, %s: %s is %q: %v, %v", test.values, c.Name, key, c.Fields[key], v, err)
				}
			}
		}
	}
	// a torch parallel to the branch goes through more than the wall
	thick := func(fit string) float64 {
		_, cuts := handedOn(t, saddleAnswer(t, map[string]any{"hole": "cut", "fit": fit}))
		v, _ := form.Number[unit.Length]("mm", "in").Parse(cuts[1].Fields["thickness"], unit.Metric)
		return v
	}
	if on, in := thick("square"), thick("in"); math.Abs(on-0.0055) > 1e-6 || in < 1.2*on {
		t.Errorf("the hole goes through %v set on and %v set in, of a wall of 5.5 mm", on, in)
	}
}

// TestSaddleTemplates: paper bends about its middle, so the line runs from edge to edge of
// π·(OD + paper); it lies below the base line, and the kerf in the waste below it.
func TestSaddleTemplates(t *testing.T) {
	a := saddleAnswer(t, map[string]any{"paper": "0.25mm", "hole": "cut"})
	branch, err := a.Template("branch")
	if err != nil {
		t.Fatal(err)
	}
	line := cutOf(t, branch.Drawing)
	first, last := line[0], line[len(line)-1]
	if want := math.Pi * (60.3 + 0.25); first.X != 0 || math.Abs(last.X-want) > 1e-9 || math.Abs(first.Y-last.Y) > 1e-9 {
		t.Errorf("the line runs from %v to %v, want %v wide", first, last, want)
	}
	for _, p := range line {
		if p.Y > 1e-9 {
			t.Errorf("%v lies above the base line", p)
		}
	}
	hole, err := a.Template("hole")
	if err != nil {
		t.Fatal(err)
	}
	plain := saddleAnswer(t, map[string]any{"paper": "0mm", "hole": "cut"})
	bare, err := plain.Template("hole")
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range cutOf(t, hole.Drawing) {
		if q := cutOf(t, bare.Drawing)[i]; math.Abs(p.X-q.X) > 1e-9 || math.Abs(p.Y-q.Y*(88.9+0.25)/88.9) > 1e-9 {
			t.Fatalf("on paper %v stands for %v: it is stretched round the header, and not along it", p, q)
		}
	}
}

func cutOf(t *testing.T, d drawing.Drawing) []drawing.Point {
	t.Helper()
	for _, l := range d.Lines {
		if l.Use == drawing.Cut {
			return l.Points
		}
	}
	t.Fatal("no line to cut")
	return nil
}

// TestKerfLiesInTheWaste: a line beside another is so far from it, on the side that is
// asked for, round a corner too.
func TestKerfLiesInTheWaste(t *testing.T) {
	in := rail()
	in.Fit = "outside"
	for _, angle := range []unit.Angle{30, 60, 90} {
		in.Angle = angle * unit.Degree
		res, err := ComputeSaddle(in)
		if err != nil {
			t.Fatal(err)
		}
		line := res.outline(0.0603/2, 1)
		for _, p := range besideLine(line, 1.5) {
			nearest := math.Inf(1)
			for i := 1; i < len(line); i++ {
				nearest = min(nearest, toPiece(p, line[i-1], line[i]))
			}
			drop, _ := res.line(p.X / 1000 / (0.0603 / 2))
			if math.Abs(nearest-1.5) > 0.05 || p.Y > -1000*drop {
				t.Fatalf("at %v° %v is %v from the line, want 1.5 below it", float64(angle), p, nearest)
			}
		}
		hole := res.Hole.outline(1)
		hole[len(hole)-1] = hole[0] // they differ by rounding
		for _, p := range besideLine(hole, -1.5) {
			nearest, inside := math.Inf(1), false
			for i := 1; i < len(hole); i++ {
				a, b := hole[i-1], hole[i]
				nearest = min(nearest, toPiece(p, a, b))
				if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
					inside = !inside
				}
			}
			if math.Abs(nearest-1.5) > 0.05 || !inside {
				t.Fatalf("at %v° %v is %v from the hole's line, inside %t, want 1.5 inside", float64(angle), p, nearest, inside)
			}
		}
	}
}

// toPiece is how far a point lies from a piece of a line.
func toPiece(p, a, b drawing.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	at := min(max(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/(dx*dx+dy*dy), 0), 1)
	return math.Hypot(p.X-a.X-at*dx, p.Y-a.Y-at*dy)
}

// TestStationsByStep: lines stand no wider apart than asked, in whole quarters, and no
// closer than they need.
func TestStationsByStep(t *testing.T) {
	for _, step := range []float64{5, 7.5, 11.84, 12, 20, 47.3, 47.4, 200} {
		a := saddleAnswer(t, map[string]any{"stations": "step", "step": step})
		v, _ := a.Results().Get("spacing")
		apart := v.(form.Value).Value * 1000
		n := math.Pi * 60.3 / apart
		if apart > step+1e-6 || math.Abs(n/4-math.Round(n/4)) > 1e-6 || n > 4.5 && math.Pi*60.3/(n-4) <= step {
			t.Errorf("a step of %v mm gives %v lines %v mm apart", step, n, apart)
		}
	}
}

// TestBevels: a groove that a straight cut leaves open by itself wants no bevel.
func TestBevels(t *testing.T) {
	a := saddleAnswer(t, map[string]any{"groove": "30°"})
	v, _ := a.Results().Get("sides")
	rows := v.([]*form.Group)
	for i, want := range []string{"60°", "none", "none", "none"} {
		cell, _ := rows[i].Get("bevel")
		if got := cell.(form.Value).Text; got != want {
			t.Errorf("side %d: bevel %s, want %s", i, got, want)
		}
	}
	bare, _ := saddleAnswer(t, nil).Results().Get("sides")
	if _, told := bare.([]*form.Group)[0].Get("bevel"); told {
		t.Error("a bevel is told without a groove")
	}
}
