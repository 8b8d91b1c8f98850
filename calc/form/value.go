package form

import (
	"cmp"
	"encoding/json"
	"math"
	"strings"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// ValueInput asks what a person's text means before a whole form is filled in:
// either as a field of a calculator or as a quantity by name.
type ValueInput struct {
	Text     string `json:"text"`
	Units    string `json:"units"`    // metric or us
	Quantity string `json:"quantity"` // "length"; used without a field
	Bare     string `json:"bare"`     // unit of a bare number; used without a field
	US       string `json:"us"`       // unit to print in on a US device; used without a field
	In       string `json:"in"`       // unit in which Whole is wanted, such as "µm"
	Sort     string `json:"sort"`     // unit.Sort, by which it is told in the other system; used without a field
}

// ValueRead is what the text means.
type ValueRead struct {
	Value
	Whole *int64 `json:"whole,omitempty"` // the value in the unit In, rounded
}

// ReadValue reads one value of a field and prints it in both systems. A sheet
// gauge is only repeated: its thickness depends on the metal. A field in the rows of
// a list is named as cuts.thickness.
func (c *Calculator) ReadValue(key string, in ValueInput) (ValueRead, error) {
	if list, cell, ok := strings.Cut(key, "."); ok {
		if f, ok := c.field(list); ok && f.Takes.Kind == KindList {
			return f.Takes.List.Row.ReadValue(cell, in)
		}
	}
	f, ok := c.field(key)
	if !ok {
		return ValueRead{}, problem.Newf(problem.Unknown, key, "%s has no field %q", c.Name, key)
	}
	r := NewReader(c, map[string]any{key: in.Text, "units": in.Units})
	a := NewAnswer(r)
	var v Value
	switch number, isGauge := CutGauge(in.Text); {
	case f.Gauge && isGauge:
		v = Value{Text: number + " ga"}
	case f.Takes.Kind == KindNumber:
		text, _ := r.text(f)
		v = a.value(f.Takes, r.number(f, f.Takes, text))
	case f.Takes.Kind == KindCount:
		v = Value{Value: float64(GetCount(r, key)), Unit: "1", Text: in.Text}
	case f.Takes.Kind == KindFactor:
		v = Value{Value: GetFactor(r, key), Unit: "1", Text: in.Text}
	default:
		return ValueRead{}, problem.Newf(problem.Unknown, key, "%s does not take a number", f.Label)
	}
	return ValueRead{Value: v}, r.Err()
}

// ReadQuantity reads one value of a quantity by name.
func ReadQuantity(in ValueInput) (ValueRead, error) {
	q, err := quantityOf(in.Quantity)
	if err != nil {
		return ValueRead{}, err
	}
	t := &Type{Kind: KindNumber, Quantity: q, Bare: in.Bare, US: in.US}
	v, written, err := t.parse(in.Text, systemOf(in.Units))
	if err != nil {
		return ValueRead{}, err
	}
	t.Doubt.Sort = unit.Sort(in.Sort)
	read := ValueRead{Value: (&Answer{system: systemOf(in.Units), typed: &Typed{in: map[typedValue]string{{q, v}: written}}}).value(t, v)}
	if in.In != "" {
		u, ok := q.Find(in.In)
		if !ok {
			return ValueRead{}, problem.Newf(problem.Unit, "in", "%q is not a unit of %s", in.In, q.Name)
		}
		whole := int64(math.Round((v - u.Zero) / u.Size))
		read.Whole = &whole
	}
	return read, nil
}

// SayInput asks for the texts of values of one quantity, for pages that draw
// or list them at once.
type SayInput struct {
	Quantity string    `json:"quantity"`
	In       string    `json:"in"`     // unit of the values; Bare if left out
	Bare     string    `json:"bare"`   // unit to print in on a metric device
	US       string    `json:"us"`     // unit to print in on a US device
	Units    string    `json:"units"`  // metric or us
	Sort     string    `json:"sort"`   // unit.Sort: how finely they are told
	Values   []float64 `json:"values"` // at most a thousand
}

// Said are the texts in the order of the values.
type Said struct {
	Texts []string `json:"texts"`
}

// SayValues prints values of a quantity; input is a SayInput as JSON.
func SayValues(input []byte) (Said, error) {
	var in SayInput
	if err := json.Unmarshal(input, &in); err != nil {
		return Said{}, problem.New(problem.Malformed, "", "the input is not one JSON object", `Send something like {"quantity": "length", "bare": "mm", "us": "in", "units": "us", "values": [0.95]}.`)
	}
	q, err := quantityOf(in.Quantity)
	if err != nil {
		return Said{}, err
	}
	name := in.Bare
	if systemOf(in.Units) == unit.US {
		name = in.US
	}
	from, known := q.Find(cmp.Or(in.In, in.Bare))
	if _, ok := q.Find(name); !ok || !known {
		return Said{}, problem.Newf(problem.Unit, "bare", "%q or %q is not a unit of %s", cmp.Or(in.In, in.Bare), name, q.Name)
	}
	if len(in.Values) > 1000 {
		return Said{}, problem.New(problem.Range, "values", "more than a thousand values at once", "Ask in parts.")
	}
	said := Said{make([]string, len(in.Values))}
	for i, v := range in.Values {
		said.Texts[i] = q.Say(v*from.Size+from.Zero, name, unit.Doubt{Sort: unit.Sort(in.Sort)})
	}
	return said, nil
}

func quantityOf(name string) (*unit.Quantity, error) {
	for _, q := range unit.All {
		if q.Name == name {
			return q, nil
		}
	}
	return nil, problem.Newf(problem.Unknown, "quantity", "there is no quantity %q", name)
}

func systemOf(units string) unit.System {
	if strings.EqualFold(units, string(unit.US)) {
		return unit.US
	}
	return unit.Metric
}

// DecodeValueInput reads a ValueInput with the field it may name.
func DecodeValueInput(input []byte) (calculator, field string, in ValueInput, err error) {
	var v struct {
		Calculator string `json:"calculator"`
		Field      string `json:"field"`
		ValueInput
	}
	if err := json.Unmarshal(input, &v); err != nil {
		return "", "", in, problem.New(problem.Malformed, "", "the input is not one JSON object", `Send something like {"text": "6mm", "quantity": "length", "bare": "mm"}.`)
	}
	return v.Calculator, v.Field, v.ValueInput, nil
}
