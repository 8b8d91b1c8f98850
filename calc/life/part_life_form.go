package life

import (
	"kerfside/calc/form"
	"kerfside/calc/material"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// PartLife is the calculator part-life; see ComputePartLife.
var PartLife = form.Declaration{Name: "part-life", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Part life",
		About: "How likely this part lasts the job, by how long your own parts lasted.",
		Place: "fix",
		Terms: []string{"tip", "electrode", "worn", "wear", "hours", "minutes", "starts", "Weibull", "B10", "median", "last", "change", "rust", "overhead"},
		Fields: []form.Field{
			{Key: "part", Label: "Part", Takes: form.OneOf("tip", "Tip", "electrode", "Electrode", "diffuser", "Swirl ring", "cup", "Shield cup"), Default: "tip"},
			{Key: "minutes", Label: "Arc time on it so far", Takes: form.Number[unit.Duration]("min", "min"), Optional: true, Help: "From the journal. Left empty: new", Limits: form.Within(0, 2000*unit.Hour)},
			{Key: "starts", Label: "Starts on it so far", Takes: form.Count(), Optional: true, Limits: form.WithinCount(0, 1000000)},
			{Key: "job_minutes", Label: "Arc time of the job", Takes: form.Number[unit.Duration]("min", "min"), Optional: true, Chips: []string{"10min", "30min", "60min"}, Limits: form.Within(0, 2000*unit.Hour)},
			{Key: "job_starts", Label: "Starts of the job", Takes: form.Count(), Optional: true, Chips: []string{"20", "50", "100"}, Limits: form.WithinCount(0, 1000000)},
			LivesField("lives", "part"),
			{Key: "metal", Label: "Metal", Known: "plan.metal", Takes: material.Choice(), Optional: true},
			{Key: "surface", Label: "Surface", Known: "plan.surface", Takes: form.OneOf("clean", "Clean", "rusty", "Rusty or scaled", "painted", "Painted", "galvanised", "Galvanised"), Optional: true},
			{Key: "on_rig", Label: "Rig", Takes: form.Text(), Optional: true, Fine: true, Help: "By the name that your lives have"},
			{Key: "position", Label: "Position", Takes: form.OneOf("flat", "Flat", "vertical", "Vertical", "overhead", "Overhead"), Optional: true, Fine: true},
			{Key: "start", Label: "Mostly begun", Takes: form.OneOf("edge", "At the edge", "pierce", "By piercing"), Optional: true, Fine: true},
			{Key: "air", Label: "Air", Takes: form.OneOf("dry", "Dry", "wet", "Wet"), Optional: true, Fine: true},
			{Key: "partner", Label: "The part beside it", Takes: form.OneOf("good", "Good", "worn", "Worn"), Optional: true, Fine: true},
		},
		Results: []form.Result{
			{Key: "verdict", Label: "This part", Gives: form.Text(), Main: true},
			{Key: "chance", Label: "Lasts the job", Gives: form.Number[unit.Ratio]("%", "%"), Main: true},
			{Key: "left", Label: "8 in 10 such parts last another", Gives: minutesType(), Main: true},
			{Key: "typical", Label: "Half of your parts are gone by", Gives: minutesType()},
			{Key: "b10", Label: "1 in 10 is gone by", Gives: minutesType()},
			{Key: "least", Label: "Half last at least", Gives: minutesType()},
			{Key: "mean_left", Label: "Left on average", Gives: minutesType()},
			{Key: "rests_on", Label: "Rests on", Gives: form.Text()},
			{Key: "shape_says", Label: "How they go", Gives: form.Text()},
			{Key: "shape", Label: "Shape", Gives: form.Factor().InDoubt()},
			{Key: "shape_low", Label: "Shape at least", Gives: form.Factor().InDoubt()},
			{Key: "shape_high", Label: "Shape at most", Gives: form.Factor().InDoubt()},
			{Key: "scale", Label: "2 in 3 are gone by", Gives: minutesType()},
			{Key: "per_start", Label: "A start counts as", Gives: minutesType()},
			{Key: "wears", Label: "What wears them", Gives: form.Text()},
			{Key: "effects", Label: "What wears them, one by one", Gives: form.Rows("cause", "On or with", "says", "Parts last", "failures", "Worn out so far")},
		},
		Sources: []source.ID{"nist-8-4", "oakes-1995", source.Judged},
		Run:     runPartLife,
	}
}}

func minutesType() *form.Type { return form.Number[unit.Duration]("min", "min").InDoubt() }

func runPartLife(r *form.Reader, a *form.Answer) error {
	minutes := func(key string) float64 { return float64(form.Get[unit.Duration](r, key) / unit.Minute) }
	in := PartLifeInput{
		Slot: form.GetWord(r, "part"), Lives: ReadLives(r, "lives"),
		Age: Use{Minutes: minutes("minutes"), Starts: float64(form.GetCount(r, "starts"))},
		Job: Use{Minutes: minutes("job_minutes"), Starts: float64(form.GetCount(r, "job_starts"))},
		Seen: Seen{Metal: form.GetWord(r, "metal"), Surface: form.GetWord(r, "surface"), Rig: form.GetText(r, "on_rig"), Position: form.GetWord(r, "position"),
			Start: form.GetWord(r, "start"), Air: form.GetWord(r, "air"), Partner: form.GetWord(r, "partner")},
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputePartLife(in)
	if err != nil {
		return err
	}
	if res.Asked {
		a.PutWord("verdict", res.Verdict())
		form.PutSaid(a, "chance", unit.Ratio(res.Lasts.P), res.Lasts.Words())
	}
	putLives(a, res)
	putShape(a, res)
	putEffects(a, in, res)
	sayPartLife(a, in, res)
	plotLife(a, in, res)
	return nil
}
