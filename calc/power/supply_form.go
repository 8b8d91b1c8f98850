package power

import (
	"slices"

	"kerfside/calc/form"
	"kerfside/calc/guess"
	"kerfside/calc/margin"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Supply is the calculator supply.
var Supply = form.Declaration{Name: "supply", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Cord and socket",
		About: "Tells the volts that are left at the machine behind a cord, and the conductor that it takes.",
		Place: "ready",
		Terms: []string{"voltage drop", "extension cord", "cable size", "AWG", "mm²", "breaker", "ampacity", "input current", "low volts"},
		Fields: slices.Concat([]form.Field{
			{Key: "current", Label: "Current that the machine draws", Help: "Read while it cuts, or the rating plate's I1max. It flows whatever the volts. Or enter the cutting current below: then less volts make more amps.",
				Takes: form.Number[unit.Current]("A", "A"), Optional: true, Chips: []string{"15A", "20A", "30A", "40A"}, Limits: form.Within(0.5*unit.Ampere, 400*unit.Ampere)},
			{Key: "volts", Label: "Volts at the socket", Help: "Best read under load.", Takes: form.Number[unit.Voltage]("V", "V"), Chips: []string{"120V", "208V", "230V", "240V", "400V", "480V"},
				Limits: form.Within(90*unit.Volt, 700*unit.Volt)},
			sizeField("Size of the cord", "Printed on its jacket: AWG, or mm² of one conductor."),
			{Key: "length", Label: "Length of the cord", Help: "One way, all pieces together.", Takes: form.Number[unit.Length]("m", "ft"), Chips: []string{"10m", "25m", "50m"}, ChipsUS: []string{"25ft", "50ft", "100ft"},
				Limits: form.Within(0.5*unit.Metre, 1000*unit.Metre)},
			phasesField(),
			{Key: "duty", Label: "Duty cycle at that current", Help: "Where: the rating plate.", Takes: form.Number[unit.Ratio]("%", "%"), Optional: true, Chips: []string{"20%", "35%", "50%", "60%", "100%"},
				Limits: form.Within(unit.Percent, 100*unit.Percent)},
			{Key: "breaker", Label: "Breaker or fuse of the circuit", Takes: form.Number[unit.Current]("A", "A"), Optional: true, Chips: []string{"16A", "20A", "30A", "32A", "50A"},
				Limits: form.Within(unit.Ampere, 800*unit.Ampere)},
			{Key: "least_volts", Label: "Least volts that the machine runs on", Help: "In its manual. At more than 10 % under load it may stop.", Takes: form.Number[unit.Voltage]("V", "V"), Optional: true, Fine: true,
				Limits: form.Within(60*unit.Volt, 700*unit.Volt)},
			{Key: "idle_current", Label: "Current between cuts", Takes: form.Number[unit.Current]("A", "A"), Default: "0A", Basis: source.Neutral, Fine: true, Limits: form.Within(0*unit.Ampere, 50*unit.Ampere)},
			strandField(), copperField(),
		}, machineFields()),
		Results: []form.Result{
			{Key: "volts_at_machine", Label: "Volts at the machine", Gives: form.Number[unit.Voltage]("V", "V"), Main: true},
			{Key: "percent", Label: "Lost in the cord", Gives: form.Number[unit.Ratio]("%", "%"), Main: true},
			{Key: "drop", Label: "Volts lost", Gives: form.Number[unit.Voltage]("V", "V")},
			{Key: "verdict", Label: "Against 3 % and 5 %", Gives: form.Text(), Main: true},
			{Key: "current", Label: "Current drawn", Gives: form.Number[unit.Current]("A", "A")},
			{Key: "size_for_3", Label: "Thinnest conductor for 3 %, by volts alone", Gives: form.Text()},
			{Key: "size_for_5", Label: "Thinnest conductor for 5 %, by volts alone", Gives: form.Text()},
			{Key: "reach_for_3", Label: "This cord reaches, for 3 %", Gives: form.Number[unit.Length]("m", "ft")},
			{Key: "reach_for_5", Label: "This cord reaches, for 5 %", Gives: form.Number[unit.Length]("m", "ft")},
			{Key: "current_for_3", Label: "Largest current through it, for 3 %", Gives: form.Number[unit.Current]("A", "A")},
			{Key: "current_for_5", Label: "Largest current through it, for 5 %", Gives: form.Number[unit.Current]("A", "A")},
			{Key: "largest_cutting", Label: "Largest cutting current here", Gives: form.Number[unit.Current]("A", "A")},
			{Key: "k_drop", Label: "Volts lost by the K form", Gives: form.Number[unit.Voltage]("V", "V")},
			{Key: "heat", Label: "Heat in the cord", Gives: form.Number[unit.Power]("W", "W")},
			{Key: "factor", Label: "Factor of NEC 630.11(A)", Gives: form.Factor()},
			{Key: "ampacity_needed", Label: "Supply conductors must carry", Gives: form.Number[unit.Current]("A", "A")},
			{Key: "effective_current", Label: "Effective supply current", Gives: form.Number[unit.Current]("A", "A")},
			{Key: "breaker_most", Label: "Largest overcurrent device (NEC 630.12)", Gives: form.Number[unit.Current]("A", "A")},
			{Key: "breaker_verdict", Label: "Breaker against the effective current", Gives: form.OneOf(margin.Words...)},
			{Key: "volts_margin", Label: "Volts that may still be lost", Gives: form.Number[unit.Ratio]("%", "%")},
		},
		Sources: []source.ID{"nec-ch9-t8", "iec-60228", "nec-630-11", "nec-210-19", "iec-60364-5-52", "iec-60974-1"},
		Run:     runSupply,
	}
}}

// readSupply reads all fields. output is 0 where the current that flows was given
// instead of the cutting current.
func readSupply(r *form.Reader) (in SupplyInput, m Machine, arc unit.Voltage, output unit.Current, err error) {
	in = SupplyInput{
		Current:   form.Get[unit.Current](r, "current"),
		Volts:     form.Get[unit.Voltage](r, "volts"),
		Cord:      Cord{Length: form.Get[unit.Length](r, "length"), Phases: getPhases(r)},
		Duty:      form.Get[unit.Ratio](r, "duty"),
		Idle:      form.Get[unit.Current](r, "idle_current"),
		Breaker:   form.Get[unit.Current](r, "breaker"),
		LeastVolt: form.Get[unit.Voltage](r, "least_volts"),
	}
	in.Cord.Conductor, in.Strand, in.Cord.At = getConductor(r)
	m, arc, output = getMachine(r)
	onlyOne(r, "current", "output_current", "the current")
	if !r.Given("current") && !r.Given("output_current") {
		r.Fail("current", problem.New(problem.Missing, "current", "no current is given", "Enter what the machine draws, or the cutting current."))
	}
	if output > 0 {
		_, in.Draw = m.Draw(arc, output)
	}
	return in, m, arc, output, r.Err()
}

func runSupply(r *form.Reader, a *form.Answer) error {
	in, machine, arc, output, err := readSupply(r)
	if err != nil {
		return err
	}
	if output > 0 {
		a.Step("I1 = U2·I2/(η·λ·U1%s) = %s × %s / (%.3g × %.3g × %s%s) = %s with all volts of the socket", root3(in.Cord.Phases), form.Say(a, arc), form.Say(a, output),
			float64(machine.Efficiency), float64(machine.PowerFactor), form.Say(a, in.Volts), root3(in.Cord.Phases), form.Say(a, Current(in.Draw, in.Volts, in.Cord.Phases)))
	}
	res, err := ComputeSupply(in)
	if err != nil {
		return err
	}
	var guesses []guess.Guess
	if output > 0 {
		guesses = guess.Of("power_factor", "efficiency=machine_efficiency")
	}
	judge := func(what string, verdict func(SupplyInput, SupplyResult) margin.Verdict) margin.Verdict {
		return guess.Judge(a, r, what, verdict(in, res), guesses, func(r *form.Reader) (margin.Verdict, bool) {
			in, _, _, _, err := readSupply(r)
			if err != nil {
				return "", false
			}
			res, err := ComputeSupply(in)
			return verdict(in, res), err == nil
		})
	}
	res.Breaker = judge("The breaker", func(_ SupplyInput, res SupplyResult) margin.Verdict { return res.Breaker })
	judge("The cord", func(in SupplyInput, _ SupplyResult) margin.Verdict { return margin.Judge(in.CordMargin()) })
	putSupply(a, in, res)
	if output > 0 {
		putLargest(a, in, machine, form.Get[unit.Voltage](r, "output_volts"))
	}
	return nil
}

func root3(phases int) string {
	if phases == 3 {
		return "·√3"
	}
	return ""
}
