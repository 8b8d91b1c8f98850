package site

import (
	"slices"
	"strings"

	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/guess"
	"kerfside/calc/margin"
	"kerfside/calc/power"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// names of the checks inside a sentence.
var names = []string{"hose", "the air hose", "compressor", "the compressor", "tank", "the tank", "cord", "the cord", "volts", "the volts", "breaker", "the breaker",
	"generator", "the generator", "duty", "the duty cycle", "thickness", "the thickness", "tip", "the tip", "electrode", "the electrode"}

func name(key string) string { return names[slices.Index(names, key)+1] }

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
	a.PutWord("verdict", string(res.Verdict))
	a.PutWord("say", res.sentence(in, a.System()))
	a.PutWord("grade", string(res.Plan.Grade))
	a.PutWord("binding", res.Binding.Key)
	form.PutSaid(a, "margin", res.Binding.Margin, margin.Say(res.Binding.Margin))
	for _, group := range groups {
		a.PutWord(group, string(res.Group(group)))
	}
	if text := whose(r, in); text != "" {
		a.PutWord("from", text)
	}
	holds := in.holds(res, a.System())
	putSettings(a, in, res, holds)
	putUnknowns(a, res)
	putChecks(a, res)
	putRemedies(a, res)
	if res.Largest > 0 {
		form.Put(a, "largest_current", res.Largest)
	}
	if burn, wait := res.Rhythm.Arc(in.After); burn > 0 {
		form.Put(a, "cut", burn)
		form.Put(a, "wait", wait)
	}
	form.Put(a, "cut_time", res.CutTime)
	form.Put(a, "valve_open", res.Open)
	if need := in.worn(res.Plan).AirNeed; need > 0 {
		form.Put(a, "demand", need)
	}
	if res.Water.Drain > 0 {
		form.Put(a, "drain", res.Water.Drain)
		a.PutWord("water_class", res.Water.Class)
		if res.Water.Liquid > 0 {
			a.Caution("Water reaches the machine today: drain the tank before you start. For long spells fit a filter or dryer ahead of the machine.")
		}
	}
	a.Step("longest cut = %s at %s = %s", form.Say(a, in.Longest), form.SayIn(a, res.Plan.Speed, "mm/min", "in/min"), form.Say(a, res.CutTime))
	a.Step("valve open = %s of arc × (1 + %s after-flow ÷ %s) = %s", form.Say(a, in.Share), form.Say(a, in.After), form.Say(a, res.CutTime), form.Say(a, res.Open))
	for _, c := range res.Checks {
		a.Step("%s", c.Say(a.System()))
		for _, g := range c.Rests {
			s, _ := source.Get(g.Basis)
			a.Step("%s of %s is the favourable end: %s", in.Said(g.Field, g.Best), g.What, s.Cite())
		}
	}
	if in.Regulator > in.Compressor.CutIn && in.Compressor.Free > 0 {
		a.Caution("The regulator stands at %s, but the tank falls to %s before the compressor starts: that is what is reckoned with.", form.SayIn(a, in.Regulator, "bar", "psi"), form.SayIn(a, in.Compressor.CutIn, "bar", "psi"))
	}
	if in.Generator.PowerAlone {
		a.Caution(power.PowerAloneCaution)
	}
	if in.Given("tip_reading") || in.Given("pit") {
		a.Caution(safety.MadeDead)
	}
	for _, c := range res.Checks {
		if v := c.Verdict(); (c.Key == "cord" || c.Key == "volts") && v != margin.OK {
			a.Caution(power.VoltsLost)
			break
		}
	}
	a.Caution(power.Protected)
	a.Caution("Your torch's manual wins over every figure here. Read air pressure while it flows.")
	return nil
}

// sentence is the verdict of the day: what is short, or how far all holds, and
// what is not known.
func (r Result) sentence(in Input, s unit.System) string {
	var holding, tight, short, lacking []string
	for _, c := range r.Checks {
		switch v := c.Verdict(); {
		case c.Key == r.Binding.Key && r.Verdict != margin.Unknown || c.Key == "thickness": // told by itself
		case v == margin.OK:
			holding = append(holding, name(c.Key))
		case v == margin.Tight:
			holding, tight = append(holding, name(c.Key)), append(tight, name(c.Key))
		default:
			short = append(short, name(c.Key))
		}
	}
	for _, group := range groups {
		if r.lacks(group) {
			word := group
			if _, part := r.Worst(group); part {
				word += " in part"
			}
			lacking = append(lacking, word)
		}
	}
	text, justly := "", ""
	if tight != nil {
		justly = ", only just: " + guess.Joined(tight)
	}
	switch r.Verdict {
	case margin.OK:
		if r.Plan.Grade != cutting.CutsClean {
			text = "Air, power and duty hold. " + r.Binding.Say(s)
			break
		}
		text = "Air, power and duty hold. The first to give out is " + name(r.Binding.Key) + ", with " + margin.Say(r.Binding.Margin) + "."
	case margin.Tight:
		text = "Air, power and duty hold" + justly + ". " + r.Binding.Say(s)
	case margin.Unknown:
		text = "With this rig it " + r.Plan.Grade.Words() + "."
		if holding != nil {
			text += " What is known holds" + justly + ": " + guess.Joined(holding) + "."
		}
	default:
		text = r.Binding.Say(s)
		if burn, wait := r.Rhythm.Arc(in.After); burn > 0 && r.Binding.Group == "air" && r.Binding.Key != "hose" {
			text += " On this air: cut " + fig(burn, "", "").text(s) + ", then wait " + fig(wait, "", "").text(s) + "."
		}
		if short != nil {
			text += " Short too: " + guess.Joined(short) + "."
		}
	}
	if lacking != nil {
		text += " Not known: " + strings.Join(lacking, ", ") + "."
	}
	return text
}

// lacks reports whether something of a group is not known.
func (r Result) lacks(group string) bool {
	return slices.ContainsFunc(r.Unknowns, func(n Need) bool { return n.Group == group })
}

// putSettings tells what to set: as planned, or, where that is short, what holds
// instead and nothing where nothing does.
func putSettings(a *form.Answer, in Input, res Result, holds []Setting) {
	at := res.Plan
	if res.Verdict == margin.Fails {
		at = cutting.PlanResult{}
	}
	var rows []*form.Row
	for _, h := range holds {
		if h.For == "this" && res.Verdict == margin.Fails {
			at = h.Plan
		}
		row := a.NewRow()
		row.PutWord("for", h.For)
		form.PutCell(row, "thickness", form.Number[unit.Length]("mm", "in").As(unit.Plate), h.Thickness)
		row.PutWord("grade", string(h.Plan.Grade))
		form.PutCell(row, "current", form.Number[unit.Current]("A", "A"), h.Plan.Arc.Current)
		row.PutWord("tip", unit.In(h.Plan.Tip.Rated, "A"))
		if h.Plan.Pressure > 0 {
			form.PutCell(row, "pressure", form.Number[unit.Pressure]("bar", "psi"), h.Plan.Pressure)
		}
		form.PutCell(row, "speed", form.Number[unit.Speed]("mm/min", "in/min").InDoubt(), h.Plan.Speed)
		row.PutWord("say", h.say(in, a.System()))
		rows = append(rows, row)
	}
	a.PutRows("here", rows)
	if at.Speed == 0 {
		return
	}
	form.Put(a, "current", at.Arc.Current)
	if at.Pressure > 0 {
		form.Put(a, "pressure", at.Pressure)
	}
	form.Put(a, "speed", at.Speed)
	if on, rest := in.rhythm(at.Arc.Current, res.Rhythm); on > 0 {
		form.Put(a, "arc_on", on)
		form.Put(a, "arc_rest", rest)
	}
}

// say tells a setting in one sentence, with what must be less than planned.
func (h Setting) say(in Input, s unit.System) string {
	text, more := "This", []string(nil)
	if h.For != "this" {
		text = unit.Text(h.Thickness, s)
	}
	text += " " + h.Plan.Grade.Words() + " at " + unit.In(h.Plan.Arc.Current, "A")
	if in.tipOut(h.Plan.Tip) {
		text += " with a new tip"
	}
	if h.Share < in.Share {
		more = append(more, "arc on "+unit.Text(h.Share, s)+" of the time")
	}
	if h.Longest < in.Longest {
		more = append(more, "cuts up to "+fig(h.Longest, "mm", "in").as(down).text(s))
	}
	if len(more) > 0 {
		text += "; " + strings.Join(more, ", ")
	}
	return text + "."
}

func putUnknowns(a *form.Answer, res Result) {
	var rows []*form.Row
	for _, n := range res.Unknowns {
		row := a.NewRow()
		row.PutWord("group", n.Group)
		row.PutWord("what", n.What)
		row.PutWord("how", n.How)
		row.PutWord("field", n.Field)
		rows = append(rows, row)
	}
	a.PutRows("unknowns", rows)
}

func putChecks(a *form.Answer, res Result) {
	var rows []*form.Row
	for _, c := range res.Checks {
		row := a.NewRow()
		row.PutWord("check", c.Key)
		row.PutWord("group", c.Group)
		row.PutWord("verdict", string(c.Verdict()))
		form.PutCellSaid(row, "margin", c.Margin, margin.Say(c.Margin))
		row.PutWord("because", c.Say(a.System()))
		rows = append(rows, row)
	}
	a.PutRows("checks", rows)
	bars := make([]form.Bar, len(res.Checks))
	for i, c := range res.Checks {
		used := margin.Used(c.Margin)
		bars[i] = form.Bar{Label: c.Key, Value: float64(used), Text: unit.Figures(100*float64(used), 2) + " %", Over: c.Margin < 0}
	}
	a.DrawBars("What gives out first", "Each need as a share of what there is for it.", bars, form.Bar{Label: "all there is", Value: 1, Text: "100 %"})
}

func putRemedies(a *form.Answer, res Result) {
	var rows []*form.Row
	before := "" // the check that the remedy before this one was for
	for _, m := range res.Remedies {
		row := a.NewRow()
		row.PutWord("check", m.Check)
		text := m.Do(a.System())
		if m.Check == before && !m.aside {
			text = "Or " + strings.ToLower(text[:1]) + text[1:]
		}
		if before = ""; !m.aside {
			before = m.Check
		}
		row.PutWord("do", text)
		row.PutWord("field", m.Field)
		row.PutWord("value", m.Value)
		rows = append(rows, row)
	}
	a.PutRows("remedies", rows)
}
