package air

import (
	"kerfside/calc/form"
	"kerfside/calc/guess"
	"kerfside/calc/margin"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// walls are the inner faces to choose from. Smooth drawn rubber or plastic:
// 0.0015 mm; commercial steel: 0.0018 in, with which the air table of Crane
// TP-410 comes out.
var walls = map[string]unit.Length{"hose": 0.0015 * unit.Millimetre, "steel": 0.0018 * unit.Inch}

// AirHose is the calculator air-hose.
var AirHose = form.Declaration{Name: "air-hose", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Air hose",
		About: "See the pressure left at the torch while air flows, and which bore would do.",
		Place: "ready",
		Terms: []string{"pressure drop", "hose", "pipe", "sag", "coupler", "quick connect", "bore", "inside diameter", "low pressure"},
		Fields: []form.Field{
			{Key: "flow", Label: "Air flow", Help: "Free air while the valve is open: on the machine's plate.",
				Takes: form.Number[unit.Flow]("l/min", "cfm"), Chips: []string{"120l/min", "170l/min"}, ChipsUS: []string{"5cfm", "6.5cfm"}, Limits: form.Within(unit.LitrePerMinute, largestFlow)},
			{Key: "length", Label: "Length of hose", Takes: form.Number[unit.Length]("m", "ft"), Chips: []string{"7.5m", "15m", "30m"}, ChipsUS: []string{"25ft", "50ft", "100ft"},
				Limits: form.Within(0.1*unit.Metre, 5000*unit.Metre)},
			{Key: "bore", Label: "Bore of the hose", Help: "Inside diameter, printed on the hose.",
				Takes: form.Number[unit.Length]("mm", "in").As(unit.Plate), Chips: []string{"6mm", "8mm", "10mm", "13mm"}, ChipsUS: []string{"1/4in", "3/8in", "1/2in"}, Limits: form.Within(narrowestBore, widestBore)},
			{Key: "pressure", Label: "Pressure before the hose", Help: "Gauge pressure at the regulator, read while air flows.",
				Takes: form.Number[unit.Pressure]("bar", "psi"), Default: "6.2bar", Basis: "common-practice", Chips: []string{"6bar", "7bar", "8bar"}, ChipsUS: []string{"90psi", "100psi", "120psi"},
				Limits: form.Within(0.1*unit.Bar, 40*unit.Bar)},
			{Key: "needed", Label: "Pressure the machine needs", Help: "Gauge pressure at its inlet while air flows: its plate or manual.",
				Takes: form.Number[unit.Pressure]("bar", "psi"), Optional: true, Limits: form.Within(0.1*unit.Bar, 40*unit.Bar)},
			{Key: "couplers", Label: "Couplers in the line", Help: "One at each end of each hose is usual.", Takes: form.Count(), Default: "2", Basis: "common-practice",
				Chips: []string{"0", "2", "4"}, Limits: form.WithinCount(0, 20)},
			{Key: "coupler_c", Label: "Sonic conductance C of a coupler", Help: "ISO 6358 figure on its data sheet.", Takes: form.Number[unit.Conductance]("l/(s·bar)", "l/(s·bar)"),
				Default: "4 l/(s·bar)", Basis: "from-memory", Fine: true, Limits: form.Within(0.05*unit.LitrePerSecondBar, 500*unit.LitrePerSecondBar)},
			{Key: "coupler_b", Label: "Critical pressure ratio b of a coupler", Takes: form.Factor(), Default: "0.3", Basis: "from-memory", Fine: true, Limits: form.Limits{Min: 0, Max: 0.9, Set: true}},
			{Key: "coupler_flow", Label: "or: its flow at 6 bar with 0.5 bar lost", Help: "Free air, from the coupler's data sheet. It takes the place of C.",
				Takes: form.Number[unit.Flow]("l/min", "cfm"), Optional: true, Fine: true, Limits: form.Within(10*unit.LitrePerMinute, largestFlow)},
			{Key: "k", Label: "Loss of bends and valves, ΣK", Takes: form.Factor(), Default: "0", Basis: source.Neutral, Fine: true, Limits: form.Limits{Min: 0, Max: 1000, Set: true}},
			{Key: "fittings_length", Label: "or: their equivalent length", Help: "A rule of thumb is 1.5 m (5 ft) of half-inch pipe for each fitting.",
				Takes: form.Number[unit.Length]("m", "ft"), Default: "0m", Basis: source.Neutral, Fine: true, Limits: form.Within(0, 1000*unit.Metre)},
			{Key: "wall", Label: "Inner wall", Takes: form.OneOf("hose", "smooth hose, 0.0015 mm", "steel", "steel pipe, 0.0018 in", "other", "as entered"), Default: "hose", Fine: true},
			{Key: "roughness", Label: "Roughness of the wall", Takes: form.Number[unit.Length]("mm", "in").As(unit.Kerf), Only: form.When("wall", "other"), Fine: true,
				Limits: form.Within(0, 2*unit.Millimetre)},
			{Key: "temperature", Label: "Temperature of the air in the hose", Takes: form.Number[unit.Temperature]("°C", "°F"), Default: "20°C", Basis: "iso-8787", Fine: true,
				Limits: form.Within(unit.Celsius(-40), unit.Celsius(80))},
			altitudeField(),
			referenceField(),
		},
		Results: []form.Result{
			{Key: "at_torch", Label: "Pressure at the machine", Gives: form.Number[unit.Pressure]("bar", "psi"), Main: true},
			{Key: "drop", Label: "Lost in the hose", Gives: form.Number[unit.Pressure]("bar", "psi"), Main: true},
			{Key: "choked", Label: "Choked: that flow cannot pass", Gives: form.YesNo()},
			{Key: "verdict", Label: "Hose", Gives: form.OneOf("ok", "Wide enough", "tight", "Only just wide enough", "fails", "Too thin for its length", "doubt", "May be too thin for its length", "choked", "That flow cannot pass"), Main: true},
			{Key: "margin", Label: "Flow to spare", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "largest_flow", Label: "Largest flow this line serves", Gives: form.Number[unit.Flow]("l/min", "cfm")},
			{Key: "bore_needed", Label: "Smallest bore that would do", Gives: form.Number[unit.Length]("mm", "in").As(unit.Kerf)},
			{Key: "bore_to_buy", Label: "Next common bore", Gives: form.Number[unit.Length]("mm", "in").As(unit.Plate)},
			{Key: "speed_in", Label: "Speed of the air at the inlet", Gives: form.Number[unit.Speed]("m/s", "ft/min")},
			{Key: "speed_out", Label: "Speed of the air at the outlet", Gives: form.Number[unit.Speed]("m/s", "ft/min")},
			{Key: "reynolds", Label: "Reynolds number", Gives: form.Factor()},
			{Key: "friction", Label: "Friction factor (Darcy)", Gives: form.Factor()},
		},
		Sources: []source.ID{"tp410-b15", "fluids", "iso-6358", "iso-2533"},
		Run:     runHose,
	}
}}

// readHose reads all fields.
func readHose(r *form.Reader) (HoseInput, error) {
	in := HoseInput{
		Flow:      form.Get[unit.Flow](r, "flow"),
		Pressure:  form.Get[unit.Pressure](r, "pressure"),
		Needed:    form.Get[unit.Pressure](r, "needed"),
		Fittings:  form.Get[unit.Length](r, "fittings_length"),
		Altitude:  form.Get[unit.Length](r, "altitude"),
		Reference: getReference(r),
		Line: Line{
			Bore:        form.Get[unit.Length](r, "bore"),
			Length:      form.Get[unit.Length](r, "length"),
			Loss:        form.GetFactor(r, "k"),
			Couplers:    form.GetCount(r, "couplers"),
			Temperature: form.Get[unit.Temperature](r, "temperature"),
		},
	}
	in.Line.Roughness = getWall(r)
	in.Line.Coupler = getCoupler(r)
	return in, r.Err()
}

func runHose(r *form.Reader, a *form.Answer) error {
	in, err := readHose(r)
	if err != nil {
		return err
	}
	res, err := ComputeHose(in)
	if err != nil {
		return err
	}
	if in.Needed > 0 && !res.Choked {
		guesses := guess.Of("pressure", "couplers")
		if !r.Given("coupler_flow") {
			guesses = append(guesses, guess.Of("coupler_c")...)
		}
		a.PutWord("verdict", string(guess.Judge(a, r, "The hose", res.Verdict, guesses, func(r *form.Reader) (margin.Verdict, bool) {
			in, err := readHose(r)
			if err != nil {
				return "", false
			}
			res, err := ComputeHose(in)
			return res.Verdict, err == nil && !res.Choked
		})))
	}
	putHose(a, in, res)
	workHose(a, in, res)
	return nil
}

// getWall reads the roughness of the wall.
func getWall(r *form.Reader) unit.Length {
	entered := form.Get[unit.Length](r, "roughness")
	word := form.GetWord(r, "wall")
	if known, ok := walls[word]; ok {
		if r.Given("roughness") {
			r.Fail("roughness", problem.New(problem.Conflict, "roughness", "a roughness was entered, but the wall is "+word,
				"Set wall to other, or leave the roughness out."))
		}
		return known
	}
	return entered
}

// getCoupler reads what a coupler passes.
func getCoupler(r *form.Reader) Coupler {
	c := Coupler{C: form.Get[unit.Conductance](r, "coupler_c"), B: unit.Ratio(form.GetFactor(r, "coupler_b"))}
	if q := form.Get[unit.Flow](r, "coupler_flow"); q > 0 {
		if r.Given("coupler_c") {
			r.Fail("coupler_flow", problem.New(problem.Conflict, "coupler_flow", "the coupler has a conductance and a flow", "Enter one of the two."))
		}
		return CouplerFromFlow(q, c.B)
	}
	return c
}
