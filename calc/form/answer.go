package form

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"kerfside/calc/drawing"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Answer is what a calculator tells. On the wire:
//
//	{"results": {"speed": {"value": 0.02, "unit": "m/s", "text": "1200 mm/min", "also": "47.2 in/min"}, "start": "edge"},
//	 "cautions": ["…"], "working": ["P = U·I = 96 V × 40 A = 3.84 kW"], "sources": [{"id": "…", "text": "…"}],
//	 "pictures": [{"name": "kerf", "params": {"kerf": 1.24}}], "lengths": [[1.24, "0.0488 in"]]}
//
// value is in SI, text in the system asked for, also in the other one; lengths
// are those of the pictures. An answer that rests on another calculator's may
// carry that whole: "parts": {"cut-plan": {"results": …}}. A layout offers what can be
// printed, "templates": [{"key": "branch", "title": "…"}], and the cuts that follow,
// "cuts": [{"name": "…", "fields": {"thickness": "4mm"}}].
type Answer struct {
	calc     *Calculator
	system   unit.System
	typed    *Typed // what was read
	results  Group
	cautions []string
	working  []string
	sources  []source.ID
	pictures []Picture
	lengths  []Drawn
	parts    []*Answer

	templates []drawing.Template
	cuts      []Onward
}

// Group is an ordered set of results: an answer's own, or one row of a table.
type Group struct {
	keys   []string
	values []any
}

// Value is a number with its unit and its texts.
type Value struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
	Text  string  `json:"text"`
	Also  string  `json:"also,omitempty"` // in the other system, where it differs

	Low  float64 `json:"low,omitempty"` // of a result that is told as a range, in SI
	High float64 `json:"high,omitempty"`
}

// NewAnswer returns an empty answer to what r reads.
func NewAnswer(r *Reader) *Answer {
	return &Answer{calc: r.calc, system: r.system, typed: r.typed, sources: r.calc.Sources}
}

// Part returns an empty answer of another calculator, to be filled in with what
// was reckoned on the way to this one.
func (a *Answer) Part(c *Calculator) *Answer {
	part := &Answer{calc: c, system: a.system, typed: a.typed, sources: c.Sources}
	a.parts = append(a.parts, part)
	return part
}

// Put sets a result that is a quantity.
func Put[M unit.Measure](a *Answer, key string, m M) {
	a.results.set(key, a.value(a.calc.result(key).Gives, float64(m)))
}

// PutBetween sets a result that is known to lie about from low to high, most likely
// at m.
func PutBetween[M unit.Measure](a *Answer, key string, low, m, high M) {
	putRange(a, key, float64(low), float64(m), float64(high), (*unit.Quantity).Between)
}

// PutSpanning is PutBetween for a range that is rounded outwards, so that nothing of it
// lies outside of what is told.
func PutSpanning[M unit.Measure](a *Answer, key string, low, m, high M) {
	putRange(a, key, float64(low), float64(m), float64(high), (*unit.Quantity).Spanning)
}

func putRange(a *Answer, key string, low, m, high float64, text between) {
	a.results.set(key, a.ranged(a.calc.result(key).Gives, low, m, high, text))
}

// between tells a range in the unit of that name.
type between func(q *unit.Quantity, low, high float64, name string, d unit.Doubt) string

// ranged is a value with its range, told in the units of both systems.
func (a *Answer) ranged(t *Type, low, m, high float64, text between) Value {
	say := func(s unit.System) string { return text(t.Quantity, low, high, t.unit(m, s), t.Doubt) }
	v := Value{Value: m, Unit: t.Quantity.SI, Text: say(a.system), Also: say(a.system.Other()), Low: low, High: high}
	if v.Also == v.Text {
		v.Also = ""
	}
	return v
}

// PutSaid sets a result that people are told in words.
func PutSaid[M unit.Measure](a *Answer, key string, m M, words string) {
	a.calc.result(key)
	a.results.set(key, Value{Value: float64(m), Unit: m.Quantity().SI, Text: words})
}

// PutOf sets a result whose quantity is known only once the fields are read
// (declare it with AnyNumber): the SI value v of q, printed in the unit name
// with that many figures.
func (a *Answer) PutOf(key string, q *unit.Quantity, name string, v float64, figures int) {
	a.calc.result(key)
	u, ok := q.Find(name)
	if !ok {
		panic("form: " + name + " is not a unit of " + q.Name)
	}
	a.results.set(key, Value{Value: v, Unit: q.SI, Text: unit.Figures((v-u.Zero)/u.Size, figures) + " " + u.Name})
}

// PutWord sets a result that is a word or a sentence.
func (a *Answer) PutWord(key, word string) { a.calc.result(key); a.results.set(key, word) }

// PutYes sets a result that is true or false.
func (a *Answer) PutYes(key string, yes bool) { a.calc.result(key); a.results.set(key, yes) }

// PutFactor sets a result that is a plain number.
func (a *Answer) PutFactor(key string, v float64) {
	a.results.set(key, factor(a.calc.result(key).Gives.Doubt, v))
}

func factor(d unit.Doubt, v float64) Value {
	shown := v
	if d.Share > 0 {
		shown = unit.Round(v, 2)
	}
	return Value{Value: v, Unit: "1", Text: unit.Figures(shown, 3)}
}

// PutCount sets a result that is a whole number.
func (a *Answer) PutCount(key string, n int) { a.PutFactor(key, float64(n)) }

// PutRows sets a result that is a table.
func (a *Answer) PutRows(key string, rows []*Row) {
	a.calc.result(key)
	list := make([]*Group, len(rows)) // never null on the wire
	for i, row := range rows {
		list[i] = &row.Group
	}
	a.results.set(key, list)
}

// Row is one row of a table.
type Row struct {
	Group
	answer *Answer
}

// NewRow starts a row of a table of this answer.
func (a *Answer) NewRow() *Row { return &Row{answer: a} }

// NewRowOf starts a row that tells of a row of a list: a gauge is one of its metal.
func (a *Answer) NewRowOf(r *Reader) *Row {
	own := *a
	own.typed = r.typed
	return &Row{answer: &own}
}

// PutCell sets a cell that is a quantity; t gives its units.
func PutCell[M unit.Measure](row *Row, key string, t *Type, m M) {
	row.set(key, row.answer.value(t, float64(m)))
}

// PutCellSpanning is PutSpanning for a cell; t gives its units.
func PutCellSpanning[M unit.Measure](row *Row, key string, t *Type, low, m, high M) {
	row.set(key, row.answer.ranged(t, float64(low), float64(m), float64(high), (*unit.Quantity).Spanning))
}

// PutCellSaid sets a cell that people are told in words.
func PutCellSaid[M unit.Measure](row *Row, key string, m M, words string) {
	row.set(key, Value{Value: float64(m), Unit: m.Quantity().SI, Text: words})
}

// PutWord sets a cell that is a word.
func (row *Row) PutWord(key, word string) { row.set(key, word) }

// PutYes sets a cell that is true or false.
func (row *Row) PutYes(key string, yes bool) { row.set(key, yes) }

// PutFactor sets a cell that is a plain number.
func (row *Row) PutFactor(key string, v float64) {
	row.set(key, Value{Value: v, Unit: "1", Text: unit.Figures(v, 3)})
}

// Caution adds a caution: short, second person, what to do.
func (a *Answer) Caution(format string, args ...any) {
	a.cautions = append(a.cautions, fmt.Sprintf(format, args...))
}

// Step adds one step of the working, as a person would check it by hand.
func (a *Answer) Step(format string, args ...any) {
	a.working = append(a.working, fmt.Sprintf(format, args...))
}

// Cite adds a source beyond those that the calculator always rests on.
func (a *Answer) Cite(id source.ID) {
	for _, s := range a.sources {
		if s == id {
			return
		}
	}
	a.sources = append(a.sources[:len(a.sources):len(a.sources)], id)
}

// Say prints a quantity in the system asked for, for working and cautions.
func Say[M unit.Measure](a *Answer, m M) string {
	q := m.Quantity()
	return a.typed.Say(q, float64(m), q.UnitFor(float64(m), a.system), unit.Doubt{})
}

// SayIn prints a quantity in the metric or the US unit, by the system.
func SayIn[M unit.Measure](a *Answer, m M, metric, us string) string {
	return a.typed.Say(m.Quantity(), float64(m), a.Unit(metric, us), unit.Doubt{})
}

// Rough is SayIn for what is in doubt.
func Rough[M unit.Measure](a *Answer, m M, metric, us string) string {
	return a.typed.Say(m.Quantity(), float64(m), a.Unit(metric, us), unit.InDoubt)
}

// Worked is SayIn to three figures, for steps of the working that are checked by hand.
func Worked[M unit.Measure](a *Answer, m M, metric, us string) string {
	return a.typed.Say(m.Quantity(), float64(m), a.Unit(metric, us), unit.Doubt{Sort: unit.Worked})
}

// SayAs prints a length of that sort.
func SayAs(a *Answer, l unit.Length, sort unit.Sort) string {
	return a.print(Number[unit.Length]("mm", "in").As(sort), float64(l), a.system)
}

// System is the system of units that texts are wanted in.
func (a *Answer) System() unit.System { return a.system }

// print prints the SI value v in the type's own unit of that system.
func (a *Answer) print(t *Type, v float64, system unit.System) string {
	return a.typed.Say(t.Quantity, v, t.unit(v, system), t.Doubt)
}

func (a *Answer) value(t *Type, v float64) Value {
	text, also := a.print(t, v, a.system), a.print(t, v, a.system.Other())
	if also == text {
		also = ""
	}
	return Value{Value: v, Unit: t.Quantity.SI, Text: text, Also: also}
}

func (c *Calculator) result(key string) Result {
	for _, r := range c.Results {
		if r.Key == key {
			return r
		}
	}
	panic("form: " + c.Name + " declares no result " + key)
}

func (g *Group) set(key string, v any) {
	for i, k := range g.keys {
		if k == key {
			g.values[i] = v
			return
		}
	}
	g.keys, g.values = append(g.keys, key), append(g.values, v)
}

// Get returns a result by key: a Value, a string, a bool or a []*Group.
func (g *Group) Get(key string) (any, bool) {
	for i, k := range g.keys {
		if k == key {
			return g.values[i], true
		}
	}
	return nil, false
}

// Keys lists the keys in order.
func (g *Group) Keys() []string { return g.keys }

// MarshalJSON writes the group as an object in its own order.
func (g *Group) MarshalJSON() ([]byte, error) {
	var b strings.Builder
	b.WriteByte('{')
	for i, k := range g.keys {
		if i > 0 {
			b.WriteByte(',')
		}
		key, err := json.Marshal(k)
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(g.values[i])
		if err != nil {
			return nil, err
		}
		b.Write(key)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return []byte(b.String()), nil
}

// Told returns the label of a result and what a person is told of it; false if it is not
// there, or is a table.
func (a *Answer) Told(key string) (label, text string, ok bool) {
	v, ok := a.results.Get(key)
	switch v := v.(type) {
	case Value:
		return a.calc.result(key).Label, v.Text, ok
	case string:
		return a.calc.result(key).Label, v, ok
	}
	return "", "", false
}

// Results are the answer's results.
func (a *Answer) Results() *Group { return &a.results }

// Cautions are the answer's cautions.
func (a *Answer) Cautions() []string { return a.cautions }

// Working is the sum, step by step.
func (a *Answer) Working() []string { return a.working }

type cited struct {
	ID   source.ID `json:"id"`
	Text string    `json:"text"`
}

// MarshalJSON writes the answer as the comment on Answer shows it.
func (a *Answer) MarshalJSON() ([]byte, error) {
	sources := []cited{}
	for _, id := range a.sources {
		s, _ := source.Get(id)
		sources = append(sources, cited{id, s.Cite()})
	}
	parts := map[string]*Answer{}
	for _, part := range a.parts {
		parts[part.calc.Name] = part
	}
	return json.Marshal(struct {
		Results  *Group             `json:"results"`
		Cautions []string           `json:"cautions"`
		Working  []string           `json:"working"`
		Sources  []cited            `json:"sources"`
		Pictures []Picture          `json:"pictures,omitempty"`
		Lengths  []Drawn            `json:"lengths,omitempty"` // of the pictures
		Parts    map[string]*Answer `json:"parts,omitempty"`

		Templates []Offered `json:"templates,omitempty"`
		Cuts      []Onward  `json:"cuts,omitempty"`
	}{Results: &a.results, Cautions: orEmpty(a.cautions), Working: orEmpty(a.working), Sources: sources, Pictures: a.pictures, Lengths: a.lengths, Parts: parts,
		Templates: a.offered(), Cuts: a.cuts})
}

func orEmpty(s []string) []string {
	if s == nil {
		return []string{}
	}
	return s
}

// check reports a result that no person should see.
func (a *Answer) check() error {
	for i, v := range a.results.values {
		if n, ok := v.(Value); ok && (math.IsNaN(n.Value) || math.IsInf(n.Value, 0)) {
			return problem.From(fmt.Errorf("%s: result %s is %v", a.calc.Name, a.results.keys[i], n.Value))
		}
	}
	for _, part := range a.parts {
		if err := part.check(); err != nil {
			return err
		}
	}
	return nil
}

// Calculate runs the calculator on a JSON object of entered values.
func (c *Calculator) Calculate(input []byte) (*Answer, error) {
	r, err := NewJSONReader(c, input)
	if err != nil {
		return nil, err
	}
	return c.run(r)
}

// CalculateValues runs the calculator on entered values by key.
func (c *Calculator) CalculateValues(values map[string]any) (*Answer, error) {
	return c.run(NewReader(c, values))
}

func (c *Calculator) run(r *Reader) (*Answer, error) {
	a := NewAnswer(r)
	if err := c.Run(r, a); err != nil {
		return nil, err
	}
	if err := r.Err(); err != nil { // a trouble that Run did not look for
		return nil, err
	}
	return a, a.check()
}
