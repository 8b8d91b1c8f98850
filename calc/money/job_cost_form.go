package money

import (
	"kerfside/calc/form"
	"kerfside/calc/power"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// JobCost is the calculator job-cost.
var JobCost = form.Declaration{Name: "job-cost", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Job cost",
		About: "Add up hours, parts, power, air and fire watch for a job, and for a length of cut.",
		Place: "book",
		Terms: []string{"price", "quote", "labour", "hourly", "rate", "invoice", "per metre", "per foot", "operating factor", "bid"},
		Fields: []form.Field{
			{Key: "length", Label: "Length of all cuts", Takes: form.Number[unit.Length]("m", "ft"), Optional: true, Chips: []string{"1m", "5m", "10m"}, ChipsUS: []string{"5ft", "10ft", "30ft"}, Limits: form.Within(unit.Millimetre, 1e5*unit.Metre)},
			{Key: "speed", Label: "Travel speed", Known: "plan.speed", Takes: form.Number[unit.Speed]("mm/min", "in/min"), Optional: true, Help: "From the cut plan", Chips: []string{"500mm/min", "1000mm/min"}, ChipsUS: []string{"20in/min", "40in/min"},
				Limits: form.Within(10*unit.MillimetrePerMinute, 20*unit.MetrePerMinute)},
			{Key: "arc_time", Label: "Arc time instead", Takes: form.Number[unit.Duration]("min", "min"), Optional: true, Help: "From the journal, if you know it better", Limits: form.Within(unit.Second, 1000*unit.Hour)},
			{Key: "labour", Label: "Labour", Takes: form.Number[unit.MoneyRate]("per h", "per h"), Help: "What an hour of yours costs, wage and its charges", Chips: []string{"40", "65", "90"}, Limits: rates},
			{Key: "overhead", Label: "Overhead", Takes: form.Number[unit.MoneyRate]("per h", "per h"), Optional: true, Help: "Van, insurance, office, for each paid hour", Limits: rates},
			{Key: "factor", Label: "Operating factor", Takes: form.Number[unit.Ratio]("%", "%"), Default: "10%", Basis: "from-memory", Help: "Arc time over paid time at the cut. Stick welding has 30 %",
				Chips: []string{"5%", "10%", "20%", "30%"}, Limits: form.Within(0.5*unit.Percent, 100*unit.Percent)},
			{Key: "beside", Label: "Paid time beside the cut", Takes: form.Number[unit.Duration]("min", "min"), Default: "0min", Basis: source.Neutral, Help: "Driving, setting up, quoting", Chips: []string{"30min", "1h", "2h"}, Limits: form.Within(0, 1000*unit.Hour)},
			{Key: "watch", Label: "Fire watch", Takes: form.Number[unit.Duration]("min", "min"), Default: "60min", Basis: "nfpa-51b-2019", Chips: []string{"30min", "60min"}, Limits: form.Within(0, 24*unit.Hour)},
			{Key: "watch_rate", Label: "Who watches costs", Takes: form.Number[unit.MoneyRate]("per h", "per h"), Optional: true, Fine: true, Help: "Left empty: labour and overhead", Limits: rates},
			{Key: "set_price", Label: "Tip and electrode", Takes: form.Number[unit.Money]("money", "money"), Optional: true, Help: "Price of one of each", Limits: prices},
			{Key: "set_life", Label: "They last, arc time", Takes: form.Number[unit.Duration]("min", "min"), Optional: true, Help: "From the journal, or your own count", Limits: form.Within(unit.Second, 1000*unit.Hour)},
			{Key: "material", Label: "Anything else bought", Takes: form.Number[unit.Money]("money", "money"), Default: "0", Basis: source.Neutral, Limits: prices},
			{Key: "current", Label: "Cutting current", Known: "plan.current", Takes: form.Number[unit.Current]("A", "A"), Optional: true, Help: "Left empty: power is not counted", Chips: []string{"40A", "60A"}, Limits: form.Within[unit.Current](1, 1000)},
			{Key: "arc_volts", Label: "Arc voltage", Takes: form.Number[unit.Voltage]("V", "V"), Optional: true, Fine: true, Basis: "iec-60974-1-load", Help: "Left empty: " + power.LoadLine(), Limits: form.Within(40*unit.Volt, 400*unit.Volt)},
			{Key: "efficiency", Label: "Efficiency of the machine", Takes: form.Number[unit.Ratio]("%", "%"), Default: "85%", Basis: "from-memory", Fine: true, Help: "Where: the rating plate", Limits: form.Within(30*unit.Percent, 100*unit.Percent)},
			{Key: "compressor", Label: "Compressor takes", Takes: form.Number[unit.Power]("kW", "kW"), Optional: true, Help: "From the supply, while it runs", Limits: form.Within(unit.Watt, 100*unit.Kilowatt)},
			{Key: "air_share", Label: "It runs, over arc time", Takes: form.Number[unit.Ratio]("%", "%"), Default: "200%", Basis: source.CommonPractice, Fine: true, Help: "After-flow and pumping up beside the arc", Limits: form.Within(0, 5000*unit.Percent)},
			{Key: "energy_price", Label: "Price of one kWh", Takes: form.Number[unit.Money]("money", "money"), Default: "0.30", Basis: source.CommonPractice, Help: "From a generator count the fuel: several times as much", Limits: prices},
			{Key: "margin", Label: "On top", Takes: form.Number[unit.Ratio]("%", "%"), Default: "0%", Basis: source.Neutral, Help: "Margin over cost", Chips: []string{"10%", "20%", "30%"}, Limits: form.Within(0, 1000*unit.Percent)},
		},
		Results: []form.Result{
			{Key: "total", Label: "The job costs", Gives: form.Number[unit.Money]("money", "money"), Main: true},
			{Key: "price", Label: "With what is on top", Gives: form.Number[unit.Money]("money", "money"), Main: true},
			{Key: "cut_per_length", Label: "A length of cut, cutting only", Gives: form.Number[unit.MoneyPerLength]("per m", "per ft"), Main: true},
			{Key: "per_length", Label: "A length of cut, the whole job", Gives: form.Number[unit.MoneyPerLength]("per m", "per ft")},
			{Key: "arc_time", Label: "Arc time", Gives: form.Number[unit.Duration]("min", "min")},
			{Key: "paid_time", Label: "Paid time", Gives: form.Number[unit.Duration]("", "")},
			{Key: "labour", Label: "Labour", Gives: form.Number[unit.Money]("money", "money")},
			{Key: "overhead", Label: "Overhead", Gives: form.Number[unit.Money]("money", "money")},
			{Key: "watch", Label: "Fire watch", Gives: form.Number[unit.Money]("money", "money")},
			{Key: "parts", Label: "Parts", Gives: form.Number[unit.Money]("money", "money")},
			{Key: "power", Label: "Power", Gives: form.Number[unit.Money]("money", "money")},
			{Key: "air", Label: "Air", Gives: form.Number[unit.Money]("money", "money")},
			{Key: "sets", Label: "Tips and electrodes used", Gives: form.Factor().InDoubt()},
			{Key: "energy", Label: "Energy", Gives: form.Number[unit.Energy]("kWh", "kWh")},
			{Key: "shares", Label: "Where it goes", Gives: form.Rows("what", "What", "cost", "Cost", "share", "Share")},
		},
		Sources: []source.ID{"navedtra-14251a"},
		Run:     runJob,
	}
}}

var (
	rates  = form.Within[unit.MoneyRate](0, 100000.0/3600)
	prices = form.Within[unit.Money](0, 1e7)
)
