package form

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kerfside/calc/order"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// maxText bounds what one field may hold; no tradesman's entry comes near it.
const maxText = 2000

// Reader reads the entered values of one calculator. It remembers every
// field's trouble, so that a form can show them all at once.
type Reader struct {
	calc   *Calculator
	system unit.System
	values map[string]string
	from   map[string]Owner // of the values that were kept: where they come from
	typed  *Typed
	errs   []*problem.Error

	// Of a row of a list:
	form *Reader // that it stands in
	key  string  // "cuts.2"
	name string  // "Cut 2"
}

// NewReader takes entered values by key. A value is text, a JSON number or a
// JSON boolean; null and "" stand for nothing entered. The key "units" is
// common to all calculators: "metric" (default) or "us", for the texts. So are
// "rig" and "site": all that is kept of the rig and the site in use, from which
// the calculator picks what it has fields for; see known.
func NewReader(c *Calculator, values map[string]any) *Reader {
	r := &Reader{calc: c, system: unit.Metric, values: map[string]string{}, from: map[string]Owner{}, typed: &Typed{in: map[typedValue]string{}}}
	keys := make([]string, 0, len(values))
	for k := range values {
		keys = append(keys, k)
	}
	order.Sort(keys, cmp.Compare) // so that the first trouble does not depend on map order
	for _, k := range keys {
		if k == "rig" || k == "site" {
			continue
		}
		f, ok := c.field(k)
		text, err := f.entered(values[k])
		if err != nil {
			r.fail(problem.New(problem.Malformed, k, err.Error(), f.wants()))
			continue
		}
		if k == "units" {
			r.readSystem(text)
			continue
		}
		if !ok {
			r.fail(problem.Newf(problem.Unknown, k, "%s has no field %q", c.Name, k).
				WithHint("%s", "Fields: "+strings.Join(c.keys(), ", ")+"."))
			continue
		}
		if text != "" {
			r.values[k] = text
		}
	}
	r.known(r.kept(values, "rig"), r.kept(values, "site"))
	return r
}

// NewJSONReader takes the values as a JSON object.
func NewJSONReader(c *Calculator, input []byte) (*Reader, error) {
	values := map[string]any{}
	if strings.TrimSpace(string(input)) != "" {
		d := json.NewDecoder(strings.NewReader(string(input)))
		d.UseNumber()
		if err := d.Decode(&values); err != nil || d.More() {
			return nil, problem.New(problem.Malformed, "", "the input is not one JSON object", `Send something like {"thickness": "6mm"}.`)
		}
	}
	return NewReader(c, values), nil
}

// entered is what was entered into a field, as text; f is nil for what is no field.
func (f *Field) entered(v any) (string, error) {
	if f != nil && f.Takes.Kind == KindList {
		return listText(v)
	}
	return asText(v)
}

// wants says what may be entered at all.
func (f *Field) wants() string {
	if f != nil && f.Takes.Kind == KindList {
		return "Give a list of rows."
	}
	return "Give text, a number, or true or false."
}

func asText(v any) (string, error) {
	switch v := v.(type) {
	case nil:
		return "", nil
	case string:
		if len(v) > maxText {
			return "", fmt.Errorf("the text is longer than %d characters", maxText)
		}
		return strings.TrimSpace(v), nil
	case json.Number:
		return v.String(), nil
	case float64:
		return strconv.FormatFloat(v, 'g', -1, 64), nil
	case int:
		return strconv.Itoa(v), nil
	case bool:
		return strconv.FormatBool(v), nil
	}
	return "", fmt.Errorf("a list or object cannot stand here")
}

func (r *Reader) readSystem(text string) {
	switch s := unit.System(strings.ToLower(text)); s {
	case unit.Metric, unit.US:
		r.system = s
	case "": // nothing asked for
	default:
		r.fail(problem.Newf(problem.Unknown, "units", "%q is not a system of units", text).WithHint("metric or us"))
	}
}

// Err returns the first trouble in the order of the fields, with the others
// under Also, or nil.
func (r *Reader) Err() error {
	errs := r.troubles()
	if len(errs) == 0 {
		return nil
	}
	c := r.calc
	if r.form != nil {
		c = r.form.calc
	}
	order.Stable(errs, func(a, b *problem.Error) int { return slices.Compare(c.place(a.Field), c.place(b.Field)) })
	first := *errs[0]
	first.Also = errs[1:]
	return &first
}

// Fail adds a trouble with a field, found by the calculator itself before
// computing. A problem without a field is blamed on key.
func (r *Reader) Fail(key string, err error) {
	p := *problem.From(err)
	if p.Field == "" {
		p.Field = key
	}
	r.fail(&p)
}

func (r *Reader) fail(p *problem.Error) {
	if r.form != nil {
		r.blame(p)
		return
	}
	for _, e := range r.errs {
		if e.Field == p.Field {
			return // one trouble a field is enough to mend it
		}
	}
	r.errs = append(r.errs, p)
}

// System is the system of units that texts are wanted in.
func (r *Reader) System() unit.System { return r.system }

// Given reports whether something was entered for key, defaults aside.
func (r *Reader) Given(key string) bool {
	if _, own := r.calc.field(key); !own && r.form != nil {
		return r.form.Given(key)
	}
	_, ok := r.values[key]
	return ok
}

// Has reports whether key has a value, entered or default.
func (r *Reader) Has(key string) bool {
	r, f := r.at(key)
	return r.Given(key) || f.Default != ""
}

// text returns what stands in a field and whether there is anything to read.
// A field without entry, default or leave to be empty is a trouble.
func (r *Reader) text(f *Field) (string, bool) {
	text := r.values[f.Key]
	if text == "" {
		text = f.Default
	}
	if text == "" && !f.Optional && r.asked(f) {
		r.fail(r.missing(f))
	}
	return text, text != ""
}

// missing says that a field was left empty.
func (r *Reader) missing(f *Field) *problem.Error {
	if f.Hazard {
		return problem.New(problem.Missing, f.Key, "“"+f.Label+"” is not answered", "Look, then answer; nothing is taken for granted here. "+r.calc.howTo(f, r.system))
	}
	if l := f.Takes.List; l != nil {
		return problem.New(problem.Missing, f.Key, "No "+strings.ToLower(l.Name)+" is listed yet", r.calc.howTo(f, r.system))
	}
	return problem.New(problem.Missing, f.Key, f.Label+" is needed", r.calc.howTo(f, r.system))
}

// asked reports whether the field's Only holds.
func (r *Reader) asked(f *Field) bool {
	if f.Only == nil {
		return true
	}
	r, other := r.at(f.Only.Key)
	word, _ := other.Takes.Word(cmp.Or(r.values[other.Key], other.Default))
	return slices.Contains(f.Only.Words, word)
}
