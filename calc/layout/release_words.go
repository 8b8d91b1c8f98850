package layout

import (
	"fmt"
	"slices"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

// releaseWords tells of a release.
type releaseWords struct {
	in     ReleaseInput
	res    ReleaseResult
	a      *form.Answer
	spring string
}

func (w releaseWords) mm(l unit.Length) string { return form.SayAs(w.a, l, unit.Marking) }

func (w releaseWords) kg(m unit.Mass) string { return form.SayIn(w.a, m, "kg", "lb") }

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
		text := verb + ", its " + w.end(b) + " goes down"
		if b.Tilt > 0 {
			text += ", up to " + form.Say(w.a, b.Tilt) + " from level"
		}
		return text
	case Dragged:
		return "is pulled sideways by a strap that leans: nobody knows how far it slides or swings"
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

// end is what of a body goes down: the end on whose side of what holds it the balance
// point lies, or a side.
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
		return "right end"
	case b.At < low:
		return "left end"
	}
	return "near or far side"
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
	case fate == Dragged:
		says, sentence = "unknown", "Statics cannot say. "+what+" Hang it plumb, or all of it from one hook."
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
	if !w.res.Same && 0 < fate.rank() && fate.rank() < 4 {
		sentence += " That is in the best order: " + w.steps() + "."
		if given > fate.rank() {
			state, body := first(w.res.Given, given)
			sentence += " Yours is worse. " + w.when(state) + ": " + w.piece(body) + " " + w.happens(body) + "."
		}
	}
	if w.spring != "no" && (says == "holds" || says == "other-order") {
		says, sentence = "unknown", "Statics cannot say: it may spring when it is cut. Make it slack first. At rest it would be so: "+sentence
	}
	return says, sentence
}

// order tells the best order in a sentence.
func (w releaseWords) order() string { return upper(w.steps()) }

// steps tells the best order.
func (w releaseWords) steps() string {
	names := make([]string, len(w.res.Order))
	for i, c := range w.res.Order {
		names[i] = w.cut(c)
	}
	if len(names) == 1 {
		return names[0]
	}
	return "first " + strings.Join(names, ", then ")
}

// springs says what a spring does when it is let go.
func (w releaseWords) springs(push unit.Mass, moves unit.Length) string {
	if push == 0 || moves == 0 {
		return "Not known: what is bent keeps its push to the last bridge, then lets go at once. Stand out of its way, or make it slack with a jack or a bar."
	}
	return fmt.Sprintf("It lets go as much as %s that fall %s", w.kg(push), w.mm(moves/2))
}

func (w releaseWords) cautions() {
	w.a.Caution("Nobody under it, beside it, or where it can roll or swing. Hose and leads out of its way.")
	w.a.Caution("Lifting gear is rated, looked over, and worked by someone trained for it. A competent person on the spot decides, not this sum.")
	if many(w.res) {
		w.a.Caution("Where more than two holds share it in line, a stiff one may carry all of its most. The others hang slack then.")
	}
	if w.inLine() {
		w.a.Caution("This sum looks along one line only: sideways it may roll on holds in a row.")
	}
	if w.unsure() {
		w.a.Caution("A weld or a clamp may press or pull too. Until it is cut, no load told here of the other holds is sure.")
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

// unsure says whether something holds it that nobody knows the load of.
func (w releaseWords) unsure() bool {
	return slices.ContainsFunc(w.in.Holds, func(h Hold) bool { return h.Kind == Weld || h.Kind == Clamp })
}

func (w releaseWords) inLine() bool {
	for _, h := range w.in.Holds {
		if h.Across != 0 {
			return false
		}
	}
	return true
}

// upper begins a sentence, with a name as it may be.
func upper(text string) string {
	letters := []rune(text)
	return strings.ToUpper(string(letters[:1])) + string(letters[1:])
}
