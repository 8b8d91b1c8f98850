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
		About: "Measures the bore of a tip on a photo, largest and smallest, from marks on its rim and on something of known width beside it.",
		Place: "fix",
		Terms: []string{"picture", "camera", "orifice", "oval", "out of round", "diameter", "coin", "drill", "ellipse", "reading", "worn"},
		Fields: []form.Field{
			{Key: "object", Label: "What lies beside the tip", Takes: objects(), Default: measured, Help: "At the same distance from the camera as the bore's edge"},
			{Key: "width", Label: "Its width", Takes: form.Number[unit.Length]("mm", "in"), Help: "Where: the drill's shank, or a caliper", Only: form.When("object", measured),
				Chips: []string{"2mm", "3mm", "4mm", "1/16in", "1/8in", "3/16in"}, Limits: form.Within(0.5*unit.Millimetre, 100*unit.Millimetre)},
			{Key: "scale", Label: "Marks at both its ends", Takes: form.Text(), Help: "x:y in pixels, two; or four on a coin: its widest way across, then its narrowest"},
			{Key: "rim", Label: "Marks on the rim of the bore", Takes: form.Text(), Help: "x:y in pixels, eight or more, all around"},
			{Key: "width_error", Label: "Its width may be off by", Takes: form.Number[unit.Length]("mm", "in"), Default: "0.03mm", Basis: "photo-judgement", Fine: true, Limits: form.Within(0, 5*unit.Millimetre)},
			{Key: "mark", Label: "A mark may be off by, pixels", Takes: form.Factor(), Default: "0.5", Basis: "photo-judgement", Fine: true, Help: "At the least; the scatter of the marks counts if it is more", Limits: form.Limits{Min: 0, Max: 100, Set: true}},
		},
		Results: []form.Result{
			{Key: "largest", Label: "Largest diameter", Gives: form.Number[unit.Length]("mm", "in"), Main: true},
			{Key: "largest_error", Label: "Give or take", Gives: form.Number[unit.Length]("mm", "in")},
			{Key: "smallest", Label: "Smallest diameter", Gives: form.Number[unit.Length]("mm", "in"), Main: true},
			{Key: "smallest_error", Label: "Give or take", Gives: form.Number[unit.Length]("mm", "in")},
			{Key: "trust", Label: "The reading is", Gives: form.Text(), Main: true},
			{Key: "shape", Label: "Shape", Gives: form.Text(), Main: true},
			{Key: "out_of_round", Label: "Largest less smallest", Gives: form.Number[unit.Length]("mm", "in")},
			{Key: "out_of_round_error", Label: "Give or take", Gives: form.Number[unit.Length]("mm", "in")},
			{Key: "points", Label: "Marks on the rim", Gives: form.Count()},
			{Key: "covered", Label: "Of the rim covered", Gives: form.Number[unit.Angle]("°", "°")},
			{Key: "residual", Label: "Scatter of the marks", Gives: form.Number[unit.Length]("mm", "in")},
			{Key: "worst", Label: "Mark that is furthest off", Gives: form.Count()},
			{Key: "pixel", Label: "One pixel", Gives: form.Number[unit.Length]("mm", "in")},
			{Key: "tilt", Label: "Camera off square by", Gives: form.Number[unit.Angle]("°", "°")},
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
	in := PhotoInput{WidthError: form.Get[unit.Length](r, "width_error"), Mark: form.GetFactor(r, "mark")}
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
		r.Fail("width", problem.Newf(problem.Conflict, "width", "the width of %s is known", c.label).WithHint("Leave it out, or choose %s.", measured))
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
	const hint = "Write the places as x:y in pixels, parted by commas, such as 412:305, 395.5:352."
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

func putPhoto(a *form.Answer, in PhotoInput, res PhotoResult) {
	form.Put(a, "largest", res.Largest)
	form.Put(a, "largest_error", res.LargestError)
	form.Put(a, "smallest", res.Smallest)
	form.Put(a, "smallest_error", res.SmallestError)
	a.PutWord("trust", trust(max(float64(res.LargestError/res.Largest), float64(res.SmallestError/res.Smallest))))
	shape := "round, as far as the marks tell"
	if res.Out > res.OutError {
		shape = "oval"
	}
	a.PutWord("shape", shape)
	form.Put(a, "out_of_round", res.Out)
	form.Put(a, "out_of_round_error", res.OutError)
	a.PutCount("points", len(in.Rim))
	form.Put(a, "covered", res.Covered)
	form.Put(a, "residual", unit.Length(res.Residual)*res.Pixel)
	a.PutCount("worst", res.Worst)
	form.Put(a, "pixel", res.Pixel)
	if res.Tilted {
		form.Put(a, "tilt", res.Tilt)
	} else {
		form.Put(a, "tilt_bound", res.TiltBound)
	}
	a.PutFactor("centre_x", res.Rim.x)
	a.PutFactor("centre_y", res.Rim.y)
	a.PutFactor("long_axis", res.Rim.a)
	a.PutFactor("short_axis", res.Rim.b)
	form.Put(a, "turn", unit.Angle(res.Rim.turn))
}

// trust says how good a reading is whose error is that share of the size.
func trust(share float64) string {
	switch {
	case share <= 0.02:
		return "close"
	case share <= 0.05:
		return "fair"
	}
	return "rough"
}

func sayPhoto(a *form.Answer, in PhotoInput, res PhotoResult) {
	mm := func(l unit.Length) string { return form.SayIn(a, l, "mm", "in") }
	a.Step("one pixel = %s ÷ %s pixels = %s", mm(in.Width), unit.Figures(float64(in.Width/res.Pixel), 4), mm(res.Pixel))
	a.Step("best ellipse through %d marks: half-axes %s and %s pixels, scatter %s pixels", len(in.Rim),
		unit.Figures(res.Rim.a, 4), unit.Figures(res.Rim.b, 4), unit.Figures(res.Residual, 2))
	a.Step("largest = 2 × %s × %s = %s, give or take %s", unit.Figures(res.Rim.a, 4), mm(res.Pixel), mm(res.Largest), mm(res.LargestError))
	a.Step("smallest = 2 × %s × %s = %s, give or take %s", unit.Figures(res.Rim.b, 4), mm(res.Pixel), mm(res.Smallest), mm(res.SmallestError))
	if res.Tilted {
		a.Step("camera off square by acos(narrow ÷ wide) = %s", unit.In(res.Tilt, "°"))
	} else {
		a.Step("a round bore seen from acos(%s ÷ %s) = %s off square would look the same", unit.Figures(res.Rim.b, 4), unit.Figures(res.Rim.a, 4), unit.In(res.TiltBound, "°"))
		a.Caution("Hold the camera square above the tip: from 10° off, a round bore reads 1.5 %% oval.")
	}
	if share := float64(res.LargestError / res.Largest); share > 0.05 {
		a.Caution("This is a rough reading: mark more points all around, look again at mark %d, or come closer with the camera.", res.Worst)
	}
	a.Caution("The object must lie at the height of the bore's edge: 5 mm nearer to a camera 100 mm away makes the bore read 5 %% small.")
}
