package wear

import (
	"fmt"

	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

func putPhoto(a *form.Answer, in PhotoInput, res PhotoResult) {
	if in.New > 0 {
		a.PutWord("verdict", res.Verdict)
		a.PutWord("why", res.Why)
		form.Put(a, "growth", res.Growth)
		form.Put(a, "growth_error", res.GrowthError)
	}
	form.Put(a, "largest", res.Largest)
	form.Put(a, "largest_error", res.LargestError)
	form.Put(a, "smallest", res.Smallest)
	form.Put(a, "smallest_error", res.SmallestError)
	a.PutWord("trust", trust(res.share()))
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
	if res.Leaned {
		form.Put(a, "tilt", res.Lean)
	} else {
		form.Put(a, "tilt_bound", res.LeanBound)
	}
	a.PutFactor("centre_x", res.Rim.x)
	a.PutFactor("centre_y", res.Rim.y)
	a.PutFactor("long_axis", res.Rim.a)
	a.PutFactor("short_axis", res.Rim.b)
	form.Put(a, "turn", unit.Angle(res.Rim.turn))
}

// share is the larger of the errors, of the size that it belongs to.
func (res PhotoResult) share() float64 {
	return max(float64(res.LargestError/res.Largest), float64(res.SmallestError/res.Smallest))
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
	mm := func(l unit.Length) string { return form.SayAs(a, l, unit.Bore) }
	slack := func(l unit.Length) string {
		return unit.Say(l, a.Unit("mm", "thou"), unit.Doubt{Sort: unit.Slack})
	}
	a.Step("one pixel = %s ÷ %s pixels = %s", mm(in.Width), unit.Figures(float64(in.Width/res.Pixel), 3), slack(res.Pixel))
	a.Step("best ellipse through %d marks: half-axes %s and %s pixels, scatter %s pixels", len(in.Rim),
		unit.Figures(res.Rim.a, 3), unit.Figures(res.Rim.b, 3), unit.Figures(res.Residual, 2))
	if res.Leaned {
		a.Step("the edge of the object looks as from acos(narrow ÷ wide) = %s off square; the bore is stretched back by as much", unit.In(res.Lean, "°"))
	} else {
		a.Step("a round bore seen from acos(%s ÷ %s) = %s off square would look the same; a lean up to %s is in what the sizes may be off by",
			unit.Figures(res.Rim.b, 3), unit.Figures(res.Rim.a, 3), unit.In(res.LeanBound, "°"), unit.In(unknownLean, "°"))
	}
	a.Step("largest = %s, give or take %s; smallest = %s, give or take %s", mm(res.Largest), slack(res.LargestError), mm(res.Smallest), slack(res.SmallestError))
	if in.New > 0 {
		a.Step("grown = %s ÷ %s − 1 = %s, give or take %s, limit %s", mm(res.Largest), mm(in.New), unit.In(res.Growth, "%"), unit.In(res.GrowthError, "%"), unit.In(in.Limits.Growth, "%"))
		a.Step("oval = (%s − %s) ÷ %s, give or take %s, limit %s of it", mm(res.Largest), mm(res.Smallest), mm(in.New), slack(res.OutError), unit.In(in.Limits.Oval, "%"))
	}
	switch {
	case !res.Leaned:
		a.Caution("Two marks cannot tell how the camera leaned. Mark a round edge all around: the tip's or a coin's. In doubt change the tip.")
	case in.New > 0 && res.Verdict == tipUnknown, res.share() > 0.05:
		a.Caution("%s", res.remedy(in))
	}
	a.Caution(safety.MadeDead)
	a.Caution("Keep the object level with the bore's edge. If it is 5 mm nearer to a camera 100 mm away, the bore reads 5 %% small.")
}

// remedy says what would make the reading closer.
func (res PhotoResult) remedy(in PhotoInput) string {
	const enough = 16
	switch {
	case res.byLean:
		return fmt.Sprintf("The camera leans by %.0f°. To be surer, hold it straight above bore and object.", unit.Value(res.Lean, "°"))
	case len(in.Rim) < enough:
		return "To be surer, mark more places on the rim, all around; or come closer with the camera."
	}
	return "To be surer, come as close as the camera still sees sharp. Mark where the edge is sharp."
}
