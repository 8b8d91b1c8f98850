package site

import (
	"slices"

	"kerfside/calc/air"
	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/margin"
	"kerfside/calc/power"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
	"kerfside/calc/wear"
)

// workFields say how the arc is used.
func workFields() []form.Field {
	return []form.Field{
		{Key: "share", Label: "Arc burns", Help: "Part of the time that you mean to cut, over ten minutes.", Takes: form.Number[unit.Ratio]("%", "%"), Default: "30%", Basis: "from-memory",
			Chips: []string{"10%", "30%", "50%", "80%"}, Limits: form.Within(unit.Percent, 100*unit.Percent)},
		{Key: "longest_cut", Label: "Longest cut in one go", Takes: form.Number[unit.Length]("mm", "in").As(unit.Marking), Default: "500mm", Basis: "from-memory", Chips: []string{"200mm", "500mm", "1000mm"}, ChipsUS: []string{"12in", "36in"},
			Limits: form.Within(10*unit.Millimetre, 20*unit.Metre)},
		{Key: "after_flow", Label: "After-flow", Help: "How long the air blows on behind each cut.", Takes: form.Number[unit.Duration]("s", "s"), Default: "20s", Basis: "from-memory", Fine: true,
			Limits: form.Within(0*unit.Second, 2*unit.Minute)},
	}
}

// plateFields are the rig's plates and the readings of its parts.
func plateFields() []form.Field {
	return slices.Concat(power.InletFields(), form.Owned(form.OfPlate, "", []form.Field{
		{Key: "air_need", Label: "Air that the machine takes", Help: "Plate: free air while the valve is open.", Takes: form.Number[unit.Flow]("l/min", "cfm"), Optional: true,
			Chips: []string{"120l/min", "170l/min"}, ChipsUS: []string{"4.5cfm", "6.5cfm"}, Limits: form.Within(10*unit.LitrePerMinute, 2000*unit.LitrePerMinute)},
		{Key: "air_least", Label: "Least pressure at its inlet", Help: "Plate or manual, gauge, while air flows.", Takes: form.Number[unit.Pressure]("bar", "psi"), Default: "5bar", Basis: "common-practice",
			Chips: []string{"4.5bar", "5bar", "5.5bar"}, ChipsUS: []string{"65psi", "75psi", "90psi"}, Limits: form.Within(unit.Bar, 15*unit.Bar)},
		{Key: "machine_efficiency", Label: "Efficiency of the machine", Help: "Rating plate or manual.", Takes: form.Number[unit.Ratio]("%", "%"), Default: "85%", Basis: "from-memory", Fine: true, Limits: form.Within(30*unit.Percent, 100*unit.Percent)},
		{Key: "power_factor", Label: "Power factor of the machine", Help: "Rating plate or manual; with correction 0.95 or more.", Takes: form.Factor(), Default: "0.7", Basis: "from-memory", Fine: true, Limits: form.Limits{Min: 0.3, Max: 1, Set: true}},
	}...), []form.Field{
		{Key: "tip_reading", Label: "Bore of the tip, as read", Known: "tip.dmax", Help: "The largest diameter of its last reading.", Takes: form.Number[unit.Length]("mm", "in").As(unit.Bore), Optional: true, Limits: form.Within(0.3*unit.Millimetre, 5*unit.Millimetre)},
		{Key: "tip_growth", Label: "Change the tip at", Takes: form.Number[unit.Ratio]("%", "%"), Default: "15%", Basis: "common-practice", Fine: true, Limits: form.Within(unit.Percent, 50*unit.Percent)},
		{Key: "pit", Label: "Pit of the electrode, as read", Known: "electrode.pit", Takes: form.Number[unit.Length]("mm", "in").As(unit.Kerf), Optional: true, Limits: form.Within(0*unit.Millimetre, 6*unit.Millimetre)},
		{Key: "pit_limit", Label: "Change the electrode at", Help: "Never past the depth of its insert.", Takes: form.Number[unit.Length]("mm", "in").As(unit.Kerf), Default: "1.5mm", Basis: "common-practice", Fine: true, Limits: form.Within(0.2*unit.Millimetre, 6*unit.Millimetre)},
	})
}

// airFields are the air, of the truck or of the site.
func airFields() []form.Field {
	return slices.Concat(form.Owned(form.OfTruck, "compressor", []form.Field{
		{Key: "free_air", Label: "Compressor's free air", Help: "Delivered, by its plate.", Takes: form.Number[unit.Flow]("l/min", "cfm"), Optional: true, Chips: []string{"120l/min", "200l/min", "300l/min"}, ChipsUS: []string{"5cfm", "10cfm"},
			Limits: form.Within(unit.LitrePerMinute, 20000*unit.LitrePerMinute)},
		{Key: "tank", Label: "Its tank", Takes: form.Number[unit.Volume]("l", "gal"), Default: "50l", Basis: "common-practice", Chips: []string{"24l", "50l", "100l"}, ChipsUS: []string{"6gal", "20gal"}, Limits: form.Within(unit.Litre, 20*unit.CubicMetre)},
		{Key: "cut_in", Label: "It starts at", Takes: form.Number[unit.Pressure]("bar", "psi"), Default: "6.5bar", Basis: "common-practice", Limits: form.Within(unit.Bar, 40*unit.Bar)},
		{Key: "cut_out", Label: "It stops at", Takes: form.Number[unit.Pressure]("bar", "psi"), Default: "8bar", Basis: "common-practice", Limits: form.Within(unit.Bar, 40*unit.Bar)},
		{Key: "compressor_duty", Label: "It may run", Help: "Part of the time; its manual.", Takes: form.Number[unit.Ratio]("%", "%"), Default: "60%", Basis: "common-practice", Fine: true, Limits: form.Within(5*unit.Percent, 100*unit.Percent)},
		{Key: "regulator", Label: "Regulator before the hose", Help: "Read while air flows. Left empty: what the compressor starts at.", Takes: form.Number[unit.Pressure]("bar", "psi"), Optional: true, Fine: true, Limits: form.Within(unit.Bar, 40*unit.Bar)},
	}...), form.Owned(form.OfTruck, "hose", []form.Field{
		{Key: "hose_length", Label: "Air hose", Takes: form.Number[unit.Length]("m", "ft"), Optional: true, Chips: []string{"5m", "10m", "20m"}, ChipsUS: []string{"25ft", "50ft"}, Limits: form.Within(0.1*unit.Metre, 1000*unit.Metre)},
		{Key: "bore", Label: "Bore of the hose", Help: "Inside diameter, printed on it.", Takes: form.Number[unit.Length]("mm", "in").As(unit.Plate), Default: "9.5mm", Basis: "common-practice", Chips: []string{"6mm", "8mm", "10mm"}, ChipsUS: []string{"1/4in", "3/8in", "1/2in"}, Limits: form.Within(2*unit.Millimetre, 150*unit.Millimetre)},
		{Key: "couplers", Label: "Couplers in the line", Takes: form.Count(), Default: "2", Basis: "common-practice", Limits: form.WithinCount(0, 20)},
		{Key: "coupler_c", Label: "Sonic conductance C of a coupler", Takes: form.Number[unit.Conductance]("l/(s·bar)", "l/(s·bar)"), Default: "4 l/(s·bar)", Basis: "from-memory", Fine: true,
			Limits: form.Within(0.05*unit.LitrePerSecondBar, 500*unit.LitrePerSecondBar)},
	}...))
}

// setKeys are the keys of the generator on the site.
var setKeys = power.SetKeys{Rating: "generator", Motor: "compressor_power"}

// powerFields are the site's power, with the truck's cord.
func powerFields() []form.Field {
	return slices.Concat(form.Owned(form.OfSite, "", []form.Field{
		{Key: "phases", Label: "Phases", Takes: form.OneOf("1", "one", "3", "three"), Default: "1"},
	}...), form.Owned(form.OfTruck, "cord", []form.Field{
		{Key: "size", Label: "Size of the cord", Help: "Printed on its jacket: AWG or mm².", Takes: form.Text(), Default: "10AWG", Basis: "common-practice", Chips: []string{"2.5mm²", "4mm²", "6mm²"}, ChipsUS: []string{"12AWG", "10AWG", "8AWG"}},
		{Key: "cord_length", Label: "Length of the cord", Help: "One way, all pieces together; 0 if there is none.", Takes: form.Number[unit.Length]("m", "ft"), Optional: true, Chips: []string{"0m", "10m", "25m", "50m"}, ChipsUS: []string{"0ft", "25ft", "50ft", "100ft"}, Limits: form.Within(0*unit.Metre, 1000*unit.Metre)},
	}...), form.Owned(form.OfSite, "", []form.Field{
		{Key: "drop_advice", Label: "Volts that the cord may lose", Help: "Choose the cord for 5 %. Past 10 % under load the machine may stop: its manual says what it bears.", Takes: form.Number[unit.Ratio]("%", "%"), Default: "5%", Basis: "nec-210-19", Fine: true,
			Limits: form.Within(unit.Percent, 20*unit.Percent)},
		{Key: "breaker", Label: "Breaker", Takes: form.Number[unit.Current]("A", "A"), Optional: true, Chips: []string{"16A", "20A", "32A", "50A"}, Limits: form.Within(unit.Ampere, 800*unit.Ampere)},
	}...), form.Owned(form.OfSite, "", power.SetFields(setKeys)...), form.Owned(form.OfTruck, "compressor", power.MotorFields(setKeys)...), form.Owned(form.OfSite, "", []form.Field{
		{Key: "compressor_first", Label: "It starts before the arc and not while you cut", Takes: form.YesNo(), Default: "no", Fine: true},
	}...))
}

func placeFields() []form.Field {
	return form.Owned(form.OfSite, "", []form.Field{
		{Key: "altitude", Label: "Altitude", Takes: form.Number[unit.Length]("m", "ft"), Default: "0m", Basis: source.Neutral, Limits: form.Within(-500*unit.Metre, 5000*unit.Metre)},
		{Key: "temperature", Label: "Air temperature", Help: "In the sun or a closed truck it is hotter than the weather says.", Takes: form.Number[unit.Temperature]("°C", "°F"), Default: "20°C", Basis: "iso-8787",
			Chips: []string{"20°C", "30°C", "40°C"}, ChipsUS: []string{"70°F", "100°F"}, Limits: form.Within(unit.Celsius(-40), unit.Celsius(60))},
		{Key: "humidity", Label: "Relative humidity", Help: "The weather report; left empty, water is not reckoned.", Takes: form.Number[unit.Ratio]("%", "%"), Optional: true,
			Chips: []string{"40%", "60%", "80%", "100%"}, Limits: form.Within(5*unit.Percent, 100*unit.Percent)},
	}...)
}

// SiteCheck is the calculator site-check.
var SiteCheck = form.Declaration{Name: "site-check", Make: func() form.Calculator {
	return form.Calculator{
		Title:  "What can I cut here?",
		About:  "Do this site's air and power hold for the planned cut? It says what gives out first, what would help, and what can be cut here.",
		Place:  "ready",
		Terms:  []string{"site", "binding limit", "weak link", "compressor", "hose", "cord", "generator", "duty", "remedy", "what gives out first"},
		Fields: slices.Concat(cutting.PlanFields(), workFields(), plateFields(), airFields(), powerFields(), placeFields()),
		Results: []form.Result{
			{Key: "verdict", Label: "Verdict", Gives: form.OneOf(margin.Words...), Main: true},
			{Key: "say", Label: "In short", Gives: form.Text(), Main: true},
			{Key: "grade", Label: "This rig", Gives: cutting.GradeChoice(), Main: true},
			{Key: "binding", Label: "Gives out first", Gives: form.OneOf(names...), Main: true},
			{Key: "margin", Label: "To spare there", Gives: form.Number[unit.Ratio]("%", "%"), Main: true},
			{Key: "air", Label: "Air", Gives: form.OneOf(margin.Words...)},
			{Key: "power", Label: "Power", Gives: form.OneOf(margin.Words...)},
			{Key: "duty", Label: "Duty", Gives: form.OneOf(margin.Words...)},
			{Key: "parts", Label: "Parts", Gives: form.OneOf(margin.Words...)},
			{Key: "here", Label: "Holds here, as far as it is known", Gives: form.Rows("say", "Setting", "speed", "Speed", "tip", "Tip", "pressure", "Air")},
			{Key: "unknowns", Label: "Not known", Gives: form.Rows("what", "What", "how", "How to find it")},
			{Key: "from", Label: "Where that comes from", Gives: form.Text()},
			{Key: "checks", Label: "All that was checked", Gives: form.Rows("check", "Check", "verdict", "Verdict", "margin", "To spare", "because", "Because")},
			{Key: "remedies", Label: "What would help", Gives: form.Rows("check", "For the", "do", "Do")},
			{Key: "current", Label: "Current", Gives: form.Number[unit.Current]("A", "A")},
			{Key: "pressure", Label: "Air pressure, while it flows", Gives: form.Number[unit.Pressure]("bar", "psi")},
			{Key: "speed", Label: "Travel speed", Gives: form.Number[unit.Speed]("mm/min", "in/min").InDoubt()},
			{Key: "arc_on", Label: "Rhythm, by plate and air: cut", Gives: form.Number[unit.Duration]("", "")},
			{Key: "arc_rest", Label: "then rest", Gives: form.Number[unit.Duration]("", "")},
			{Key: "largest_current", Label: "Largest current that holds", Gives: form.Number[unit.Current]("A", "A")},
			{Key: "cut", Label: "Cut for", Gives: form.Number[unit.Duration]("", "")},
			{Key: "wait", Label: "then wait", Gives: form.Number[unit.Duration]("", "")},
			{Key: "cut_time", Label: "The longest cut takes", Gives: form.Number[unit.Duration]("s", "s").InDoubt()},
			{Key: "drain", Label: "Drain the machine's trap every", Gives: form.Number[unit.Duration]("min", "min")},
			{Key: "water_class", Label: "Water class before the trap (ISO 8573-1)", Gives: form.Text()},
			{Key: "demand", Label: "Air while the valve is open", Gives: form.Number[unit.Flow]("l/min", "cfm")},
			{Key: "valve_open", Label: "Air valve open", Gives: form.Number[unit.Ratio]("%", "%")},
		},
		Sources: []source.ID{"kerf-balance", "iso-2533", "tp410-b15", "receiver", "nec-ch9-t8", "iec-60228", "nec-210-19", "tm-9-6115-673", "iec-60974-1", "iapws-if97", "iso-8573-1", source.CommonPractice},
		Run:     runSite,
	}
}}

// smoothWall is the roughness of drawn rubber or plastic hose.
const smoothWall = 0.0015 * unit.Millimetre

func readSite(r *form.Reader) (Input, error) {
	plan, planErr := cutting.ReadPlan(r)
	in := ReadPlace(r, plan)
	in.Share, in.Longest = form.Get[unit.Ratio](r, "share"), form.Get[unit.Length](r, "longest_cut")
	in.With = func(texts map[string]string) (Input, error) { return readSite(r.With(texts)) }
	if err := r.Err(); err != nil {
		return Input{}, err
	}
	return in, planErr
}

// ReadPlace reads all fields of site-check but how much of the time the arc burns and
// in which lengths, which a list of cuts tells better. Troubles stay in r.
func ReadPlace(r *form.Reader, plan cutting.PlanInput) Input {
	phases := 1
	if form.GetWord(r, "phases") == "3" {
		phases = 3
	}
	in := Input{
		Typed: r.Typed(),
		Plan:  plan, After: form.Get[unit.Duration](r, "after_flow"),
		AirNeed: form.Get[unit.Flow](r, "air_need"), AirLeast: form.Get[unit.Pressure](r, "air_least"),
		Machine: power.Machine{Efficiency: form.Get[unit.Ratio](r, "machine_efficiency"), PowerFactor: unit.Ratio(form.GetFactor(r, "power_factor"))},
		TipNow:  form.Get[unit.Length](r, "tip_reading"), TipGrowth: form.Get[unit.Ratio](r, "tip_growth"),
		Pit: form.Get[unit.Length](r, "pit"), PitLimit: form.Get[unit.Length](r, "pit_limit"),
		Compressor: air.TankInput{
			Free: form.Get[unit.Flow](r, "free_air"), Duty: form.Get[unit.Ratio](r, "compressor_duty"), Volume: form.Get[unit.Volume](r, "tank"),
			CutIn: form.Get[unit.Pressure](r, "cut_in"), CutOut: form.Get[unit.Pressure](r, "cut_out"),
		},
		Regulator: form.Get[unit.Pressure](r, "regulator"),
		Hose: air.Line{
			Bore: form.Get[unit.Length](r, "bore"), Length: form.Get[unit.Length](r, "hose_length"), Roughness: smoothWall,
			Couplers: form.GetCount(r, "couplers"), Coupler: air.Coupler{C: form.Get[unit.Conductance](r, "coupler_c"), B: usualRatio},
			Temperature: form.Get[unit.Temperature](r, "temperature"),
		},
		Volts: form.Get[unit.Voltage](r, "volts"), Cord: power.Cord{Length: form.Get[unit.Length](r, "cord_length"), Phases: phases}, Strand: power.Flexible,
		Advice: form.Get[unit.Ratio](r, "drop_advice"), Breaker: form.Get[unit.Current](r, "breaker"),
		Generator: power.ReadSet(r, setKeys),
		Altitude:  form.Get[unit.Length](r, "altitude"), Temperature: form.Get[unit.Temperature](r, "temperature"),
	}
	in.Humidity, in.Damp, in.Started = form.Get[unit.Ratio](r, "humidity"), r.Given("humidity"), form.GetYes(r, "compressor_first")
	in.Reference, _ = air.FindReference("anr")
	readCord(r, &in)
	readPlate(r, &in)
	readWorn(r, &in)
	in.Given, in.Said = r.Given, r.Said
	if in.Compressor.Free > 0 && in.Regulator > in.Compressor.CutOut {
		r.Fail("regulator", problem.Newf(problem.Conflict, "regulator", "a regulator passes no more than the tank holds, and the compressor stops at %s", r.Said("cut_out", form.GetText(r, "cut_out"))).
			WithHint("Read the gauge behind the regulator while air flows, or enter what the compressor stops at."))
	}
	if in.Compressor.CutIn >= in.Compressor.CutOut && r.Err() == nil {
		r.Fail("cut_in", problem.New(problem.Conflict, "cut_in", "the compressor would start at or above the pressure at which it stops", "Cut-in is the lower of the two pressures on the switch."))
	}
	return in
}

// usualRatio is the critical pressure ratio of a coupler (from memory).
const usualRatio unit.Ratio = 0.3

func readCord(r *form.Reader, in *Input) {
	text := form.GetText(r, "size")
	if text == "" {
		return
	}
	c, err := power.ParseConductor(text, in.Strand)
	if err != nil {
		r.Fail("size", err)
		return
	}
	in.Cord.Conductor, in.Cord.At = c, c.Warm()
}

// readPlate reads what the plate states of the inlet that the volts here pick.
func readPlate(r *form.Reader, in *Input) {
	inlet := power.ReadInlet(r)
	rating := power.ReadRating(r, inlet)
	in.Plate, in.LeastVolts, in.Idle = rating.Duty, rating.Least, rating.Idle
	in.Machine = rating.Machine(r, in.Machine, inlet, in.Plan.Rig.Max, in.phases())
}

// readWorn finds the tip that was read: the one fitted, else the one whose bore
// is next to the reading.
func readWorn(r *form.Reader, in *Input) {
	if in.TipNow == 0 {
		return
	}
	off := func(t cutting.Tip) unit.Length { return max(t.Orifice-in.TipNow, in.TipNow-t.Orifice) }
	for _, t := range in.Plan.Rig.Tips {
		if !t.Known() {
			continue // what it was new is not known
		}
		if t.Rated == in.Plan.Rig.Fitted {
			in.TipNew = t.Orifice
			break
		}
		if in.TipNew == 0 || off(t) < off(cutting.Tip{Orifice: in.TipNew}) {
			in.TipNew = t.Orifice
		}
	}
	if in.TipNew == 0 {
		return // no tip's bore is known
	}
	if err := wear.CheckReading(in.TipNew, in.TipNow); err != nil {
		r.Fail("tip_reading", err)
	}
}
