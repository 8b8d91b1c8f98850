package layout

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
	"kerfside/calc/vector"
)

// box is a text on the phone, in pixels of a picture 320 wide, y down.
type box struct {
	left, right, top, foot float64
	text                   string
}

// onPhone places the texts of a picture as pwa/draw/layout.js does: to scale in 268 by
// 300, letters 8.6 wide and 16 high, kept from leaving the picture.
func onPhone(params map[string]any) (texts []box) {
	rows := func(list string) [][]any { r, _ := params[list].([][]any); return r }
	low, high := drawing.Point{X: math.Inf(1), Y: math.Inf(1)}, drawing.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	put := func(cells ...any) {
		for i := 0; i+1 < len(cells); i += 2 {
			x, y := float64(cells[i].(int)), float64(cells[i+1].(int))
			low, high = drawing.Point{X: min(low.X, x), Y: min(low.Y, y)}, drawing.Point{X: max(high.X, x), Y: max(high.Y, y)}
		}
	}
	for _, list := range []struct {
		name     string
		from, to int
	}{{name: "areas", from: 1}, {name: "lines", from: 2}, {name: "measures", to: 4}, {name: "texts", to: 2}} {
		for _, row := range rows(list.name) {
			if list.to == 0 {
				put(row[list.from:]...)
			} else {
				put(row[:list.to]...)
			}
		}
	}
	scale := min(268/max(high.X-low.X, 1), 300/max(high.Y-low.Y, 1))
	write := func(x, y float64, text, anchor string) {
		if text == "" {
			return
		}
		wide := 8.6 * float64(len([]rune(text)))
		before, after := 0.0, wide
		switch anchor {
		case "middle":
			before, after = wide/2, wide/2
		case "end":
			before, after = wide, 0
		}
		x = min(max(x, 4+before), max(316-after, 4+before))
		texts = append(texts, box{left: x - before, right: x + after, top: y - 13, foot: y + 3, text: text})
	}
	x := func(v float64) float64 { return 160 + (v-(low.X+high.X)/2)*scale }
	y := func(v float64) float64 { return 26 + (high.Y-v)*scale }
	for _, row := range rows("measures") {
		x1, y1, x2, y2 := x(float64(row[0].(int))), y(float64(row[1].(int))), x(float64(row[2].(int))), y(float64(row[3].(int)))
		if math.Abs(y1-y2) > math.Abs(x1-x2) {
			write(x1+8, (y1+y2)/2+6, row[4].(string), "start")
		} else {
			write((x1+x2)/2, (y1+y2)/2-7, row[4].(string), "middle")
		}
	}
	for _, row := range rows("texts") {
		write(x(float64(row[0].(int))), y(float64(row[1].(int))), row[3].(string), row[2].(string))
	}
	return texts
}

// TestEdgesAreReadable: in what these calculators draw for their check values, in both
// systems, no text lies on another on a narrow phone, and there are seven at most.
func TestEdgesAreReadable(t *testing.T) {
	seen := 0
	for _, d := range []*form.Declaration{&BevelCut, &BracketDevelop, &FrameLengths, &Gouge} {
		text, err := os.ReadFile("../../testdata/calc/" + d.Name + ".txt")
		if err != nil {
			t.Fatal(err)
		}
		cases, err := vector.Parse(string(text))
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range cases {
			for _, units := range []unit.System{unit.Metric, unit.US} {
				values := map[string]any{}
				if err := json.Unmarshal(v.Input, &values); err != nil {
					t.Fatal(err)
				}
				values["units"] = string(units)
				a, err := d.Calculator().CalculateValues(values)
				if err != nil {
					continue
				}
				for _, p := range a.Pictures() {
					boxes := onPhone(p.Params)
					seen++
					if len(boxes) > 7 {
						t.Errorf("%s, %s (%s): %d texts in %q", d.Name, v.Name, units, len(boxes), p.Params["title"])
					}
					for i, b := range boxes {
						for _, c := range boxes[:i] {
							if across, down := min(b.right, c.right)-max(b.left, c.left), min(b.foot, c.foot)-max(b.top, c.top); across > 1 && down > 2 {
								t.Errorf("%s, %s (%s): %q lies on %q in %q by %.0f × %.0f", d.Name, v.Name, units, b.text, c.text, p.Params["title"], across, down)
							}
						}
					}
				}
			}
		}
	}
	if seen < 80 {
		t.Errorf("only %d pictures were looked at", seen)
	}
}

func answered(t *testing.T, d *form.Declaration, values map[string]any) *form.Answer {
	t.Helper()
	a, err := d.Calculator().CalculateValues(values)
	if err != nil {
		t.Fatalf("%s %v: %v", d.Name, values, err)
	}
	return a
}

// finished is the box of what a template shows as the finished edge.
func finished(t *testing.T, a *form.Answer, key string) (wide, tall float64) {
	t.Helper()
	one, err := a.Template(key)
	if err != nil {
		t.Fatal(err)
	}
	var only drawing.Drawing
	for _, l := range one.Lines {
		if l.Use == drawing.Cut {
			only.Lines = append(only.Lines, l)
		}
	}
	low, high := only.Box()
	return high.X - low.X, high.Y - low.Y
}

// TestBevelHandsOn: the square pass goes on before the bevel, each with the metal along
// its torch; the gauge leans as the torch does and stays on a sheet.
func TestBevelHandsOn(t *testing.T) {
	a := answered(t, &BevelCut, map[string]any{"thickness": "20mm", "bevel": "30°", "land": "2mm", "length": "400mm"})
	_, cuts := handedOn(t, a)
	if len(cuts) != 2 || cuts[0].Fields["thickness"] != "20 mm" || cuts[1].Fields["thickness"] != "21 mm" || cuts[1].Fields["length"] != "400 mm" {
		t.Errorf("handed on %v, want 20 mm square, then 21 mm along the bevel", cuts)
	}
	if _, cuts := handedOn(t, answered(t, &BevelCut, map[string]any{"thickness": "20mm", "bevel": "30°"})); len(cuts) != 1 {
		t.Errorf("a feather edge hands on %v, want one cut", cuts)
	}
	for bevel := 5.0; bevel <= 60; bevel += 5 {
		a := answered(t, &BevelCut, map[string]any{"thickness": "10mm", "bevel": bevel})
		wide, tall := finished(t, a, "lean")
		if got := math.Atan2(wide, tall) * 180 / math.Pi; math.Abs(got-bevel) > 1e-9 || max(wide, tall) > 100.001 {
			t.Errorf("the gauge for %v° leans %v°, %v by %v mm", bevel, got, wide, tall)
		}
	}
}

// TestBracketHandsOn: the flat template is as long as the answer says, its middle lines
// lie where the table has them, and its blank goes on as a rectangle.
func TestBracketHandsOn(t *testing.T) {
	a := answered(t, &BracketDevelop, map[string]any{"thickness": "3mm", "radius": "3mm", "first_leg": "50mm", "bends": "90° 80mm; 90° 50mm way=down", "width": "40mm"})
	if wide, tall := finished(t, a, "flat"); math.Abs(wide-169.26478) > 1e-4 || tall != 40 {
		t.Errorf("the template is %v by %v mm", wide, tall)
	}
	flat, _ := a.Template("flat")
	var middles []float64
	for _, l := range flat.Lines {
		if l.Use == drawing.Centre {
			middles = append(middles, l.Points[0].X)
		}
	}
	if len(middles) != 2 || math.Abs(middles[0]-47.3162) > 1e-3 || math.Abs(middles[1]-121.94858) > 1e-3 {
		t.Errorf("bend lines at %v mm", middles)
	}
	if _, cuts := handedOn(t, a); len(cuts) != 1 || cuts[0].Fields["shape"] != "rectangle" || cuts[0].Fields["length"] != "169 mm" || cuts[0].Fields["width"] != "40 mm" {
		t.Errorf("handed on %v", cuts)
	}
	bare := answered(t, &BracketDevelop, map[string]any{"thickness": "3mm", "radius": "3mm", "first_leg": "50mm", "bends": "90° 80mm"})
	if templates, cuts := handedOn(t, bare); len(templates)+len(cuts) != 0 {
		t.Errorf("without a width %v and %v are handed on", templates, cuts)
	}
}

// TestFrameHandsOn: tube has no edge to begin at, and what the torch leans through is the
// thicker; a gusset is printed by its finished edge.
func TestFrameHandsOn(t *testing.T) {
	frame := map[string]any{"wide": "1m", "high": "600mm", "face": "40mm", "thickness": "3mm", "frames": "2"}
	if _, cuts := handedOn(t, answered(t, &FrameLengths, frame)); len(cuts) != 1 || cuts[0].Fields["pierces"] != "1" || cuts[0].Fields["count"] != "16" || cuts[0].Fields["thickness"] != "4.2 mm" {
		t.Errorf("a mitred tube hands on %v", cuts)
	}
	frame["make"], frame["corner"] = "flat", "butt"
	if _, cuts := handedOn(t, answered(t, &FrameLengths, frame)); len(cuts) != 1 || cuts[0].Fields["pierces"] != "0" || cuts[0].Fields["thickness"] != "3 mm" || cuts[0].Fields["length"] != "40 mm" {
		t.Errorf("butted flat bar hands on %v", cuts)
	}
	a := answered(t, &FrameLengths, map[string]any{"make": "gusset", "leg": "150mm", "other_leg": "100mm", "snip": "20mm", "thickness": "6mm", "count": "4"})
	if wide, tall := finished(t, a, "gusset"); math.Abs(wide-150) > 1e-9 || math.Abs(tall-100) > 1e-9 {
		t.Errorf("the gusset's template is %v by %v mm", wide, tall)
	}
	if _, cuts := handedOn(t, a); len(cuts) != 1 || cuts[0].Fields["count"] != "4" {
		t.Errorf("four gussets hand on %v", cuts)
	}
}
