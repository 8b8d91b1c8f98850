package life

import (
	"kerfside/calc/form"
	"kerfside/calc/material"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Spares is the calculator spares; see ComputeNeed.
var Spares = form.Declaration{Name: "spares", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Spares to carry",
		About: "Find how many tips and electrodes to carry for a job, and what to buy.",
		Place: "book",
		Terms: []string{"stock", "buy", "order", "truck", "tips", "electrodes", "swirl ring", "diffuser", "cup", "enough", "parts", "wear", "set"},
		Fields: []form.Field{
			{Key: "job_minutes", Label: "Arc time of the job", Takes: form.Number[unit.Duration]("min", "min"), Help: "From the job's plan", Chips: []string{"10min", "30min", "60min", "2h"}, Limits: form.Within(0, 2000*unit.Hour)},
			{Key: "job_starts", Label: "Starts of the job", Takes: form.Count(), Optional: true, Help: "Each start wears a part too", Chips: []string{"20", "50", "100", "200"}, Limits: form.WithinCount(0, 1000000)},
			{Key: "metal", Label: "Metal", Known: "plan.metal", Takes: material.Choice(), Optional: true},
			{Key: "surface", Label: "Surface", Known: "plan.surface", Takes: form.OneOf("clean", "Clean", "rusty", "Rusty or scaled", "painted", "Painted", "galvanised", "Galvanised"), Optional: true},
			fitted("tip_minutes", "Arc time on the tip in the torch"), fittedStarts("tip_starts", "Starts on it"),
			fitted("electrode_minutes", "Arc time on the electrode"), fittedStarts("electrode_starts", "Starts on the electrode"),
			stock("tip_stock", "Spare tips you have"), stock("electrode_stock", "Spare electrodes you have"),
			stock("diffuser_stock", "Spare swirl rings you have"), stock("cup_stock", "Spare cups you have"),
			{Key: "level", Label: "Enough in", Takes: form.Number[unit.Ratio]("%", "%"), Default: "95%", Basis: source.CommonPractice, Help: "Of 100 jobs like this", Chips: []string{"80%", "90%", "95%", "99%"}, Limits: form.Within(50*unit.Percent, 99.5*unit.Percent)},
			{Key: "pair", Label: "Change both where the other is past half?", Takes: form.YesNo(), Default: "yes", Fine: true, Help: "A new tip on a pitted electrode is eaten"},
			LivesField("tip_lives", "tip"), LivesField("electrode_lives", "electrode"),
			fine(LivesField("diffuser_lives", "swirl ring")), fine(LivesField("cup_lives", "cup")),
			price("tip_price", "Price of a tip"), price("electrode_price", "Price of an electrode"), price("diffuser_price", "Price of a swirl ring"), price("cup_price", "Price of a cup"),
		},
		Results: []form.Result{
			{Key: "carry", Label: "Carry", Gives: form.Text(), Main: true},
			{Key: "buy", Label: "Buy", Gives: form.Text(), Main: true},
			{Key: "with_stock", Label: "What you have is enough in", Gives: form.Number[unit.Ratio]("%", "%"), Main: true},
			{Key: "short", Label: "Runs short first", Gives: form.Text()},
			{Key: "cost", Label: "That costs", Gives: form.Number[unit.Money]("money", "money")},
			{Key: "enough", Label: "What to carry is enough in", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "both_last", Label: "Tip and electrode both last the job in", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "tips", Label: "Spare tips", Gives: form.Count()},
			{Key: "electrodes", Label: "Spare electrodes", Gives: form.Count()},
			{Key: "tips_used", Label: "Tips used up, on average", Gives: form.Factor().InDoubt()},
			{Key: "electrodes_used", Label: "Electrodes used up, on average", Gives: form.Factor().InDoubt()},
			{Key: "parts", Label: "Part by part", Gives: form.Rows("part", "Part", "carry", "Carry", "have", "Have", "buy", "Buy")},
			{Key: "rests_on", Label: "Rests on", Gives: form.Text()},
		},
		Sources: []source.ID{source.CommonPractice, "birolini-2007"},
		Run:     runSpares,
	}
}}

func fitted(key, label string) form.Field {
	return form.Field{Key: key, Label: label, Takes: form.Number[unit.Duration]("min", "min"), Optional: true, Help: "From the journal. Left empty: new", Limits: form.Within(0, 2000*unit.Hour)}
}

func fittedStarts(key, label string) form.Field {
	return form.Field{Key: key, Label: label, Takes: form.Count(), Optional: true, Limits: form.WithinCount(0, 1000000)}
}

func stock(key, label string) form.Field {
	return form.Field{Key: key, Label: label, Takes: form.Count(), Optional: true, Help: "Beside the one in the torch", Chips: []string{"0", "1", "2", "5"}, Limits: form.WithinCount(0, 10000)}
}

func price(key, label string) form.Field {
	return form.Field{Key: key, Label: label, Takes: form.Number[unit.Money]("money", "money"), Optional: true, Fine: true, Limits: form.Within[unit.Money](0, 1e5)}
}

func fine(f form.Field) form.Field { f.Fine = true; return f }
