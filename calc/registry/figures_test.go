package registry

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// The rule of this file is its own, beside calc/unit: what a person can read off a
// rule, a gauge or a clock, and two figures of all else. No source has it whole; it
// is this project's, worked from what a rule, a gauge and a hand can tell.

// figure is a number with its unit in a text.
type figure struct{ number, unit string }

// numbers finds what a text tells in units, ranges too.
var numbers = func() *regexp.Regexp {
	var names []string
	for _, q := range unit.All {
		for _, u := range q.Units {
			if u.Name != "money" && u.Name != "×" {
				names = append(names, regexp.QuoteMeta(u.Name))
			}
		}
	}
	slices.SortFunc(names, func(a, b string) int { return len(b) - len(a) })
	const number = `[0-9]+(?:\.[0-9]+)?(?:-[0-9]+/[0-9]+|/[0-9]+)?`
	return regexp.MustCompile(`(?:(` + number + `) to )?(` + number + `) ?(` + strings.Join(names, "|") + `)(?:[^\pL0-9²³/·]|$)`)
}()

// paces are not figures in millimetres or inches.
var paces = strings.NewReplacer("s per 100 mm", "s per hand", "s per 4 in", "s per hand")

// read keeps what was found in a text: most stand in many answers.
var read = map[string][]figure{}

func figuresIn(text string) (list []figure) {
	if list, ok := read[text]; ok {
		return list
	}
	defer func(text string) { read[text] = list }(text)
	text = paces.Replace(lawful.Replace(text))
	for strings.ContainsAny(text, "0123456789") {
		m := numbers.FindStringSubmatchIndex(text)
		if m == nil {
			return list
		}
		name := text[m[6]:m[7]]
		if m[2] >= 0 {
			list = append(list, figure{text[m[2]:m[3]], name})
		}
		list = append(list, figure{text[m[4]:m[5]], name})
		text = text[m[7]:]
	}
	return list
}

// grains are the finest steps of units from a size on, where they are finer than
// two figures.
var grains = map[string][][2]float64{
	"A": {{10, 1}}, "V": {{10, 1}}, "°C": {{0, 1}}, "°F": {{0, 1}}, "°": {{0, 0.5}}, "K": {{10, 1}}, "dB": {{10, 1}}, "%": {{10, 1}},
	"s": {{10, 1}}, "min": {{10, 1}}, "m": {{10, 1}}, "ft": {{10, 1}},
	"bar": {{1, 0.1}}, "psi": {{10, 1}, {100, 5}},
	"mm": {{0, 0.01}, {2, 0.1}, {20, 1}},
	"kg": {{10, 0.5}, {20, 1}, {100, 5}}, "lb": {{10, 0.5}, {20, 1}, {100, 5}},
}

// tooFine says what is wrong with a number that people are told, or "".
func (n figure) tooFine(more int) string {
	figures, value := shown(n.number)
	if strings.HasPrefix(n.unit, "per ") && strings.HasSuffix(n.number, "0") {
		figures-- // a dime is written 0.10
	}
	if n.unit == "in" && strings.Contains(n.number, "/") {
		den, _ := strconv.Atoi(n.number[strings.LastIndex(n.number, "/")+1:])
		if den > 32 || den == 32 && value >= 0.25 {
			return "no mark of a rule"
		}
		return ""
	}
	if n.unit == "in" && value >= 100 && !strings.Contains(n.number, ".") {
		return "" // a mark of a tape, as 204-1/16 in is
	}
	if figures <= 2+more {
		if n.unit == "mm/min" && more == 0 && value >= 500 && math.Mod(value, 100) != 0 || n.unit == "in/min" && more == 0 && value >= 25 && math.Mod(value, 5) != 0 {
			return "finer than a hand moves"
		}
		return ""
	}
	step := 0.0
	for _, g := range grains[n.unit] {
		if value >= g[0] {
			step = g[1]
		}
	}
	if more > 0 && value >= 100 && !strings.Contains(n.number, ".") {
		return ""
	}
	if step == 0 || math.Abs(value/step-math.Round(value/step)) > 1e-6 {
		return fmt.Sprintf("%d figures", figures)
	}
	return ""
}

// shown counts the figures of a number, and says how much it is.
func shown(number string) (figures int, value float64) {
	whole, fraction, _ := strings.Cut(number, "-")
	if strings.Contains(whole, "/") {
		whole, fraction = "0", whole
	}
	value, _ = strconv.ParseFloat(whole, 64)
	if over, under, ok := strings.Cut(fraction, "/"); ok {
		a, _ := strconv.ParseFloat(over, 64)
		b, _ := strconv.ParseFloat(under, 64)
		value += a / b
	}
	digits := strings.TrimLeft(strings.Replace(whole, ".", "", 1), "0")
	if !strings.Contains(whole, ".") {
		digits = strings.TrimRight(digits, "0")
	}
	return len(digits), value
}

// say is a text of an answer, and where it stands.
type said struct{ where, text string }

// texts are all that an answer tells.
func texts(name string, a *form.Answer) (list []said) {
	var group func(where string, g *form.Group)
	group = func(where string, g *form.Group) {
		for _, key := range g.Keys() {
			switch v, _ := g.Get(key); v := v.(type) {
			case form.Value:
				list = append(list, said{where + " " + key, v.Text}, said{where + " " + key, v.Also})
			case string:
				list = append(list, said{where + " " + key, v})
			case []*form.Group:
				for _, row := range v {
					group(where+" "+key, row)
				}
			}
		}
	}
	group(name, a.Results())
	for _, text := range a.Cautions() {
		list = append(list, said{name + " caution", text})
	}
	for _, text := range a.Working() {
		list = append(list, said{name + " working", text})
	}
	var wire struct {
		Lengths  [][]any         `json:"lengths"`
		Pictures json.RawMessage `json:"pictures"`
	}
	b, err := json.Marshal(a)
	if err == nil && json.Unmarshal(b, &wire) == nil {
		for _, l := range wire.Lengths {
			list = append(list, said{name + " drawing", fmt.Sprint(l[1])})
		}
		for _, m := range quoted.FindAllString(string(wire.Pictures), -1) {
			list = append(list, said{name + " picture", strings.Trim(m, `"`)})
		}
	}
	return list
}

var quoted = regexp.MustCompile(`"[^"]*"`)

// inputs are all vectors, what phones rehearse, and all chips of a field in turn, by
// calculator.
func inputs(t *testing.T) map[string][]string {
	list := map[string][]string{}
	for name, cases := range load(t) {
		c, err := Get(name)
		if err != nil {
			continue
		}
		for _, v := range cases {
			list[name] = append(list[name], string(v.Input))
		}
		chips := func(f *form.Field, _ bool) (list []any) {
			for _, chip := range slices.Concat(f.Chips, f.ChipsUS) {
				list = append(list, chip)
			}
			return list
		}
		for _, s := range spoilt(t, c, cases[0].Input, chips) {
			b, _ := json.Marshal(s.values)
			list[name] = append(list[name], string(b))
		}
	}
	for _, r := range rehearsals {
		if _, err := Get(r.name); err == nil {
			list[r.name] = append(list[r.name], r.input)
		}
	}
	return list
}

// TestNoFigureFinerThanItsDoubt walks over all that calculators answer, in both
// systems.
func TestNoFigureFinerThanItsDoubt(t *testing.T) {
	seen, bad := 0, map[string]bool{}
	for name, list := range inputs(t) {
		c, err := Get(name)
		if err != nil {
			t.Fatal(err)
		}
		exact := 0
		if name == "convert" {
			exact = 2 // a unit is exact; four figures go on into a sum
		}
		for _, input := range list {
			for _, units := range []string{"metric", "us"} {
				values := map[string]any{}
				if err := json.Unmarshal([]byte(input), &values); err != nil {
					t.Fatal(err)
				}
				values["units"] = units
				a, err := c.CalculateValues(values)
				if err != nil {
					continue
				}
				own := typedNumbers(c, input)
				for _, s := range texts(name, a) {
					if strings.HasSuffix(s.where, " remedies value") {
						continue // goes into a field
					}
					more := exact
					if strings.HasSuffix(s.where, " working") {
						more = max(exact, 1)
					}
					for _, n := range figuresIn(s.text) {
						seen++
						if why := n.tooFine(more); why != "" && !own.holds(n.number) {
							line := fmt.Sprintf("%s (%s): %s %s in %q: %s", s.where, units, n.number, n.unit, s.text, why)
							if key := s.where + n.unit + units; !bad[key] {
								bad[key] = true
								t.Error(line)
							}
						}
					}
				}
			}
		}
	}
	t.Logf("tally: %d figures looked at", seen)
	if seen < 20000 {
		t.Errorf("only %d figures were looked at", seen)
	}
}

var digitsOf = regexp.MustCompile(`[0-9]+(?:\.[0-9]+)?(?:-[0-9]+/[0-9]+|/[0-9]+)?`)

// typedNumbers are the numbers that stand in what was entered, or in the defaults.
func typedNumbers(c *form.Calculator, input string) typedSet {
	var own typedSet
	for _, f := range allFields(c) {
		input += " " + f.Default
	}
	for _, n := range digitsOf.FindAllString(input, -1) {
		_, value := shown(n)
		own = append(own, value)
	}
	return own
}

// typedSet are numbers that a person entered, and is told again as he wrote them.
type typedSet []float64

func (own typedSet) holds(number string) bool {
	_, value := shown(number)
	return slices.ContainsFunc(own, func(v float64) bool { return v == value })
}

// lawful are numbers that a law or a definition states: they are no measure.
var lawful = strings.NewReplacer("14.696 psi", "", "101.325 kPa", "", "(284 m³)", "", "5 mm (3/16 in)", "")

// TestFieldsTellNoFigureFiner walks over what fields say of themselves: defaults as
// they are shown, limits and helps.
func TestFieldsTellNoFigureFiner(t *testing.T) {
	seen := 0
	for _, c := range All() {
		for _, f := range describedFields(c.Describe().Fields) {
			own := typedNumbers(c, f.Default)
			for _, text := range []string{f.Help, f.Allowed} {
				for _, n := range figuresIn(text) {
					seen++
					if why := n.tooFine(0); why != "" && !own.holds(n.number) {
						t.Errorf("%s %s: %s %s in %q: %s", c.Name, f.Key, n.number, n.unit, text, why)
					}
				}
			}
			if f.Usual == nil {
				continue
			}
			for _, text := range []string{f.Usual.Metric, f.Usual.US} {
				for _, n := range figuresIn(text) {
					seen++
					if why := n.tooFine(0); why != "" && !own.holds(n.number) {
						t.Errorf("%s %s: the default is shown as %q: %s", c.Name, f.Key, text, why)
					}
				}
			}
		}
	}
	if seen < 500 {
		t.Errorf("only %d figures were looked at", seen)
	}
}
