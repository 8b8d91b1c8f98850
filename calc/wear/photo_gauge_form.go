package wear

import (
	"math"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// PhotoGauge is the calculator photo-gauge.
var PhotoGauge = form.Declaration{Name: "photo-gauge", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Photo gauge",
		About: "Measure the bore of a tip on a photo: mark its rim, and something of known width beside it.",
		Place: "fix",
		Terms: []string{"picture", "camera", "orifice", "oval", "out of round", "diameter", "coin", "drill", "ellipse", "reading", "worn"},
		Fields: []form.Field{
			{Key: "object", Label: "What lies beside the tip", Takes: objects(), Default: round, Help: "At the same distance from the camera as the bore's edge"},
			{Key: "width", Label: "Its width", Takes: form.Number[unit.Length]("mm", "in").As(unit.Bore), Help: "Where: a caliper, or the drill's shank", Only: form.When("object", round, measured),
				Chips: []string{"2mm", "3mm", "4mm"}, ChipsUS: []string{"1/16in", "1/8in", "3/16in"}, Limits: form.Within(0.5*unit.Millimetre, 100*unit.Millimetre)},
			{Key: "scale", Label: "Marks on its edge", Takes: form.Text(), Help: "Six, all around something round; or two, both ends of a width. Such as 412:305, across and down in pixels"},
			{Key: "new", Label: "Bore when new", Takes: form.Number[unit.Length]("mm", "in").As(unit.Bore), Optional: true, Help: "To judge the tip by. Where: the torch's parts sheet", Limits: bores},
			{Key: "rim", Label: "Marks on the rim of the bore", Takes: form.Text(), Help: "Eight or more, all around. Such as 412:305, across and down in pixels"},
			{Key: "width_error", Label: "Its width may be off by", Takes: form.Number[unit.Length]("mm", "in").As(unit.Slack), Default: "0.03mm", Basis: "photo-judgement", Fine: true, Limits: form.Within(0, 5*unit.Millimetre)},
			{Key: "mark", Label: "A mark may be off by, pixels", Takes: form.Factor(), Default: "0.5", Basis: "photo-judgement", Fine: true, Help: "At the least; the scatter of the marks counts if it is more", Limits: form.Limits{Min: 0, Max: 100, Set: true}},
			growthLimit(), ovalLimit(),
		},
		Results: []form.Result{
			{Key: "verdict", Label: "Tip", Gives: form.Text(), Main: true},
			{Key: "why", Label: "Because", Gives: form.Text()},
			{Key: "growth", Label: "Grown by", Gives: form.Number[unit.Ratio]("%", "%").InDoubt()},
			{Key: "growth_error", Label: "Give or take", Gives: form.Number[unit.Ratio]("%", "%").As(unit.Slack)},
			{Key: "largest", Label: "Largest diameter", Gives: form.Number[unit.Length]("mm", "in").As(unit.Bore), Main: true},
			{Key: "largest_error", Label: "Give or take", Gives: form.Number[unit.Length]("mm", "thou").As(unit.Slack)},
			{Key: "smallest", Label: "Smallest diameter", Gives: form.Number[unit.Length]("mm", "in").As(unit.Bore), Main: true},
			{Key: "smallest_error", Label: "Give or take", Gives: form.Number[unit.Length]("mm", "thou").As(unit.Slack)},
			{Key: "trust", Label: "The reading is", Gives: form.Text(), Main: true},
			{Key: "shape", Label: "Shape", Gives: form.Text(), Main: true},
			{Key: "out_of_round", Label: "Largest less smallest", Gives: form.Number[unit.Length]("mm", "thou").As(unit.Kerf)},
			{Key: "out_of_round_error", Label: "Give or take", Gives: form.Number[unit.Length]("mm", "thou").As(unit.Slack)},
			{Key: "points", Label: "Marks on the rim", Gives: form.Count()},
			{Key: "covered", Label: "Of the rim covered", Gives: form.Number[unit.Angle]("°", "°")},
			{Key: "residual", Label: "Scatter of the marks", Gives: form.Number[unit.Length]("mm", "thou").As(unit.Slack)},
			{Key: "worst", Label: "Mark that is furthest off", Gives: form.Count()},
			{Key: "pixel", Label: "One pixel", Gives: form.Number[unit.Length]("mm", "thou").As(unit.Slack)},
			{Key: "tilt", Label: "Camera leans by", Gives: form.Number[unit.Angle]("°", "°")},
			{Key: "tilt_bound", Label: "A round bore would look so from", Gives: form.Number[unit.Angle]("°", "°")},
			{Key: "centre_x", Label: "Centre from the left, pixels", Gives: form.Factor()},
			{Key: "centre_y", Label: "Centre from the top, pixels", Gives: form.Factor()},
			{Key: "long_axis", Label: "Long half-axis, pixels", Gives: form.Factor()},
			{Key: "short_axis", Label: "Short half-axis, pixels", Gives: form.Factor()},
			{Key: "turn", Label: "Long axis, from the right down", Gives: form.Number[unit.Angle]("°", "°")},
		},
		Sources: []source.ID{"halir-flusser", "gum", "photo-judgement"},
		Run:     runPhoto,
	}
}}

func runPhoto(r *form.Reader, a *form.Answer) error {
	in := PhotoInput{WidthError: form.Get[unit.Length](r, "width_error"), Mark: form.GetFactor(r, "mark"),
		New: form.Get[unit.Length](r, "new"), Limits: getLimits(r)}
	object := form.GetWord(r, "object")
	c, isCoin := coinOf(object)
	if isCoin {
		in.Width = c.diameter
	} else {
		in.Width = form.Get[unit.Length](r, "width")
	}
	for _, marks := range []struct {
		key  string
		into *[]spot
	}{{"scale", &in.Scale}, {"rim", &in.Rim}} {
		text := form.GetText(r, marks.key)
		list, err := parseSpots(text)
		if err != nil {
			r.Fail(marks.key, err)
		}
		*marks.into = list
	}
	if isCoin && r.Given("width") {
		r.Fail("width", problem.Newf(problem.Conflict, "width", "the width of %s is known", c.label).WithHint("Leave it out, or choose %s.", round))
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputePhoto(in)
	if err != nil {
		return err
	}
	if isCoin {
		a.Cite(c.source)
	}
	putPhoto(a, in, res)
	sayPhoto(a, in, res)
	return nil
}

// parseSpots reads "x:y, x:y, …"; a semicolon parts places too, which lets a
// decimal comma stand in the numbers.
func parseSpots(text string) ([]spot, error) {
	const hint = "Write the places across and down in pixels, such as 412:305, 395.5:352."
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	between := ","
	if strings.Contains(text, ";") {
		between = ";"
	}
	var list []spot
	for _, entry := range strings.Split(text, between) {
		left, right, ok := strings.Cut(entry, ":")
		if !ok {
			return nil, problem.Newf(problem.Malformed, "", "%q is not x:y", strings.TrimSpace(entry)).WithHint(hint)
		}
		x, err := unit.ReadNumber(left)
		if err != nil {
			return nil, problem.From(err).WithHint(hint)
		}
		y, err := unit.ReadNumber(right)
		if err != nil {
			return nil, problem.From(err).WithHint(hint)
		}
		if most := 1e5; math.Abs(x) > most || math.Abs(y) > most {
			return nil, problem.Newf(problem.Range, "", "%q lies in no picture", strings.TrimSpace(entry)).WithHint("Pixels from 0 to %.0f.", most)
		}
		list = append(list, spot{x, y})
	}
	return list, nil
}
