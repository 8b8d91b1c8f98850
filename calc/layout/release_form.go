package layout

import (
	"fmt"

	"kerfside/calc/form"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// ReleasePlan is the calculator release-plan.
var ReleasePlan = form.Declaration{Name: "release-plan", Make: func() form.Calculator {
	marking := func() *form.Type { return form.Number[unit.Length]("mm", "in").As(unit.Marking) }
	mass := func() *form.Type { return form.Number[unit.Mass]("kg", "lb") }
	along := form.Within(0, 30*unit.Metre)
	across := form.Within(-5*unit.Metre, 5*unit.Metre)
	return form.Calculator{
		Title: "Let a piece go",
		About: "Follows a piece through its cuts: what holds it after each, where it would tip or fall, and which cut comes last.",
		Place: "layout",
		Terms: []string{"drop-off", "order of cuts", "last cut", "sling", "strap", "support", "hoist", "tip", "swing", "balance", "centre of gravity", "let go", "release"},
		Fields: []form.Field{
			{Key: "length", Label: "Length of the piece", Help: "All of it, from its left end; what it is built into begins there", Takes: marking(), Chips: []string{"1m", "2m", "3m"}, ChipsUS: []string{"4ft", "8ft", "10ft"}, Limits: form.Within(50*unit.Millimetre, 30*unit.Metre)},
			{Key: "weight", Label: "Weight", Help: "All of it, with what hangs on it. Piece weight reckons it", Takes: mass(), Chips: []string{"20kg", "40kg", "100kg"}, ChipsUS: []string{"50lb", "100lb", "200lb"}, Limits: form.Within(unit.Kilogram/2, 20000*unit.Kilogram)},
			{Key: "holds", Label: "What holds it", Help: "From the left end. What only just touches holds nothing", Takes: form.List(form.EachRow{Name: "Hold", Shown: "{name} · {kind} · {at}", Bare: []string{"kind", "at"}, Most: mostHolds},
				form.Field{Key: "kind", Label: "Sort", Takes: form.OneOf(Strap, "Strap or sling from above", Stand, "Stand or block from below", BuiltIn, "Built in: the wall, the post, the frame", Weld, "Weld, tack or bolt still in it", Clamp, "Clamp")},
				form.Field{Key: "at", Label: "Where", Help: "From the left end", Takes: marking(), Limits: along},
				form.Field{Key: "rated", Label: "Rated for", Help: "On its tag, for the way it is used here", Takes: mass(), Optional: true, Limits: form.Within(unit.Kilogram, 50000*unit.Kilogram)},
				form.Field{Key: "lean", Label: "Its angle, from the horizontal", Takes: form.Number[unit.Angle]("°", "°"), Default: "90°", Basis: source.Neutral, Chips: []string{"90°", "60°", "45°"}, Only: form.When("kind", Strap), Limits: form.Within(unit.Degree, 90*unit.Degree)},
				form.Field{Key: "across", Label: "Beside the middle line", Takes: marking(), Default: "0mm", Basis: source.Neutral, Fine: true, Limits: across},
				form.Field{Key: "name", Label: "Name", Takes: form.Text(), Optional: true})},
			{Key: "cuts", Label: "Cuts", Help: "In the order in which you mean to make them", Optional: true, Takes: form.List(form.EachRow{Name: "Cut", Shown: "{name} · {what?} {at} {hold} · {drops?}", Bare: []string{"at", "drops"}, Ordered: true, Most: mostCutsFree},
				form.Field{Key: "what", Label: "It cuts", Takes: form.OneOf("through", "Through the piece", "hold", "A weld or strap free"), Default: "through"},
				form.Field{Key: "at", Label: "Where", Help: "From the left end", Takes: marking(), Only: form.When("what", "through"), Limits: along},
				form.Field{Key: "hold", Label: "Which hold", Help: "Its number in the list of holds", Takes: form.Count(), Only: form.When("what", "hold"), Chips: []string{"1", "2", "3"}, Limits: form.WithinCount(1, mostHolds)},
				form.Field{Key: "drops", Label: "May a piece drop?", Help: "Only where nobody and nothing is below it", Takes: form.OneOf("nothing", "No, it is held", "left", "The one left of it", "right", "The one right of it"), Default: "nothing", Only: form.When("what", "through")},
				form.Field{Key: "name", Label: "Name", Takes: form.Text(), Optional: true})},
			{Key: "spring", Label: "Is it bent, wedged, clamped or pulled into place?", Help: "Tap it, ease it with a bar, look for what it pushes on", Hazard: true, Takes: form.OneOf("no", "No: it lies slack", "yes", "Yes", "unsure", "Nobody can tell")},
			{Key: "push", Label: "It pushes with", Help: "As a jack or a scale tells it", Takes: mass(), Optional: true, Only: form.When("spring", "yes"), Limits: form.Within(unit.Kilogram, 50000*unit.Kilogram)},
			{Key: "moves", Label: "It would move by", Takes: marking(), Optional: true, Only: form.When("spring", "yes"), Limits: form.Within(unit.Millimetre, 5*unit.Metre)},
			{Key: "rigging", Label: "The straps hang from", Takes: form.OneOf("points", "A point of its own each", "hook", "One hook"), Default: "points", Fine: true},
			{Key: "hook_at", Label: "The hook, from the left end", Takes: marking(), Only: form.When("rigging", "hook"), Limits: along},
			{Key: "hook_height", Label: "The hook above the piece", Takes: marking(), Only: form.When("rigging", "hook"), Limits: form.Within(50*unit.Millimetre, 20*unit.Metre)},
			{Key: "balance", Label: "Its balance point, from the left end", Help: "Where it is not the middle, lumps left out", Takes: marking(), Optional: true, Fine: true, Limits: along},
			{Key: "across", Label: "Its balance point, beside the middle line", Takes: marking(), Default: "0mm", Basis: source.Neutral, Fine: true, Limits: across},
			{Key: "lumps", Label: "Heavy things on it", Help: "Counted in its weight", Optional: true, Fine: true, Takes: form.List(form.EachRow{Name: "Lump", Shown: "{weight} · {at}", Bare: []string{"weight", "at"}, Most: mostHolds},
				form.Field{Key: "weight", Label: "Weight", Takes: mass(), Limits: form.Within(unit.Kilogram/10, 20000*unit.Kilogram)},
				form.Field{Key: "at", Label: "Where", Help: "From the left end", Takes: marking(), Limits: along},
				form.Field{Key: "across", Label: "Beside the middle line", Takes: marking(), Default: "0mm", Basis: source.Neutral, Fine: true, Limits: across})},
		},
		Results: []form.Result{
			{Key: "verdict", Label: "In short", Gives: form.Text(), Main: true},
			{Key: "last", Label: "Last cut", Gives: form.Text(), Main: true},
			{Key: "heaviest", Label: "The most that a hold may carry", Gives: mass(), Main: true},
			{Key: "heaviest_at", Label: "That one is", Gives: form.Text()},
			{Key: "says", Label: "Statics say", Gives: form.OneOf("holds", "held after each cut", "other-order", "held in another order", "edge", "too near to tipping", "unknown", "cannot say", "over", "a hold may be overloaded", "none", "no order holds it")},
			{Key: "order", Label: "Order", Gives: form.Text()},
			{Key: "hold_here", Label: "Hold it here first", Gives: form.Text()},
			{Key: "spring_says", Label: "When it springs", Gives: form.Text()},
			{Key: "balance_at", Label: "All of it balances at", Gives: marking()},
			{Key: "loads", Label: "In the end each hold carries", Gives: form.Rows("hold", "Hold", "least", "At least", "most", "At most", "pull", "Pulled by")},
			{Key: "after", Label: "After each cut", Gives: form.Rows("cut", "After", "piece", "Piece", "fate", "It", "carried", "Carried by")},
		},
		Sources: []source.ID{},
		Run:     runRelease,
	}
}}

func runRelease(r *form.Reader, a *form.Answer) error {
	in := ReleaseInput{
		Length: form.Get[unit.Length](r, "length"), Weight: form.Get[unit.Mass](r, "weight"),
		Balance: form.Get[unit.Length](r, "balance"), Across: form.Get[unit.Length](r, "across"),
	}
	for _, row := range r.Rows("holds") {
		h := Hold{Name: form.GetText(row, "name"), Kind: form.GetWord(row, "kind"), At: form.Get[unit.Length](row, "at"), Across: form.Get[unit.Length](row, "across"),
			Angle: form.Get[unit.Angle](row, "lean"), Rated: form.Get[unit.Mass](row, "rated")}
		in.Holds = append(in.Holds, h)
	}
	for _, row := range r.Rows("cuts") {
		c := LetGo{Name: form.GetText(row, "name")}
		where, hold, drops := form.Get[unit.Length](row, "at"), form.GetCount(row, "hold"), form.GetWord(row, "drops")
		if form.GetWord(row, "what") == "hold" {
			c.Holds = hold
		} else {
			c.At, c.Drops = where, drops
		}
		in.Cuts = append(in.Cuts, c)
	}
	for _, row := range r.Rows("lumps") {
		in.Lumps = append(in.Lumps, Lump{At: form.Get[unit.Length](row, "at"), Across: form.Get[unit.Length](row, "across"), Weight: form.Get[unit.Mass](row, "weight")})
	}
	hook := Hook{At: form.Get[unit.Length](r, "hook_at"), Height: form.Get[unit.Length](r, "hook_height")}
	if form.GetWord(r, "rigging") == "hook" {
		in.Hook = &hook
	}
	spring := form.GetWord(r, "spring")
	push, moves := form.Get[unit.Mass](r, "push"), form.Get[unit.Length](r, "moves")
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeRelease(in)
	if err != nil {
		return err
	}
	w := releaseWords{in: in, res: res, a: a, spring: spring}
	says, verdict := w.verdict()
	a.PutWord("verdict", verdict)
	a.PutWord("says", says)
	if len(res.Order) > 0 && (says == "holds" || says == "other-order") {
		last := res.Order[len(res.Order)-1]
		a.PutWord("last", upper(w.cut(last)))
		a.PutWord("order", w.order())
	}
	if res.At >= 0 {
		form.Put(a, "heaviest", res.Peak)
		a.PutWord("heaviest_at", upper(w.hold(res.At)))
	}
	if fate, b := w.bad(); fate.rank() > 1 {
		a.PutWord("hold_here", fmt.Sprintf("Over its balance point, %s from the left end, for %s", w.mm(b.At), w.kg(b.Weight)))
	}
	if spring != "no" {
		a.PutWord("spring_says", w.springs(push, moves))
	}
	_, middle := in.weigh(0, in.Length)
	form.Put(a, "balance_at", unit.Length(middle.x))
	a.PutRows("loads", w.loads())
	a.PutRows("after", w.rows())
	w.working()
	if push > 0 && moves > 0 {
		a.Step("let go by the spring: ½ × %s × %s, as much as %s that fall %s", w.kg(push), w.mm(moves), w.kg(push), w.mm(moves/2))
	}
	a.DrawLayout(w.draw())
	w.cautions()
	return nil
}
