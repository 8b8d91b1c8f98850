package site

import (
	"strings"

	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/margin"
	"kerfside/calc/power"
	"kerfside/calc/unit"
)

// names of the checks inside a sentence.
var names = map[string]string{
	"hose": "the air hose", "compressor": "the compressor", "tank": "the tank", "cord": "the cord", "volts": "the volts at the machine", "breaker": "the breaker",
	"generator": "the generator", "duty": "the duty cycle", "thickness": "the thickness", "tip": "the tip", "electrode": "the electrode",
}

func runSite(r *form.Reader, a *form.Answer) error {
	in, err := readSite(r)
	if err != nil {
		return err
	}
	res, err := Compute(in)
	if err != nil {
		return err
	}
	cutting.AnswerPlan(a.Part(cutting.CutPlan.Calculator()), in.Plan, res.Plan) // who shows both need not reckon it twice
	a.PutWord("verdict", string(res.Binding.Verdict()))
	a.PutWord("say", sentence(a, in, res))
	a.PutWord("binding", res.Binding.Key)
	form.Put(a, "margin", res.Binding.Margin)
	for _, group := range groups {
		word := "unknown"
		if c, ok := res.Worst(group); ok {
			word = string(c.Verdict())
		}
		a.PutWord(group, word)
	}
	putChecks(a, res)
	putRemedies(a, res)
	form.Put(a, "current", res.Plan.Arc.Current)
	if res.Plan.Pressure > 0 {
		form.Put(a, "pressure", res.Plan.Pressure)
	}
	form.Put(a, "speed", res.Plan.Speed)
	if res.Largest > 0 {
		form.Put(a, "largest_current", res.Largest)
	}
	if burn, wait := res.Rhythm.Arc(in.After); burn > 0 {
		form.Put(a, "cut", burn)
		form.Put(a, "wait", wait)
	}
	form.Put(a, "cut_time", res.CutTime)
	form.Put(a, "valve_open", res.Open)
	if res.Water.Drain > 0 {
		form.Put(a, "drain", res.Water.Drain)
		a.PutWord("water_class", res.Water.Class)
		if res.Water.Liquid > 0 {
			a.Caution("Water reaches the machine today: drain the tank before you start, and fit a filter or dryer ahead of the machine for long spells.")
		}
	}
	a.Step("longest cut = %s at %s = %s", form.Say(a, in.Longest), form.SayIn(a, res.Plan.Speed, "mm/min", "in/min"), form.Say(a, res.CutTime))
	a.Step("valve open = %s of arc × (1 + %s after-flow ÷ %s) = %s", form.Say(a, in.Share), form.Say(a, in.After), form.Say(a, res.CutTime), form.Say(a, res.Open))
	for _, c := range res.Checks {
		a.Step("%s: %s", c.Key, c.Say(a.System()))
	}
	if in.Generator.PowerAlone {
		a.Caution(power.PowerAloneCaution)
	}
	a.Caution("Mains and generators: a licensed electrician decides what may be plugged in; keep residual-current protection on every supply.")
	a.Caution("Your torch's manual wins over every figure here. Read air pressure while it flows.")
	return nil
}

// sentence is the verdict of the day in one line.
func sentence(a *form.Answer, in Input, res Result) string {
	weak, spare := names[res.Binding.Key], form.Say(a, max(res.Binding.Margin, -res.Binding.Margin))
	switch res.Binding.Verdict() {
	case margin.OK:
		return "Runs. " + capital(weak) + " gives out first, with " + spare + " to spare."
	case margin.Tight:
		return "Runs, only just: " + weak + " has " + spare + " to spare."
	}
	text := "Will not run as planned: " + weak + " is " + spare + " short."
	if burn, wait := res.Rhythm.Arc(in.After); burn > 0 && res.Binding.Group == "air" && res.Binding.Key != "hose" {
		text += " On this air: cut " + form.Say(a, burn) + ", then wait " + form.Say(a, wait) + "."
	}
	return text
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

func putChecks(a *form.Answer, res Result) {
	var rows []*form.Row
	for _, c := range res.Checks {
		row := a.NewRow()
		row.PutWord("check", c.Key)
		row.PutWord("group", c.Group)
		row.PutWord("verdict", string(c.Verdict()))
		form.PutCell(row, "margin", form.Number[unit.Ratio]("%", "%"), c.Margin)
		row.PutWord("because", c.Say(a.System()))
		rows = append(rows, row)
	}
	a.PutRows("checks", rows)
	bars := make([]form.Bar, len(res.Checks))
	for i, c := range res.Checks {
		used := margin.Used(c.Margin)
		bars[i] = form.Bar{Label: c.Key, Value: float64(used), Text: form.Say(a, used), Over: c.Margin < 0}
	}
	a.DrawBars("What gives out first", "Each need as a share of what there is for it.", bars, form.Bar{Label: "all there is", Value: 1, Text: "100 %"})
}

func putRemedies(a *form.Answer, res Result) {
	var rows []*form.Row
	for _, m := range res.Remedies {
		row := a.NewRow()
		row.PutWord("check", m.Check)
		row.PutWord("do", m.Do(a.System()))
		row.PutWord("field", m.Field)
		row.PutWord("value", m.Value)
		rows = append(rows, row)
	}
	a.PutRows("remedies", rows)
}
