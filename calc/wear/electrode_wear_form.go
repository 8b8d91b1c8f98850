package wear

import (
	"slices"

	"kerfside/calc/form"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// ElectrodeWear is the calculator electrode-wear.
var ElectrodeWear = form.Declaration{Name: "electrode-wear", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Electrode wear",
		About: "Judge the pit of the electrode, and see how long it may last by your own readings.",
		Place: "fix",
		Terms: []string{"pit", "hafnium", "insert", "crater", "life", "starts", "worn", "parts", "change"},
		Fields: []form.Field{
			{Key: "depth", Label: "Pit depth", Known: "electrode.pit", Takes: form.Number[unit.Length]("mm", "in").As(unit.Kerf), Optional: true, Help: "Depth gauge or a drill shank against the face, electrode out and cold",
				Chips: []string{"0.5mm", "1mm", "1.5mm"}, ChipsUS: []string{"1/32in", "1/16in"}, Limits: form.Within(0, 10*unit.Millimetre)},
			{Key: "off_centre", Label: "Is the pit off centre?", Takes: form.YesNo(), Hazard: true},
			{Key: "limit", Label: "Change at", Takes: form.Number[unit.Length]("mm", "in").As(unit.Kerf), Default: "1.5mm", Basis: source.CommonPractice, Help: "The torch's manual wins", Limits: form.Within(0.1*unit.Millimetre, 10*unit.Millimetre)},
			{Key: "insert", Label: "Depth of the insert", Takes: form.Number[unit.Length]("mm", "in").As(unit.Kerf), Optional: true, Help: "Where: the torch's parts sheet. The pit never goes past it", Limits: form.Within(0.1*unit.Millimetre, 10*unit.Millimetre)},
			{Key: "starts", Label: "Starts on it so far", Takes: form.Count(), Optional: true, Help: "From the journal", Limits: form.WithinCount(0, 1000000)},
			{Key: "minutes", Label: "Arc time on it so far", Takes: form.Number[unit.Duration]("min", "min"), Optional: true, Help: "From the journal", Limits: form.Within(0, 2000*unit.Hour)},
			{Key: "readings", Label: "Readings of other electrodes", Takes: form.Text(), Optional: true, Fine: true, Help: "Starts, arc time and pit of each, such as 120:25min:0.4mm, 300:30min:0.8mm"},
			{Key: "job_starts", Label: "Starts in the job ahead", Takes: form.Count(), Optional: true, Limits: form.WithinCount(0, 1000000)},
			{Key: "job_minutes", Label: "Arc time in the job ahead", Takes: form.Number[unit.Duration]("min", "min"), Optional: true, Limits: form.Within(0, 2000*unit.Hour)},
			{Key: "confidence", Label: "Range holds", Takes: form.Number[unit.Ratio]("%", "%"), Default: "95%", Basis: source.CommonPractice, Fine: true, Limits: form.Within(50*unit.Percent, 99.9*unit.Percent)},
		},
		Results: slices.Concat([]form.Result{
			{Key: "verdict", Label: "Electrode", Gives: form.Text(), Main: true},
			{Key: "why", Label: "Because", Gives: form.Text()},
			{Key: "used", Label: "Of its pit used", Gives: form.Number[unit.Ratio]("%", "%"), Main: true},
			{Key: "limit", Label: "Change at", Gives: form.Number[unit.Length]("mm", "in").As(unit.Kerf)},
		}, outlookResults(form.Result{Key: "job_depth", Label: "Pit at its end", Gives: form.Number[unit.Length]("mm", "in").As(unit.Kerf)}), []form.Result{
			{Key: "per_start", Label: "Wear of a start", Gives: form.Number[unit.Length]("µm", "thou")},
			{Key: "per_minute", Label: "Wear of an arc minute", Gives: form.Number[unit.Length]("µm", "thou")},
			{Key: "deviation", Label: "Scatter of one reading", Gives: form.Number[unit.Length]("mm", "in").As(unit.Slack)},
			{Key: "rests_on", Label: "Readings it rests on", Gives: form.Count()},
		}),
		Sources: []source.ID{"jwst-concavity", "nemchinsky-2014", "lawson-hanson"},
		Run:     runElectrode,
	}
}}
