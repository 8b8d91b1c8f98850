package layout

import (
	"fmt"
	"math"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Bend is one bend of a strip, and the leg after it.
type Bend struct {
	Turn   unit.Angle // from flat: 90° for a square corner, at most 180°
	Radius unit.Length
	Down   bool
	Leg    unit.Length // measured as BracketInput.Legs says
}

// BracketInput is a strip that is bent.
type BracketInput struct {
	Thickness unit.Length
	First     unit.Length // the leg before the first bend
	Bends     []Bend      // at least one
	Legs      string      // "outside", "corner", "inside" or "straight", see ComputeBracket
	Rule      string      // a word of bendRules, or "own"
	K         float64     // of "own"
}

// BendLine is where a bend lies on the flat strip, from the end of the first leg.
type BendLine struct {
	Start, Middle, End unit.Length
	Allowance          unit.Length // End − Start
	K                  float64
	Setback            unit.Length // 0 where the faces never meet
}

// BracketResult is the strip before it is bent.
type BracketResult struct {
	Flat     unit.Length
	Off      unit.Length // what the legs add up to, less Flat; below 0 where Flat is the longer
	Straight []unit.Length
	Bends    []BendLine
	Give     unit.Length // how far the rules for the allowance lie apart from the one chosen
}

// bendRule says how long the metal of a bend is.
type bendRule struct {
	word, label string
	share       float64 // of the thickness in a bend of a right angle; 0 for DIN 6935
}

// bendRules are the rules there are. Machinery's Handbook has for a right angle 1.57·r +
// 0.64·t, 0.71·t or 0.55·t. The US aircraft form, from memory, is 0.01743·r + 0.0078·t a degree.
var bendRules = [...]bendRule{
	{word: "soft-steel", label: "Soft steel, aluminium", share: 0.64},
	{word: "hard", label: "Hard steel, bronze", share: 0.71},
	{word: "brass", label: "Soft brass, copper", share: 0.55},
	{word: "aircraft", label: "US aircraft form", share: 90 * 0.0078},
	{word: "din", label: "By DIN 6935"},
}

// leastDIN is the ratio of radius to thickness down to which the form of DIN 6935 is
// used, the authors' judgement: the least that its table has is not known here.
const leastDIN = 0.25

// kFactor is how far into the thickness from the inside the metal keeps its length.
//
//	1.57·r + x·t for a right angle     K = 2·x/π
//	DIN 6935                           K = (0.65 + 0.5·lg(r/t))/2, at most 1/2
func (rule bendRule) kFactor(ratio float64) (float64, bool) {
	if rule.share > 0 {
		return 2 * rule.share / math.Pi, true
	}
	return min((0.65+0.5*math.Log10(ratio))/2, 0.5), ratio >= leastDIN
}

// ComputeBracket unrolls a bent strip. With thickness t, inside radius r and angle
// turned A in radians:
//
//	allowance = A·(r + K·t)
//	flat      = straight legs + allowances
//
// A leg is measured over the outside of its bends, as a square and a rule find it; to
// the corner where the outside faces would meet; to that of the inside faces; or along
// its straight part alone. Its straight part is shorter at each bend by
//
//	outside   (r + t)·tan(A/2) up to 90°, r + t beyond (as DIN 6935 has it)
//	corner    (r + t)·tan(A/2), the setback
//	inside    r·tan(A/2)
//	straight  0
//
// Refused: faces that never meet, at 180°; inside legs beyond 90°, which no rule reaches;
// and a leg that its bends use up. Give is the most by which any rule of bendRules
// would have another flat length.
func ComputeBracket(in BracketInput) (BracketResult, error) {
	res := BracketResult{Bends: make([]BendLine, len(in.Bends))}
	t := float64(in.Thickness)
	short := make([]float64, len(in.Bends)) // what each bend takes off the two legs beside it
	var least, most, own float64            // allowances by all rules, and by the one chosen
	for i, b := range in.Bends {
		r, half := float64(b.Radius), float64(b.Turn)/2
		meets := math.Pi/2-half > 1e-9
		line := &res.Bends[i]
		if meets {
			line.Setback = unit.Length((r + t) * math.Tan(half))
		}
		var err error
		if short[i], err = in.shortened(i, meets); err != nil {
			return BracketResult{}, err
		}
		low, high := math.Inf(1), 0.0
		for _, rule := range bendRules {
			k, ok := rule.kFactor(r / t)
			if ok {
				low, high = min(low, k), max(high, k)
			}
			if rule.word == in.Rule {
				if !ok {
					return BracketResult{}, problem.New(problem.Range, "allowance", "for a radius so small the DIN form is not known here", "Take another rule, or a radius of a quarter of the thickness or more.")
				}
				line.K = k
			}
		}
		if in.Rule == "own" {
			line.K = in.K
		}
		turn := float64(b.Turn)
		line.Allowance = unit.Length(turn * (r + line.K*t))
		least, most, own = least+turn*low*t, most+turn*high*t, own+turn*line.K*t
	}
	res.Give = unit.Length(max(most-own, own-least))
	return in.unroll(res, short)
}

// shortened is what bend i takes off each of the legs beside it.
func (in BracketInput) shortened(i int, meets bool) (float64, error) {
	b := in.Bends[i]
	refuse := func(msg, hint string) (float64, error) {
		return 0, problem.New(problem.Refused, fmt.Sprintf("bends.%d.turn", i+1), fmt.Sprintf("Bend %d: ", i+1)+msg, hint)
	}
	half, r, outside := float64(b.Turn)/2, float64(b.Radius), float64(b.Radius+in.Thickness)
	switch {
	case in.Legs == "straight":
		return 0, nil
	case in.Legs == "outside":
		return outside * math.Tan(min(half, math.Pi/4)), nil
	case in.Legs == "corner" && !meets:
		return refuse("turned right round, the faces never meet", "Measure the legs over the outside of the bend, or their straight parts.")
	case in.Legs == "corner":
		return outside * math.Tan(half), nil
	case half > math.Pi/4+1e-9:
		return refuse("beyond 90° no rule reaches the inside corner", "Measure the legs over the outside of the bend, or their straight parts.")
	}
	return r * math.Tan(half), nil
}

// unroll puts straight parts and allowances one behind the other.
func (in BracketInput) unroll(res BracketResult, short []float64) (BracketResult, error) {
	at, legs := unit.Length(0), unit.Length(0)
	for i := range len(in.Bends) + 1 {
		leg, field, name := in.First, "first_leg", "the first leg"
		if i > 0 {
			leg, field, name = in.Bends[i-1].Leg, fmt.Sprintf("bends.%d.leg", i), fmt.Sprintf("the leg after bend %d", i)
		}
		straight := leg
		if i > 0 {
			straight -= unit.Length(short[i-1])
		}
		if i < len(short) {
			straight -= unit.Length(short[i])
		}
		if straight < -1e-9 {
			return BracketResult{}, problem.Newf(problem.Refused, field, "%s is shorter than its bends take up", name).
				WithHint("It must be %s or more, measured like that.", unit.In(leg-straight, "mm"))
		}
		straight = max(straight, 0)
		legs += leg
		res.Straight = append(res.Straight, straight)
		at += straight
		if i < len(in.Bends) {
			line := &res.Bends[i]
			line.Start, line.Middle, line.End = at, at+line.Allowance/2, at+line.Allowance
			at = line.End
		}
	}
	res.Flat, res.Off = at, legs-at
	return res, nil
}

// mostBends is how many bends a list takes.
const mostBends = 12

// BracketDevelop is the calculator bracket-develop.
var BracketDevelop = form.Declaration{Name: "bracket-develop", Make: func() form.Calculator {
	length := func(sort unit.Sort) *form.Type { return form.Number[unit.Length]("mm", "in").As(sort) }
	mark := length(unit.Marking)
	legs := form.Within(unit.Millimetre, 20*unit.Metre)
	var rules []string
	for _, r := range bendRules {
		rules = append(rules, r.word, r.label)
	}
	return form.Calculator{
		Title: "Bracket, laid flat",
		About: "Tells how long a bent strip is before it is bent, and where its bend lines lie.",
		Place: "layout",
		Terms: []string{"bend", "brake", "fold", "press brake", "flat pattern", "development", "bend allowance", "K factor", "setback", "deduction", "channel", "clip", "hat"},
		Fields: []form.Field{
			{Key: "thickness", Label: "Thickness", Known: "plan.thickness", Takes: length(unit.Plate), Chips: []string{"1.5mm", "3mm", "5mm", "6mm"}, ChipsUS: []string{"1/16in", "1/8in", "3/16in", "1/4in"}, Limits: form.Within(0.3*unit.Millimetre, 50*unit.Millimetre)},
			{Key: "radius", Label: "Inside radius", Help: "Of the bends: the brake's nose, or the bar it is bent round", Takes: length(unit.Plate), Chips: []string{"2mm", "3mm", "6mm"}, ChipsUS: []string{"1/16in", "1/8in", "1/4in"}, Limits: form.Within(0.1*unit.Millimetre, unit.Metre)},
			{Key: "legs", Label: "Legs are measured", Takes: form.OneOf("outside", "Outside, over the bends", "inside", "Inside, to the corner", "corner", "Outside, to where the faces meet", "straight", "Straight parts alone"), Default: "outside"},
			{Key: "first_leg", Label: "First leg", Takes: mark, Chips: []string{"25mm", "50mm", "100mm"}, ChipsUS: []string{"1in", "2in", "4in"}, Limits: legs},
			{Key: "bends", Label: "Bends", Help: "In order from the first leg, each with the leg after it", Takes: form.List(form.EachRow{Name: "Bend", Shown: "{turn} {way?} · then {leg}", Bare: []string{"turn", "leg"}, Ordered: true, Most: mostBends},
				form.Field{Key: "turn", Label: "Turned by", Help: "From flat. A square corner is 90°, a sharp one more", Takes: form.Number[unit.Angle]("°", "°"), Chips: []string{"90°", "45°", "30°"}, Limits: form.Within(unit.Degree, 180*unit.Degree)},
				form.Field{Key: "leg", Label: "Leg after it", Takes: mark, Chips: []string{"25mm", "50mm", "100mm"}, ChipsUS: []string{"1in", "2in", "4in"}, Limits: legs},
				form.Field{Key: "way", Label: "Bent", Takes: form.OneOf("up", "Up", "down", "Down"), Default: "up"},
				form.Field{Key: "own_radius", Label: "Its own inside radius", Help: "Where this bend has another", Takes: length(unit.Plate), Optional: true, Fine: true, Limits: form.Within(0.1*unit.Millimetre, unit.Metre)})},
			{Key: "width", Label: "Width of the strip", Help: "For the template and the cut list", Takes: mark, Optional: true, Chips: []string{"25mm", "50mm", "100mm"}, ChipsUS: []string{"1in", "2in", "4in"}, Limits: form.Within(unit.Millimetre, 3*unit.Metre)},
			{Key: "allowance", Label: "Rule for the bend", Help: "How much metal a bend takes. A test strip tells better", Takes: form.OneOf(append(rules, "own", "Own K factor")...), Default: "soft-steel"},
			{Key: "k_factor", Label: "K factor", Help: "Where the metal keeps its length: share of the thickness from the inside", Takes: form.Factor(), Only: form.When("allowance", "own"), Limits: form.Limits{Min: 0.2, Max: 0.6, Set: true}},
		},
		Results: []form.Result{
			{Key: "flat", Label: "Flat length", Gives: mark, Main: true},
			{Key: "lines", Label: "Bends, from the end of the first leg", Gives: form.Rows("bend", "Bend", "start", "Begins at", "middle", "Middle at", "end", "Ends at")},
			{Key: "give", Label: "Other rules differ by up to", Gives: length(unit.Slack), Main: true},
			{Key: "off", Label: "Legs together, less the flat length", Gives: mark},
		},
		Sources: []source.ID{"mh31-bends", "din-6935", "from-memory"},
		Run:     runBracket,
	}
}}
