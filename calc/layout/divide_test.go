package layout

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// TestDivideLaws: parts are alike, fill the length with what lies between, and are no wider
// than allowed; one fewer would be.
func TestDivideLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		off := rapid.OneOf(rapid.Just(0), rapid.IntRange(2, 100)) // less than a kerf cannot come off
		in := DivideInput{
			Length: unit.Length(rapid.Float64Range(0.5, 12).Draw(t, "length")), Into: rapid.SampledFrom([]string{"pieces", "marks", "bars"}).Draw(t, "into"),
			Widest: unit.Length(rapid.Float64Range(0.1, 2).Draw(t, "widest")), Bar: unit.Length(rapid.IntRange(5, 60).Draw(t, "bar")) * unit.Millimetre,
			Start: unit.Length(off.Draw(t, "start")) * unit.Millimetre, End: unit.Length(off.Draw(t, "end")) * unit.Millimetre, Kerf: 2 * unit.Millimetre,
		}
		res, err := ComputeDivide(in)
		if err != nil { // no gap is left, or no bar is needed: only bars can be refused so
			if in.Into != "bars" || problem.From(err).Kind != problem.Refused {
				t.Fatal(err)
			}
			return
		}
		if res.Each > in.Widest+1e-6 {
			t.Errorf("each is %v, want %v or less", res.Each, in.Widest)
		}
		// Walk from the left end: what lies between two parts is kerf, step or gap.
		at := in.Start
		for i, p := range res.At {
			switch in.Into {
			case "bars":
				at += res.Each
			case "marks":
				if i > 0 {
					at += res.Each
				}
			}
			if math.Abs(float64(p.From-at)) > 1e-9 {
				t.Fatalf("part %d begins at %v, want %v", i+1, p.From, at)
			}
			at = p.To
			if in.Into == "pieces" && i+1 < len(res.At) {
				at += in.Kerf
			}
		}
		if in.Into == "bars" {
			at += res.Each
		}
		if math.Abs(float64(at-(in.Length-in.End))) > 1e-9 {
			t.Errorf("the last part ends at %v, want %v", at, in.Length-in.End)
		}
		fewer := in
		fewer.Count = res.Count - 1
		least := map[string]int{"pieces": 1, "marks": 2, "bars": 1}[in.Into]
		if fewer.Count >= least {
			if one, err := ComputeDivide(fewer); err == nil && one.Each <= in.Widest-1e-6 {
				t.Errorf("%d would do, with %v each", fewer.Count, one.Each)
			}
		}
	})
}

// TestDivideCuts: every end of a piece that is not the length's own is cut, and the cut
// takes metal of no piece.
func TestDivideCuts(t *testing.T) {
	for _, c := range []struct {
		in    string
		count string // of the cuts handed on, none where it is ""
	}{
		{in: `"divisions": "4"`, count: "3"},
		{in: `"divisions": "4", "off_left": "20mm"`, count: "4"},
		{in: `"divisions": "4", "off_left": "20mm", "off_right": "20mm"`, count: "5"},
		{in: `"divisions": "1", "off_right": "20mm"`, count: "1"},
		{in: `"divisions": "1"`},
	} {
		a, err := Divide.Calculator().Calculate([]byte(`{"length": "1m", "thickness": "5mm", "across": "50mm", ` + c.in + `}`))
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, cut := range a.Cuts() {
			got += cut.Fields["count"]
		}
		if got != c.count {
			t.Errorf("%s: %q cuts are handed on, want %q", c.in, got, c.count)
		}
	}
}

// TestDivideHatches: what is kept off an end goes where pieces are cut, and stays where
// holes are marked.
func TestDivideHatches(t *testing.T) {
	in := DivideInput{Length: 1, Count: 3, Start: 0.1, End: 0.2, Kerf: 0.002}
	for into, want := range map[string]float64{"pieces": 1000 - 3*(1000-300-4)/3., "marks": 0} {
		in.Into = into
		res, err := ComputeDivide(in)
		if err != nil {
			t.Fatal(err)
		}
		a := form.NewAnswer(form.NewReader(Divide.Calculator(), nil))
		got := 0.0
		for _, area := range drawDivide(a, in, res).Areas {
			if area.Use == drawing.Kerf || area.Use == drawing.Waste {
				got += math.Abs(area.Points[1].X - area.Points[0].X)
			}
		}
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %v mm of the length are hatched as gone, want %v", into, got, want)
		}
	}
}
