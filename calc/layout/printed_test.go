//go:build !js

package layout

import (
	"fmt"
	"math"
	"testing"

	"kerfside/calc/drawing/paper"
	"kerfside/calc/form"
	"kerfside/calc/outside"
)

// dots to the inch of a painted page.
const dots = 600

func dot(mm float64) int   { return int(math.Round(mm / 25.4 * dots)) }
func ofDots(n int) float64 { return float64(n) / dots * 25.4 }
func run(p outside.Page, x, y int) (n int) { // dark dots from there downward
	for ; y < p.High && p.Dark(x, y); y++ {
		n++
	}
	return n
}

// TestPrintedAgainstPoppler: on the page as Poppler paints it each line of a saddle and of a
// mitre ends where the list says that it does, and the lines stand as far apart as the
// paper needs, within 0.2 mm.
func TestPrintedAgainstPoppler(t *testing.T) {
	for _, c := range []struct {
		of    *form.Calculator
		in    string
		lines int
		over  float64 // of a line above the reference that the list goes by, mm
		drop  string  // its column
		sign  float64 // whether lines end below the reference or above
	}{
		{of: PipeSaddle.Calculator(), in: `{"header_size": "3in", "branch_size": "2in", "angle": "60°", "hole": "none"}`, lines: 16, over: 30, drop: "drop", sign: 1},
		{of: PipeSaddle.Calculator(), in: `{"header_size": "4in", "branch_size": "1-1/2in", "angle": "45°", "offset": "15mm", "hole": "none"}`, lines: 16, over: 30, drop: "drop", sign: 1},
		{of: PipeMitre.Calculator(), in: `{"size": "2in", "turn": "90°"}`, lines: 16, over: 60.3 + 30, drop: "back", sign: -1},
	} {
		a, err := c.of.Calculate([]byte(c.in))
		if err != nil {
			t.Fatal(err)
		}
		pdf, err := paper.PDF(a.Templates(), paper.Sheet{Size: "a4"})
		if err != nil {
			t.Fatal(err)
		}
		pages := outside.Pages(t, pdf, dots)
		if len(pages) != 1 {
			t.Fatalf("%s: %d pages, want 1", c.in, len(pages))
		}
		p := pages[0]
		// The template's left edge is the first column with a line longer than 25 mm, and line 0.
		left, top := -1, 0
		for x := dot(10); left < 0 && x < p.Wide; x++ {
			for y := 0; y < p.High; y++ {
				if n := run(p, x, y); n > dot(25) {
					left, top = x, y
					break
				} else if n > 0 {
					y += n
				}
			}
		}
		if left < 0 {
			t.Fatalf("%s: no template was found on the page", c.in)
		}
		left += dot(0.125) // the middle of its stroke
		rows, _ := a.Results().Get("rows")
		girth := number(t, a, "girth")*1000 + math.Pi*0.1 // and the paper
		for i, row := range rows.([]*form.Group) {
			v, _ := row.Get(c.drop)
			want := c.over + c.sign*v.(form.Value).Value*1000
			x := left + dot(girth*float64(i)/float64(c.lines))
			// The darkest of the few columns where the line may lie is the line.
			got := 0.0
			for dx := -dot(0.2); dx <= dot(0.2); dx++ {
				for dy := -dot(0.3); dy <= dot(0.3); dy++ {
					if n := run(p, x+dx, top+dy); ofDots(n) > got {
						got = ofDots(n)
					}
				}
			}
			const strokes = 0.125 + 0.175 // half of the edge's above, half of the cut's below
			if math.Abs(got-strokes-want) > 0.2 {
				t.Errorf("%s: line %d is %.2f mm long on paper, want %.2f", c.in, i, got-strokes, want)
			}
		}
	}
}

// number is a result in SI.
func number(t *testing.T, a *form.Answer, key string) float64 {
	t.Helper()
	v, ok := a.Results().Get(key)
	if !ok {
		t.Fatal(fmt.Errorf("no %s is told", key))
	}
	return v.(form.Value).Value
}
