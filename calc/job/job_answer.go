package job

import (
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/margin"
	"kerfside/calc/power"
	"kerfside/calc/problem"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

func runJob(r *form.Reader, a *form.Answer) error {
	in, rows, err := read(r)
	if err != nil {
		return err
	}
	res, err := Compute(in)
	if err != nil {
		for i, c := range res.Rows { // of which none can be cut
			rows[i].Fail("", c.Refused)
		}
		if r.Err() != nil {
			return r.Err()
		}
		return err
	}
	t := tell{r: r, a: a, in: in, res: res}
	a.PutWord("verdict", t.verdict())
	t.times()
	if !res.Over {
		t.money()
		t.parts()
		a.PutWord("binds", t.binds())
	}
	t.tables(rows)
	t.cautions()
	t.steps()
	return nil
}

// tell puts a result in words and figures.
type tell struct {
	r   *form.Reader
	a   *form.Answer
	in  Input
	res Result
}

func between[M unit.Measure](a *form.Answer, key string, b Band[M]) {
	form.PutSpanning(a, key, b.Low, b.About, b.High)
}

func (t tell) times() {
	a, res := t.a, t.res
	between(a, "elapsed", res.Elapsed)
	if res.Over {
		return
	}
	between(a, "work", res.Work)
	between(a, "arc", res.Arc)
	if t.in.Window > 0 && !res.Over {
		form.PutSaid(a, "chance", unit.Ratio(res.Fits), tenths(res.Fits))
	}
	starts := 0
	for _, n := range res.Plan.Starts {
		starts += n
	}
	a.PutCount("starts", starts)
	if w := res.Plan.Totals[WaitAir]; w > 0 {
		form.PutSaid(a, "waits", w, sayTime(w))
	}
	if w := res.Plan.Totals[Cooling]; w > 0 {
		form.PutSaid(a, "cooling", w, sayTime(w))
	}
}

func (t tell) money() {
	a, res := t.a, t.res
	form.Put(a, "energy", res.Cost.Energy+res.Cost.AirEnergy)
	if res.Fuel.About > 0 {
		between(a, "fuel", res.Fuel)
	}
	if t.in.Prices.Labour == 0 {
		return // the largest part of it is not known
	}
	between(a, "price", res.Price)
	between(a, "cost", res.Total)
	if length := res.Length; length > 0 {
		per := func(m unit.Money) unit.MoneyPerLength { return unit.MoneyPerLength(float64(m) / float64(length)) }
		form.PutSpanning(a, "per_length", per(res.Price.Low), per(res.Price.About), per(res.Price.High))
	}
}

var bindWords = map[string]string{"air": WaitAir.Says(), "duty": Cooling.Says(), "marking": Marking.Says(), "moving": Moving.Says(), "parts": Parts.Says(), "drain": Drain.Says()}

// binds says what holds the job up most beside the arc.
func (t tell) binds() string {
	if len(t.res.Binds) == 0 || t.res.Binds[0].Saves < unit.Minute {
		return "Nothing that could be spared."
	}
	b := t.res.Binds[0]
	text := capital(bindWords[b.Key]) + ": without it " + sayTime(b.Saves) + " less."
	if b.Key != "air" && b.Key != "duty" {
		return text
	}
	longest := forever
	for _, c := range t.res.Rows {
		if c.Split > 0 {
			longest = min(longest, c.Longest)
		}
	}
	if longest < forever {
		text += " One go lasts " + sayTime(longest) + " of arc, and longer cuts are broken off."
	}
	return text
}

func (t tell) tables(readers []*form.Reader) {
	a, res := t.a, t.res
	some := form.Number[unit.Duration]("", "").InDoubt()
	var rows []*form.Row
	for i, c := range res.Rows {
		row := a.NewRowOf(readers[i])
		row.PutWord("cut", t.titled(i, readers[i]))
		if c.Refused != nil {
			p := problem.From(c.Refused)
			why := p.Msg
			if p.Field == "thickness" {
				why = "More than this rig severs"
			}
			row.PutWord("say", why+". "+p.Hint)
			rows = append(rows, row)
			continue
		}
		if c.Plan.Speed == 0 {
			row.PutWord("say", "Done")
			rows = append(rows, row)
			continue
		}
		row.PutWord("say", c.Plan.Grade.Words()+" at "+unit.In(c.Plan.Arc.Current, "A")+", "+form.Rough(a, c.Plan.Speed, "mm/min", "in/min")+", tip "+unit.In(c.Plan.Tip.Rated, "A")+t.interrupted(i))
		form.PutCellSpanning(row, "arc", some, c.Arc.Low, c.Arc.About, c.Arc.High)
		row.PutFactor("starts", float64(c.Starts))
		if c.Wait.About > 0 {
			form.PutCellSaid(row, "wait", c.Wait.About, sayTime(c.Wait.About))
		}
		form.PutCellSpanning(row, "elapsed", some, c.Elapsed.Low, c.Elapsed.About, c.Elapsed.High)
		rows = append(rows, row)
	}
	a.PutRows("rows", rows)
	var remedies []*form.Row
	for _, m := range res.Remedies {
		row := a.NewRow()
		value := m.Value
		if m.Order != nil {
			value = t.reordered(m.Order, readers)
		}
		row.PutWord("do", m.say(t))
		if m.Saves > 0 {
			form.PutCellSaid(row, "saves", m.Saves, sayTime(m.Saves))
		}
		row.PutWord("field", m.Field)
		row.PutWord("value", value)
		remedies = append(remedies, row)
	}
	a.PutRows("remedies", remedies)
	var plan, binds, unknowns []*form.Row
	for k, d := range res.Plan.Totals {
		if d > 0 {
			row := a.NewRow()
			row.PutWord("what", Kind(k).Says())
			if Kind(k) == Watch { // is as long as was entered
				form.PutCell(row, "takes", some, d)
			} else {
				form.PutCellSaid(row, "takes", d, sayTime(d))
			}
			plan = append(plan, row)
		}
	}
	a.PutRows("plan", plan)
	for _, b := range res.Binds {
		row := a.NewRow()
		row.PutWord("what", bindWords[b.Key])
		form.PutCellSaid(row, "saves", b.Saves, sayTime(b.Saves))
		binds = append(binds, row)
	}
	a.PutRows("held_up", binds)
	for _, n := range res.Site.Unknowns {
		row := a.NewRow()
		row.PutWord("what", n.What)
		row.PutWord("how", n.How)
		row.PutWord("field", n.Field)
		unknowns = append(unknowns, row)
	}
	a.PutRows("unknowns", unknowns)
}

// interrupted says that air or duty cycle do not serve a run in one go.
func (t tell) interrupted(i int) string {
	c, cut := t.res.Rows[i], t.in.Cuts[i]
	if c.Split == 0 {
		return ""
	}
	each := (c.Split + c.Starts - c.Split - 1) / max(1, c.Starts-c.Split) // broken off so often at most
	text := ". One go lasts " + sayTime(c.Longest) + " of arc: "
	if cut.Count*cut.Runs > 1 {
		return text + "each cut is broken off " + times(each)
	}
	return text + "it is broken off " + times(each)
}

func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return "about " + unit.Figures(float64(n), 2) + " times"
}

// reordered is the cut list in another order; rows that are not played come last.
func (t tell) reordered(order []int, readers []*form.Reader) string {
	var rows []*form.Reader
	taken := map[int]bool{}
	for _, i := range order {
		rows, taken[i] = append(rows, readers[i]), true
	}
	for i, r := range readers {
		if !taken[i] {
			rows = append(rows, r)
		}
	}
	return t.r.WriteRows("cuts", rows)
}

// name is what a row is called: by its own name, else by its number.
func (t tell) name(i int) string {
	if n := t.in.Cuts[i].Name; n != "" {
		return n
	}
	return "Cut " + unit.Figures(float64(i+1), 3)
}

// titled is its name with what is cut: "Cut 1: 2 × 300 mm of 6 mm mild steel".
func (t tell) titled(i int, row *form.Reader) string {
	c := t.in.Cuts[i]
	if c.Length <= 0 || c.Place.Plan.Thickness <= 0 {
		return t.name(i)
	}
	thick := form.Say(t.a, c.Place.Plan.Thickness)
	if gauge, ok := form.CutGauge(form.GetText(row, "thickness")); ok {
		thick = gauge + " ga"
	}
	text := form.Say(t.a, c.Length) + " of " + thick + " " + strings.ReplaceAll(string(c.Place.Plan.Metal), "-", " ")
	if c.Count > 1 {
		text = unit.Figures(float64(c.Count), 3) + " × " + text
	}
	return t.name(i) + ": " + text
}

func (t tell) cautions() {
	a := t.a
	if v := t.res.Site.Group("power"); v != margin.OK && v != margin.Unknown {
		a.Caution(power.VoltsLost)
	}
	if t.res.Plan.Changes != [2]int{} {
		a.Caution("Parts are changed on the way. " + safety.MadeDead)
	}
	if t.in.Prices.Labour == 0 && !t.res.Over {
		a.Caution("No price is told: enter what an hour of yours costs.")
	}
	for i, d := range t.in.Done {
		if d.odd() {
			a.Caution("Done %d: its arc and waits are longer than the time it took. The longer is taken. Look for a slip.", i+1)
		}
	}
	if t.in.Marking == MarkHelper {
		a.Caution("The helper's hours are not in the price.")
	}
	a.Caution("May I cut comes before the first cut, and the fire watch after the last one: you stay, or a named person does.")
	a.Caution(power.Protected)
	a.Caution(safety.ArcOn)
}

func (t tell) steps() {
	a, o := t.a, t.res.Plan
	for i, c := range t.res.Rows {
		if c.Refused == nil && c.Plan.Speed > 0 {
			cut := t.in.Cuts[i]
			a.Step("%s: %d × %s at %s = %s of arc in %s", t.name(i), cut.Count, form.Say(a, cut.Length), form.SayIn(a, c.Plan.Speed, "mm/min", "in/min"), form.Worked(a, c.Arc.About, "min", "min"), unit.Count(c.Starts, "start", "starts"))
		}
	}
	var parts []string
	for k, d := range o.Totals {
		if d > 0 && Kind(k) != Watch {
			parts = append(parts, Kind(k).Says()+" "+form.Worked(a, d, "min", "min"))
		}
	}
	a.Step("to the last cut = %s = %s", strings.Join(parts, " + "), form.Worked(a, o.Work, "min", "min"))
	a.Step("played %d times in doubt: 9 in 10 of them lie from %s to %s", samples, form.Worked(a, t.res.Work.Low, "min", "min"), form.Worked(a, t.res.Work.High, "min", "min"))
	if o.Pumped > 0 {
		a.Step("air: %s pumped, %s drawn; the compressor runs %s", form.Say(a, o.Pumped), form.Say(a, o.Drawn), form.Worked(a, o.Ran, "min", "min"))
	}
}
