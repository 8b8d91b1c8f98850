package job

import (
	"slices"

	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/handling"
	"kerfside/calc/money"
	"kerfside/calc/site"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Calculators lists this package's calculators.
var Calculators = []*form.Declaration{&JobPlan}

// The longest list that is played: more is more than a day.
const (
	MostCuts   = 60
	mostPieces = 200
)

// inRows are the keys of a plan that each row of the cut list has for itself.
var inRows = []string{"metal", "alloy", "thickness", "start", "surface", "position", "hand"}

// cutsField is the cut list.
func cutsField() form.Field {
	plan := cutting.PlanFields()
	fields := slices.Concat(
		[]form.Field{{Key: "name", Label: "Name", Takes: form.Text(), Optional: true}},
		form.Pick(plan, "metal", "alloy", "thickness"),
		handling.CutShapeFields(),
		[]form.Field{
			{Key: "count", Label: "How many", Takes: form.Count(), Default: "1", Basis: source.Neutral, Chips: []string{"1", "2", "4", "6", "8", "12"}, Limits: form.WithinCount(1, mostPieces)},
			{Key: "pierces", Label: "Pierces in each", Takes: form.Count(), Default: "0", Basis: source.Neutral, Chips: []string{"0", "1", "2", "4"}, Limits: form.WithinCount(0, 100)},
		},
		form.Pick(plan, "start", "surface", "position", "hand"),
	)
	return form.Field{Key: "cuts", Label: "Cuts", Help: "In the order in which you make them", Takes: form.List(form.EachRow{
		Name: "Cut", Shown: "{name} · {count} × {shape?} {length} {width} {height} {diameter} {bore} · {thickness} {metal} · {pierces|pierce|pierces}", Bare: []string{"metal", "thickness", "length"}, Ordered: true, Most: MostCuts}, fields...)}
}

// minutes is a time of the hand.
func minutes(key, label, help, usual string, basis source.ID, chips ...string) form.Field {
	return form.Field{Key: key, Label: label, Help: help, Takes: form.Number[unit.Duration]("min", "min"), Default: usual, Basis: basis, Chips: chips, Fine: true, Limits: form.Within(0, 8*unit.Hour)}
}

// counted asks how many of the crew's own a time rests on.
func counted(key, label string) form.Field {
	return form.Field{Key: key, Label: label + ": counted how often", Help: "Of your own; 0 where the time is only assumed", Takes: form.Count(), Default: "0", Basis: source.Neutral, Fine: true, Limits: form.WithinCount(0, 100000)}
}

func handFields() []form.Field {
	return []form.Field{
		{Key: "marking", Label: "Marking out", Takes: form.OneOf("each", "Each piece before its cut", "waits", "The next ones while you wait", "first", "All before the first cut", "helper", "A helper marks out"), Default: "each"},
		minutes("mark_out", "Marking out a piece", "", "2min", "from-memory", "1min", "2min", "5min"), counted("mark_own", "Marking out"),
		minutes("move_piece", "To the next piece", "Torch, guide and clamp", "1min", "from-memory", "1min", "2min"), counted("move_own", "To the next piece"),
		minutes("move_row", "To the next row", "Other metal, other place, other settings", "3min", "from-memory", "2min", "5min"), counted("row_own", "To the next row"),
		minutes("between_runs", "From pierce to pierce", "", "20s", "from-memory"),
		minutes("part_change", "Changing tip or electrode", "Made dead, cooled, and back", "12min", source.CommonPractice, "5min", "12min"), counted("change_own", "Changing parts"),
		minutes("drain_stop", "Draining the trap", "", "2min", "from-memory"), counted("drain_own", "Draining"),
		minutes("drain_every", "Drain after so much arc", "0 if it drains by itself", "20min", source.CommonPractice, "0min", "20min"),
		minutes("trap_minutes", "Arc since the trap was drained", "", "0min", source.Neutral),
		minutes("gate", "May I cut", "Before the first cut", "2min", "from-memory"),
		minutes("inspect", "Looking at the parts", "Before the first cut", "5min", "from-memory"),
	}
}

// JobPlan is the calculator job-plan.
var JobPlan = form.Declaration{Name: "job-plan", Make: func() form.Calculator {
	price := func(keys ...string) []form.Field { return form.Pick(money.JobCost.Calculator().Fields, keys...) }
	labour := price("labour")
	labour[0].Optional = true
	return form.Calculator{
		Title: "Job plan",
		About: "Play a list of cuts through before it begins: how long it takes, whether it fits, what it needs and costs.",
		Place: "book",
		Terms: []string{"job", "cut list", "quote", "how long", "daylight", "schedule", "estimate", "time", "spares", "price"},
		Fields: slices.Concat([]form.Field{cutsField(),
			{Key: "window", Label: "Time that you have", Help: "Until dark, or until the customer wants you gone", Takes: form.Number[unit.Duration]("h", "h"), Optional: true, Chips: []string{"2h", "4h", "6h", "8h"}, Limits: form.Within(unit.Minute, 72*unit.Hour)},
			{Key: "window_for", Label: "It ends", Takes: form.OneOf("daylight", "With the light", "customer", "When all must be done, fire watch too"), Default: "daylight"}},
			[]form.Field{doneField()}, handFields(), partFields(),
			form.Without(site.SiteCheck.Calculator().Fields, append([]string{"share", "longest_cut"}, inRows...)...),
			[]form.Field{{Key: "fuel_rate", Label: "Fuel that the generator burns", Help: "Its book, at half load. Left empty: a third of a litre an hour for each kVA, from memory", Takes: form.Number[unit.Flow]("l/min", "l/min"), Optional: true, Fine: true, Limits: form.Within(0.001*unit.LitrePerMinute, 10*unit.LitrePerMinute)}},
			labour, price("overhead", "watch", "watch_rate", "set_price", "material", "energy_price", "compressor", "margin"),
		),
		Results: results(),
		Sources: []source.ID{"kerf-balance", "receiver", "iec-60974-1", "nfpa-51b-2019", "joe-kuo", source.CommonPractice, source.Judged},
		Run:     runJob,
	}
}}

func results() []form.Result {
	clock, some := form.Number[unit.Duration]("", ""), form.Number[unit.Duration]("", "").InDoubt()
	return []form.Result{
		{Key: "verdict", Label: "In short", Gives: form.Text(), Main: true},
		{Key: "work", Label: "To the last cut", Gives: clock, Main: true},
		{Key: "elapsed", Label: "With the fire watch", Gives: clock, Main: true},
		{Key: "price", Label: "Price", Gives: form.Number[unit.Money]("money", "money"), Main: true},
		{Key: "lasts", Label: "In the torch", Gives: form.Text(), Main: true},
		{Key: "binds", Label: "What holds it up most", Gives: form.Text(), Main: true},
		{Key: "spares", Label: "Carry", Gives: form.Text()},
		{Key: "chance", Label: "Chance that it fits", Gives: form.Number[unit.Ratio]("%", "%")},
		{Key: "arc", Label: "Arc time", Gives: some},
		{Key: "starts", Label: "Starts", Gives: form.Count()},
		{Key: "waits", Label: "Waiting for air", Gives: some},
		{Key: "cooling", Label: "Cooling", Gives: some},
		{Key: "cost", Label: "Cost", Gives: form.Number[unit.Money]("money", "money")},
		{Key: "per_length", Label: "Price of a length", Gives: form.Number[unit.MoneyPerLength]("per m", "per ft")},
		{Key: "energy", Label: "Energy", Gives: form.Number[unit.Energy]("kWh", "kWh").InDoubt()},
		{Key: "fuel", Label: "Fuel", Gives: form.Number[unit.Volume]("l", "gal").InDoubt()},
		{Key: "rows", Label: "Cut by cut", Gives: form.Rows("cut", "Cut", "say", "Setting", "arc", "Arc", "starts", "Starts", "wait", "Waits", "elapsed", "Takes")},
		{Key: "plan", Label: "Where the time goes", Gives: form.Rows("what", "What", "takes", "Takes")},
		{Key: "held_up", Label: "What holds it up", Gives: form.Rows("what", "What", "saves", "Without it sooner by")},
		{Key: "remedies", Label: "What would help", Gives: form.Rows("do", "Do", "saves", "Sooner by")},
		{Key: "unknowns", Label: "Not known", Gives: form.Rows("what", "What", "how", "How to find it")},
	}
}
