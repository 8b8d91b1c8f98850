package layout

import (
	"fmt"
	"strings"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/safety"
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
			{Key: "cuts", Label: "Cuts", Help: "In the order in which you mean to make them", Optional: true, Takes: form.List(form.EachRow{Name: "Cut", Shown: "{name} · {what?} {at} {hold} · {drops?}", Bare: []string{"at"}, Ordered: true, Most: mostCutsFree},
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

// releaseWords tells of a release.
type releaseWords struct {
	in     ReleaseInput
	res    ReleaseResult
	a      *form.Answer
	spring string
}

func (w releaseWords) mm(l unit.Length) string { return form.SayAs(w.a, l, unit.Marking) }
func (w releaseWords) kg(m unit.Mass) string   { return form.SayIn(w.a, m, "kg", "lb") }

// cut names a cut.
func (w releaseWords) cut(i int) string {
	c := w.in.Cuts[i]
	switch {
	case c.Name != "":
		return c.Name
	case c.Holds > 0:
		return "the cut of the " + w.hold(c.Holds-1)
	}
	return "the cut at " + w.mm(c.At)
}

// hold names a hold.
func (w releaseWords) hold(i int) string {
	h := w.in.Holds[i]
	if h.Name != "" {
		return h.Name
	}
	return strings.ReplaceAll(h.Kind, "-", " ") + " at " + w.mm(h.At)
}

// piece names a body.
func (w releaseWords) piece(b Body) string {
	if b.From == 0 && b.To == w.in.Length {
		return "the whole piece"
	}
	return "the piece from " + w.mm(b.From) + " to " + w.mm(b.To)
}

// bad is the worst that happens in the best order.
func (w releaseWords) bad() (Fate, Body) {
	fate, body := w.res.Best[0].Worst()
	for _, s := range w.res.Best[1:] {
		if f, b := s.Worst(); f.rank() > fate.rank() {
			fate, body = f, b
		}
	}
	return fate, body
}

// first finds the first state of that rank on the way.
func first(states []State, rank int) (State, Body) {
	for _, s := range states {
		if f, b := s.Worst(); f.rank() == rank {
			return s, b
		}
	}
	return State{}, Body{}
}

// when says after which cut a state is.
func (w releaseWords) when(s State) string {
	if s.Cut < 0 {
		return "Before any cut"
	}
	return "After " + w.cut(s.Cut)
}

// happens says what a body does.
func (w releaseWords) happens(b Body) string {
	switch b.Fate {
	case Falls:
		return "falls: nothing holds it"
	case Swings, Tips:
		verb := map[Fate]string{Swings: "swings", Tips: "tips"}[b.Fate]
		return verb + ", its " + w.end(b) + " end goes down"
	case Over:
		for _, c := range b.Carry {
			if rated := w.in.Holds[c.Hold].Rated; rated > 0 && max(c.High, c.Pull) > rated {
				return fmt.Sprintf("may put %s on the %s, which is rated for %s", w.kg(max(c.High, c.Pull)), w.hold(c.Hold), w.kg(rated))
			}
		}
	case Unknown:
		return "stays only by a weld or a clamp: nobody knows how much that holds"
	case Edge:
		return "is " + w.mm(b.Clear) + " from tipping: nobody knows its balance point that well"
	}
	return ""
}

// end is the end of a body that goes down: that on whose side of what holds it the balance
// point lies.
func (w releaseWords) end(b Body) string {
	low, high := b.To, b.From
	for _, h := range w.in.Holds {
		if h.At >= b.From && h.At <= b.To && (h.Kind == Stand || h.Kind == Strap) {
			low, high = min(low, h.At), max(high, h.At)
		}
	}
	if hook := w.in.Hook; hook != nil && b.Fate == Swings {
		low, high = hook.At, hook.At
	}
	switch {
	case b.At > high:
		return "right"
	case b.At < low:
		return "left"
	}
	return "near or far"
}

// verdict returns the word and the sentence of the answer.
func (w releaseWords) verdict() (says, sentence string) {
	fate, _ := w.bad()
	given := 0
	for _, s := range w.res.Given {
		f, _ := s.Worst()
		given = max(given, f.rank())
	}
	state, body := first(w.res.Best, fate.rank())
	what := w.when(state) + ": " + w.piece(body) + " " + w.happens(body) + "."
	switch {
	case fate.rank() == 4 && state.Cut < 0:
		says, sentence = "none", what+" Hold it before you cut."
	case fate.rank() == 4:
		says, sentence = "none", "No order of these cuts holds it. "+what+" Take it up first, by a hoist or a hold of its own."
	case fate == Over:
		says, sentence = "over", what+" Another hold, or gear that is rated for it."
	case fate == Unknown:
		says, sentence = "unknown", "Statics cannot say. "+what+" Hold it as if that were not there."
	case fate == Edge:
		says, sentence = "edge", what+" Move a hold, so that it lies well between."
	case given > 0:
		state, body := first(w.res.Given, given)
		says, sentence = "other-order", "Not in that order. "+w.when(state)+": "+w.piece(body)+" "+w.happens(body)+". "+w.order()+"."
	case len(w.res.Order) == 0:
		says, sentence = "holds", "It is held as it is, as far as statics say. Enter the cuts to follow it on."
	default:
		says, sentence = "holds", "In this order each piece is held after each cut, as far as statics say."
		if !w.res.Same {
			sentence = "Held in your order too; its holds carry less so: " + w.order() + "."
		}
	}
	if w.spring != "no" && (says == "holds" || says == "other-order") {
		says, sentence = "unknown", "Statics cannot say: it may spring when it is cut. Make it slack first. At rest it would be so: "+sentence
	}
	return says, sentence
}

// order tells the best order.
func (w releaseWords) order() string {
	names := make([]string, len(w.res.Order))
	for i, c := range w.res.Order {
		names[i] = w.cut(c)
	}
	if len(names) == 1 {
		return upper(names[0])
	}
	return "First " + strings.Join(names, ", then ")
}

// springs says what a spring does when it is let go.
func (w releaseWords) springs(push unit.Mass, moves unit.Length) string {
	if push == 0 || moves == 0 {
		return "Not known: what is bent keeps its push to the last bridge, then lets go at once. Stand out of its way, or make it slack with a jack or a bar."
	}
	return fmt.Sprintf("It lets go as much as %s that fall %s", w.kg(push), w.mm(moves/2))
}

// loads are what the holds carry in the end.
func (w releaseWords) loads() []*form.Row {
	kg := form.Number[unit.Mass]("kg", "lb")
	var rows []*form.Row
	for _, b := range w.res.Best[len(w.res.Best)-1].Bodies {
		for _, c := range b.Carry {
			row := w.a.NewRow()
			row.PutWord("hold", upper(w.hold(c.Hold)))
			form.PutCell(row, "least", kg, c.Low)
			form.PutCell(row, "most", kg, c.High)
			if c.Pull > 0 {
				form.PutCell(row, "pull", kg, c.Pull)
			}
			rows = append(rows, row)
		}
	}
	return rows
}

// rows are the states of the best order, body by body.
func (w releaseWords) rows() []*form.Row {
	var rows []*form.Row
	for _, s := range w.res.Best {
		for _, b := range s.Bodies {
			row := w.a.NewRow()
			row.PutWord("cut", w.when(s))
			row.PutWord("piece", fmt.Sprintf("%s, %s, balances at %s", upper(w.piece(b)), w.kg(b.Weight), w.mm(b.At)))
			fate := map[Fate]string{Stays: "stays on what it is built into", Held: "is held", Dropped: "drops, as it may"}[b.Fate]
			if fate == "" {
				fate = w.happens(b)
			}
			row.PutWord("fate", upper(fate))
			if len(b.Carry) > 0 {
				row.PutWord("carried", w.carried(b))
			}
			rows = append(rows, row)
		}
	}
	return rows
}

// carried says what each hold of a body carries.
func (w releaseWords) carried(b Body) string {
	var parts []string
	for _, c := range b.Carry {
		text := w.kg(c.High)
		if low := w.kg(c.Low); low != text {
			text = low + " to " + text
			if c.Low <= 0 {
				text = "up to " + w.kg(c.High) + ", or nothing"
			}
		}
		if c.Pull > c.High {
			text += ", pulled by " + w.kg(c.Pull)
		}
		parts = append(parts, w.hold(c.Hold)+" "+text)
	}
	return strings.Join(parts, "; ")
}

// working shows the sum of the last state of the best order.
func (w releaseWords) working() {
	for _, b := range w.res.Best[len(w.res.Best)-1].Bodies {
		w.a.Step("%s: %s, its balance point at %s", w.piece(b), w.kg(b.Weight), w.mm(b.At))
		for _, c := range b.Carry {
			if c.Low == c.High && len(b.Carry) == 2 {
				other := b.Carry[0]
				if other.Hold == c.Hold {
					other = b.Carry[1]
				}
				w.a.Step("%s carries %s × (%s from the other hold) ÷ (%s between both) = %s", w.hold(c.Hold), w.kg(b.Weight),
					w.mm(apart(b.At, w.in.Holds[other.Hold].At)), w.mm(apart(w.in.Holds[c.Hold].At, w.in.Holds[other.Hold].At)), w.kg(c.High))
			}
		}
	}
}

func apart(a, b unit.Length) unit.Length { return max(a-b, b-a) }

func (w releaseWords) cautions() {
	w.a.Caution("Nobody under it, beside it, or where it can roll or swing. Hose and leads out of its way.")
	w.a.Caution("Lifting gear is rated, looked over, and worked by someone trained for it. A competent person on the spot decides, not this sum.")
	if many(w.res) {
		w.a.Caution("Where more than two holds share it in line, a stiff one may carry all of its most. The others hang slack then.")
	}
	if w.inLine() {
		w.a.Caution("This sum looks along one line only: sideways it may roll on holds in a row.")
	}
	w.a.Caution("What just touches holds nothing: take up slack before the cut. A strap is covered from sparks and heat.")
	w.a.Caution("Where the piece sags between holds the kerf closes at the top and pinches; where it hangs over, it opens at the top.")
	w.a.Caution(safety.Return)
}

// many says whether the holds of some body leave open what each carries.
func many(res ReleaseResult) bool {
	for _, s := range res.Best {
		for _, b := range s.Bodies {
			for _, c := range b.Carry {
				if c.High-c.Low > b.Weight/1000 {
					return true
				}
			}
		}
	}
	return false
}

func (w releaseWords) inLine() bool {
	for _, h := range w.in.Holds {
		if h.Across != 0 {
			return false
		}
	}
	return true
}

// draw shows the piece from the side with its holds, the cuts in their best order, and
// where what is left balances.
func (w releaseWords) draw() drawing.Drawing {
	long := unit.Value(w.in.Length, "mm")
	high := long / 12
	x := func(l unit.Length) float64 { return unit.Value(l, "mm") }
	d := drawing.Drawing{Title: "The piece, its holds and its cuts"}
	var says []string
	d.AddClosed(drawing.Metal, drawing.Point{}, drawing.Point{X: long}, drawing.Point{X: long, Y: high}, drawing.Point{Y: high})
	for i, h := range w.in.Holds {
		at := x(h.At)
		switch h.Kind {
		case Stand:
			d.AddClosed(drawing.Metal, drawing.Point{X: at}, drawing.Point{X: at - high/2, Y: -high}, drawing.Point{X: at + high/2, Y: -high})
		case Strap:
			top := drawing.Point{X: at, Y: 4 * high}
			if w.in.Hook != nil {
				top = drawing.Point{X: x(w.in.Hook.At), Y: 4 * high}
			}
			d.Add(drawing.Metal, drawing.Point{X: at, Y: high}, top)
		case BuiltIn:
			d.Fill(drawing.Solid, drawing.Point{X: at - high/2, Y: -high}, drawing.Point{X: at + high/2, Y: -high}, drawing.Point{X: at + high/2, Y: 2 * high}, drawing.Point{X: at - high/2, Y: 2 * high})
		default:
			d.AddCircle(drawing.Hidden, drawing.Point{X: at, Y: high / 2}, high/2)
		}
		says = append(says, w.hold(i))
	}
	for n, c := range w.res.Order {
		cut := w.in.Cuts[c]
		at := x(cut.At)
		if cut.Holds > 0 {
			at = x(w.in.Holds[cut.Holds-1].At)
		}
		d.Add(drawing.Cut, drawing.Point{X: at, Y: -high / 2}, drawing.Point{X: at, Y: 1.5 * high})
		d.Write(drawing.Point{X: at, Y: -2 * high}, "middle", fmt.Sprint(n+1))
		says = append(says, fmt.Sprintf("%d: %s", n+1, w.cut(c)))
	}
	for _, b := range w.res.Best[len(w.res.Best)-1].Bodies {
		at := drawing.Point{X: x(b.At), Y: high / 2}
		d.AddCircle(drawing.Station, at, high/4)
		d.Add(drawing.Centre, drawing.Point{X: at.X, Y: -high / 4}, drawing.Point{X: at.X, Y: 1.25 * high})
		says = append(says, upper(w.piece(b))+" balances at "+w.mm(b.At))
	}
	d.Says = strings.Join(says, ". ") + "."
	return d
}

// upper begins a sentence, with a name as it may be.
func upper(text string) string {
	letters := []rune(text)
	return strings.ToUpper(string(letters[:1])) + string(letters[1:])
}
