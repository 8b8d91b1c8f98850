package layout

import (
	"math"
	"strconv"

	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// WrapInput is a pipe that is cut square by a strip wrapped round it.
type WrapInput struct {
	Pipe  Pipe
	Marks int         // lines that part the girth alike
	Paper unit.Length // thickness of the strip
	Tape  unit.Length // thickness of the tape that measures
	// The strip at hand; 0 where it is not told.
	StripWide, StripLong unit.Length
}

// WrapResult is the strip, and where the marks lie along it.
type WrapResult struct {
	Girth   unit.Length // of the pipe's skin
	Printed unit.Length // of the strip as it lies flat, where its ends are to meet
	Tape    unit.Length // what a tape round the pipe reads
	Wide    unit.Length // the strip, at least
	Narrow  bool        // the strip at hand is less than that
	Strips  int         // like it that make one, glued end on end; 0 where its length is not told
	Spacing unit.Length
	At      []unit.Length // of the marks along the skin, by tape, the girth last
}

// A strip that is narrower lies crooked without anybody seeing it (common practice, no
// published source).
const (
	wrapShare = 0.5 // of the diameter
	leastWrap = 50 * unit.Millimetre
)

// wrapTab is what a strip is longer than once round: to glue or to hold.
const wrapTab = 12 * unit.Millimetre

// ComputeWrap returns the strip for a square cut.
//
//	girth = π·D    printed = π·(D + p)    tape reads π·(D + t)
//
// with D the outside diameter, p the strip's and t the tape's thickness: what bends keeps
// its length in its middle. The edge of a strip that meets itself all round lies in a plane
// square to the pipe. Of strips with length l, each lying on the next by the tab b, it takes
// n ≥ printed/(l − b). Geometry; no source needed but for the width.
func ComputeWrap(in WrapInput) WrapResult {
	res := WrapResult{
		Girth: math.Pi * in.Pipe.OD, Printed: math.Pi * (in.Pipe.OD + in.Paper), Tape: math.Pi * (in.Pipe.OD + in.Tape),
		Wide: max(leastWrap, wrapShare*in.Pipe.OD),
	}
	res.Narrow = in.StripWide > 0 && in.StripWide < res.Wide
	if in.StripLong > 0 {
		res.Strips = int(math.Ceil(float64(res.Printed/(in.StripLong-wrapTab)) - 1e-9))
	}
	res.Spacing = res.Girth / unit.Length(in.Marks)
	for i := range in.Marks + 1 {
		res.At = append(res.At, res.Girth*unit.Length(i)/unit.Length(in.Marks))
	}
	return res
}

// PipeWrap is the calculator pipe-wrap.
var PipeWrap = form.Declaration{Name: "pipe-wrap", Make: func() form.Calculator {
	mark := form.Number[unit.Length]("mm", "in").As(unit.Marking)
	return form.Calculator{
		Title: "Square pipe cut",
		About: "Marks a true square cut round a pipe, and parts its girth into equal lines.",
		Place: "layout",
		Terms: []string{"wrap", "wrap-around", "girth", "circumference", "quarter lines", "square cut", "pipe", "template", "tape"},
		Fields: append(pipeFields("", "Pipe"),
			form.Field{Key: "divisions", Label: "Lines round it", Takes: form.OneOf("4", "4", "6", "6", "8", "8", "12", "12", "16", "16"), Default: "4"},
			form.Field{Key: "strip_wide", Label: "Width of your strip", Help: "Of the paper, belt or gasket that goes round", Takes: mark, Optional: true, Fine: true, Limits: form.Within(5*unit.Millimetre, 3*unit.Metre)},
			form.Field{Key: "strip_long", Label: "Length of your strip", Takes: mark, Optional: true, Fine: true, Limits: form.Within(30*unit.Millimetre, 100*unit.Metre)},
			paperField(), tapeField()),
		Results: []form.Result{
			{Key: "girth", Label: "Girth", Gives: mark, Main: true},
			{Key: "tape", Label: "A tape round it reads", Gives: mark, Main: true},
			{Key: "spacing", Label: "Lines apart, by tape", Gives: mark},
			{Key: "wide", Label: "Strip, at least as wide as", Gives: mark},
			{Key: "printed", Label: "Strip, end to end", Gives: mark},
			{Key: "strip", Label: "Your strip", Gives: form.OneOf("does", "does", "narrow", "is too narrow", "short", "is too short: glue some end on end")},
			{Key: "strips", Label: "Strips like yours", Gives: form.Count()},
			{Key: "rows", Label: "Lines", Gives: form.Rows("line", "Line", "round", "From line 0")},
		},
		Sources: []source.ID{source.CommonPractice},
		Run:     runWrap,
	}
}}

func runWrap(r *form.Reader, a *form.Answer) error {
	in := WrapInput{Pipe: readPipe(r, ""), Paper: form.Get[unit.Length](r, "paper"), Tape: form.Get[unit.Length](r, "tape_thickness"),
		StripWide: form.Get[unit.Length](r, "strip_wide"), StripLong: form.Get[unit.Length](r, "strip_long")}
	in.Marks, _ = strconv.Atoi(form.GetWord(r, "divisions"))
	if err := r.Err(); err != nil {
		return err
	}
	res := ComputeWrap(in)
	form.Put(a, "girth", res.Girth)
	form.Put(a, "tape", res.Tape)
	form.Put(a, "spacing", res.Spacing)
	form.Put(a, "wide", res.Wide)
	form.Put(a, "printed", res.Printed)
	putStrip(a, in, res)
	var rows []*form.Row
	for i, l := range res.At {
		rows = append(rows, markRow(a, strconv.Itoa(i%in.Marks), []string{"line", "round"}, l))
	}
	a.PutRows("rows", rows)
	in.Pipe.cite(a)
	worked := func(l unit.Length) string { return workedLength(a, l) }
	a.Step("%s: girth = π × %s = %s", in.Pipe.Say(a), worked(in.Pipe.OD), worked(res.Girth))
	a.Step("line by line: %s ÷ %d = %s", worked(res.Girth), in.Marks, worked(res.Spacing))
	a.Step("strip = π × (%s + %s of paper) = %s", worked(in.Pipe.OD), worked(in.Paper), worked(res.Printed))
	a.DrawLayout(wrapStrip(a, in, res, 1, true))
	a.AddTemplate(wrapTemplate(a, in, res))
	a.AddCut(form.Onward{Name: "Square cut", Fields: map[string]string{"shape": "round-tube", "diameter": asTyped(a, in.Pipe.OD, unit.Bore), "thickness": asTyped(a, in.Pipe.Wall, unit.Plate), "pierces": "1", "count": "1"}})
	a.Caution("Pull the strip tight and lay its edge on itself. Where it misses itself, shift it: the line is square only where it closes.")
	a.Caution("Measure every line from line 0, never from its neighbour: small errors add up.")
	a.Caution("The line is the finished edge. Keep the arc on the waste side of it.")
	a.Caution(safety.HollowStop)
	return nil
}
