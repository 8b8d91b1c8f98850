package power

import (
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// adviceLead is the customary limit for all the volts lost between source and
// work, out and back. Source: AWS Safety and Health Fact Sheet 39.
const adviceLead = 4 * unit.Volt

// hotClamp is the heat above which a clamp gets too hot to hold (judgement of
// the authors: a soldering iron has as much).
const hotClamp = 30 * unit.Watt

// LeadInput is the way of the cutting current outside the source.
type LeadInput struct {
	Current unit.Current
	Lead    Conductor
	Length  unit.Length // of the work lead, one way
	At      unit.Temperature
	Loop    bool            // the torch's own conductor is as long and as thick again
	Clamp   unit.Resistance // of clamp and contact
	Dropped unit.Voltage    // measured from the lead's lug to the work; 0 if not measured
}

// LeadResult is what lead and clamp cost.
type LeadResult struct {
	Resistance  unit.Resistance // of the lead, both ways if Loop
	Clamp       unit.Resistance // as entered, or from the measured drop
	LeadDrop    unit.Voltage
	ClampDrop   unit.Voltage
	Drop        unit.Voltage
	LeadHeat    unit.Power
	ClampHeat   unit.Power
	WithinLimit bool
	Reach       unit.Length // of this lead within the limit, clamp included; 0 if the clamp takes it all
}

// ComputeLead returns the volts and the heat lost in work lead and clamp.
//
//	R = ρ·L/A (twice L for the loop)     ΔU = I·(R + R_clamp)     heat = I²·R
//
// The source holds the current, so a poor return costs arc volts, not amps: the
// arc fails to transfer or drops out on thick plate. Source: IEC 60228 and NEC
// chapter 9 table 8 (resistance), AWS Safety and Health Fact Sheet 39 (4 V).
func ComputeLead(in LeadInput) LeadResult {
	length := in.Length
	if in.Loop {
		length *= 2
	}
	res := LeadResult{Resistance: in.Lead.Resistance(length, in.At), Clamp: in.Clamp}
	if in.Dropped > 0 {
		res.Clamp = unit.Resistance(float64(in.Dropped) / float64(in.Current))
	}
	volts := func(r unit.Resistance) unit.Voltage { return unit.Voltage(float64(in.Current) * float64(r)) }
	heat := func(v unit.Voltage) unit.Power { return unit.Power(float64(v) * float64(in.Current)) }
	res.LeadDrop, res.ClampDrop = volts(res.Resistance), volts(res.Clamp)
	res.Drop = res.LeadDrop + res.ClampDrop
	res.LeadHeat, res.ClampHeat = heat(res.LeadDrop), heat(res.ClampDrop)
	res.WithinLimit = res.Drop <= adviceLead
	if left := adviceLead - res.ClampDrop; left > 0 {
		res.Reach = in.Length * unit.Length(left/res.LeadDrop)
	}
	return res
}

// WorkLead is the calculator work-lead.
var WorkLead = form.Declaration{Name: "work-lead", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Work lead and clamp",
		About: "See the volts lost in the work lead and its clamp, against the usual 4 V.",
		Place: "ready",
		Terms: []string{"ground clamp", "earth clamp", "return path", "will not transfer", "voltage drop", "lead", "hot clamp"},
		Fields: []form.Field{
			{Key: "current", Label: "Cutting current", Known: "plan.current", Takes: form.Number[unit.Current]("A", "A"), Chips: []string{"20A", "40A", "60A", "100A"}, Limits: form.Within(5*unit.Ampere, 1000*unit.Ampere)},
			sizeField("Size of the lead", "Printed on its jacket: AWG or mm²."),
			{Key: "length", Label: "Length of the work lead", Takes: form.Number[unit.Length]("m", "ft"), Chips: []string{"3m", "6m", "10m"}, ChipsUS: []string{"20ft", "50ft"}, Limits: form.Within(0.2*unit.Metre, 200*unit.Metre)},
			{Key: "loop", Label: "Count the torch's conductor as the same again", Help: "Yes for the whole way out and back.", Takes: form.YesNo(), Default: "no"},
			{Key: "clamp", Label: "Clamp and contact", Help: "Bright metal and a strong spring: 1 mΩ or less; paint or rust: 10 to 100 mΩ.",
				Takes: form.Number[unit.Resistance]("mΩ", "mΩ"), Default: "1mΩ", Basis: "common-practice", Fine: true, Limits: form.Within(0*unit.Ohm, 10*unit.Ohm)},
			{Key: "measured_drop", Label: "or: volts measured across the clamp", Help: "From the lead's lug to bare metal beside the clamp, while the arc burns; by somebody qualified.",
				Takes: form.Number[unit.Voltage]("V", "V"), Optional: true, Fine: true, Limits: form.Within(0.001*unit.Volt, 100*unit.Volt)},
			strandField(), copperField(),
		},
		Results: []form.Result{
			{Key: "drop", Label: "Volts lost", Gives: form.Number[unit.Voltage]("V", "V"), Main: true},
			{Key: "verdict", Label: "Against 4 V", Gives: form.OneOf("ok", "within", "over", "over: shorten, thicken or clean"), Main: true},
			{Key: "lead_drop", Label: "of that in the lead", Gives: form.Number[unit.Voltage]("V", "V")},
			{Key: "clamp_drop", Label: "of that in the clamp", Gives: form.Number[unit.Voltage]("V", "V")},
			{Key: "resistance", Label: "Resistance of the lead", Gives: form.Number[unit.Resistance]("mΩ", "mΩ")},
			{Key: "clamp_resistance", Label: "Resistance of the clamp", Gives: form.Number[unit.Resistance]("mΩ", "mΩ")},
			{Key: "lead_heat", Label: "Heat in the lead", Gives: form.Number[unit.Power]("W", "W")},
			{Key: "clamp_heat", Label: "Heat in the clamp", Gives: form.Number[unit.Power]("W", "W")},
			{Key: "reach", Label: "This lead reaches, within 4 V", Gives: form.Number[unit.Length]("m", "ft")},
		},
		Sources: []source.ID{"iec-60228", "nec-ch9-t8", "aws-fs39", "osha-254"},
		Run:     runLead,
	}
}}

func runLead(r *form.Reader, a *form.Answer) error {
	in := LeadInput{
		Current: form.Get[unit.Current](r, "current"),
		Length:  form.Get[unit.Length](r, "length"),
		Loop:    form.GetYes(r, "loop"),
		Clamp:   form.Get[unit.Resistance](r, "clamp"),
		Dropped: form.Get[unit.Voltage](r, "measured_drop"),
	}
	in.Lead, _, in.At = getConductor(r)
	if r.Given("clamp") && r.Given("measured_drop") {
		r.Fail("measured_drop", problem.New(problem.Conflict, "measured_drop", "the clamp is given twice", "Enter its resistance or the volts across it, not both."))
	}
	if err := r.Err(); err != nil {
		return err
	}
	res := ComputeLead(in)
	form.Put(a, "drop", res.Drop)
	a.PutWord("verdict", map[bool]string{true: "ok", false: "over"}[res.WithinLimit])
	form.Put(a, "lead_drop", res.LeadDrop)
	form.Put(a, "clamp_drop", res.ClampDrop)
	form.Put(a, "resistance", res.Resistance)
	form.Put(a, "clamp_resistance", res.Clamp)
	form.Put(a, "lead_heat", res.LeadHeat)
	form.Put(a, "clamp_heat", res.ClampHeat)
	form.Put(a, "reach", res.Reach)
	bar := func(label string, u unit.Voltage) form.Bar { return form.NewBar(a, label, u, "V", "V") }
	a.DrawBars("Volts lost on the way back", "What lead and clamp take from the arc, against the customary limit.",
		[]form.Bar{bar("in the lead", res.LeadDrop), bar("in the clamp", res.ClampDrop), bar("both", res.Drop).Past(!res.WithinLimit)}, bar("limit", adviceLead))
	a.Step("R of %s of %s at %s%s = %s", form.SayIn(a, in.Length, "m", "ft"), in.Lead.Label, form.Say(a, in.At), map[bool]string{true: ", out and back"}[in.Loop], form.Say(a, res.Resistance))
	a.Step("lead: %s × %s = %s", form.Say(a, in.Current), form.Say(a, res.Resistance), form.Say(a, res.LeadDrop))
	a.Step("clamp: %s × %s = %s, which makes %s of heat", form.Say(a, in.Current), form.Say(a, res.Clamp), form.Say(a, res.ClampDrop), form.Say(a, res.ClampHeat))
	a.Step("all: %s + %s = %s, against %s", form.Say(a, res.LeadDrop), form.Say(a, res.ClampDrop), form.Say(a, res.Drop), form.Say(a, adviceLead))
	if res.ClampHeat > hotClamp {
		a.Caution("This clamp gets too hot to hold. Stop, power off, and clean or replace it: bright metal, strong spring.")
	}
	a.Caution("Clamp bright metal close to the cut. " + safety.Return)
	return nil
}
