package form

import (
	"cmp"
	"encoding/json"
	"fmt"
	"math"
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
	errs   []*problem.Error
}

// NewReader takes entered values by key. A value is text, a JSON number or a
// JSON boolean; null and "" stand for nothing entered. The key "units" is
// common to all calculators: "metric" (default) or "us", for the texts. So are
// "rig" and "site": all that is kept of the rig and the site in use, from which
// the calculator picks what it has fields for; see known.
func NewReader(c *Calculator, values map[string]any) *Reader {
	r := &Reader{calc: c, system: unit.Metric, values: map[string]string{}, from: map[string]Owner{}}
	keys := make([]string, 0, len(values))
	for k := range values {
		keys = append(keys, k)
	}
	order.Sort(keys, cmp.Compare) // so that the first trouble does not depend on map order
	for _, k := range keys {
		if k == "rig" || k == "site" {
			continue
		}
		text, err := asText(values[k])
		if err != nil {
			r.fail(problem.New(problem.Malformed, k, err.Error(), "Give text, a number, or true or false."))
			continue
		}
		if k == "units" {
			r.readSystem(text)
			continue
		}
		if _, ok := c.field(k); !ok {
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

// kept returns what is kept of the rig or of the site.
func (r *Reader) kept(values map[string]any, owner string) map[string]any {
	kept, ok := values[owner].(map[string]any)
	if !ok && values[owner] != nil {
		r.fail(problem.New(problem.Malformed, owner, "the "+owner+" is not an object of fields", `Send something like {"max_current": "45A"}.`))
	}
	return kept
}

// known takes what is kept of the rig and of the site into the fields that have
// an owner, where nothing was entered. The site wins; of an item of the truck it
// does so as a whole: its own compressor has not the truck's tank.
func (r *Reader) known(rig, site map[string]any) {
	own := map[string]bool{}
	for i := range r.calc.Fields {
		if f := &r.calc.Fields[i]; f.Item != "" && r.keptText(f, site) != "" {
			own[f.Item] = true
		}
	}
	for i := range r.calc.Fields {
		f := &r.calc.Fields[i]
		if f.Owner == OfNone || r.Given(f.Key) {
			continue
		}
		text, from := r.keptText(f, site), OfSite
		if text == "" && !own[f.Item] {
			text, from = r.keptText(f, rig), OfRig
			if f.Owner == OfTruck {
				from = OfTruck
			}
		}
		if text != "" {
			r.values[f.Key], r.from[f.Key] = text, from
		}
	}
}

func (r *Reader) keptText(f *Field, kept map[string]any) string {
	text, err := asText(kept[f.Key])
	if err != nil && f.Owner != OfNone {
		r.fail(problem.New(problem.Malformed, f.Key, err.Error(), "Enter "+f.Label+" again."))
	}
	return text
}

// From tells where a field's value comes from: OfSite, OfTruck or OfRig of what
// is kept, OfNone if it was entered or is the default.
func (r *Reader) From(key string) Owner { return r.from[key] }

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
	if len(r.errs) == 0 {
		return nil
	}
	keys := r.calc.keys()
	order.Stable(r.errs, func(a, b *problem.Error) int {
		return slices.Index(keys, a.Field) - slices.Index(keys, b.Field)
	})
	first := *r.errs[0]
	first.Also = r.errs[1:]
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
	for _, e := range r.errs {
		if e.Field == p.Field {
			return // one trouble a field is enough to mend it
		}
	}
	r.errs = append(r.errs, p)
}

// FromOf is From for an item: of the first of its fields that was kept.
func (r *Reader) FromOf(item string) Owner {
	for _, f := range r.calc.Fields {
		if from := r.from[f.Key]; f.Item == item && from != OfNone {
			return from
		}
	}
	return OfNone
}

// System is the system of units that texts are wanted in.
func (r *Reader) System() unit.System { return r.system }

// Given reports whether something was entered for key, defaults aside.
func (r *Reader) Given(key string) bool { _, ok := r.values[key]; return ok }

// Has reports whether key has a value, entered or default.
func (r *Reader) Has(key string) bool { return r.Given(key) || r.calc.mustField(key).Default != "" }

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
	return problem.New(problem.Missing, f.Key, f.Label+" is needed", r.calc.howTo(f, r.system))
}

// asked reports whether the field's Only holds.
func (r *Reader) asked(f *Field) bool {
	if f.Only == nil {
		return true
	}
	other := r.calc.mustField(f.Only.Key)
	word, _ := other.Takes.Word(cmp.Or(r.values[other.Key], other.Default))
	return slices.Contains(f.Only.Words, word)
}

// Get reads a quantity. It returns 0 for an optional field left empty; use Has
// to tell.
func Get[M unit.Measure](r *Reader, key string) M {
	f := r.calc.mustField(key)
	text, ok := r.text(f)
	if !ok {
		return 0
	}
	return M(r.number(f, f.Takes, text))
}

// GetSheet is Get for a thickness that may be written as a sheet gauge; gauge
// turns the number of a gauge into a thickness.
func GetSheet(r *Reader, key string, gauge func(number string) (unit.Length, error)) unit.Length {
	f := r.calc.mustField(key)
	text, ok := r.text(f)
	if !ok {
		return 0
	}
	number, isGauge := CutGauge(text)
	if !isGauge {
		return unit.Length(r.number(f, f.Takes, text))
	}
	thickness, err := gauge(number)
	if err != nil {
		r.Fail(key, err)
		return 0
	}
	r.within(f, float64(thickness), text)
	return thickness
}

// CutGauge returns the number of a gauge written such as "16ga" or "16 gauge".
func CutGauge(text string) (number string, ok bool) {
	t := strings.ToLower(strings.TrimSpace(text))
	for _, end := range []string{"gauge", "ga.", "ga", "g"} {
		n, ok := strings.CutSuffix(t, end)
		n = strings.TrimSpace(n)
		if ok && n != "" && n[len(n)-1] >= '0' && n[len(n)-1] <= '9' { // 6kg is no gauge
			return n, true
		}
	}
	return "", false
}

// Parse reads a value of the type in SI. A number without a unit is in the
// type's bare unit, but a fraction entered on a US device in its US unit.
func (t *Type) Parse(text string, system unit.System) (float64, error) {
	bare := t.Bare
	if system == unit.US && t.US != "" && unit.IsFraction(text) {
		bare = t.US
	}
	return t.Quantity.Parse(text, bare)
}

func (r *Reader) number(f *Field, t *Type, text string) float64 {
	v, err := t.Parse(text, r.system)
	if err != nil {
		p := *problem.From(err)
		p.Msg = f.Label + ": " + p.Msg
		if p.Hint == t.Quantity.Allowed(t.Bare) { // else it asks back, and says for what
			p.Hint = r.calc.howTo(f, r.system)
		}
		r.Fail(f.Key, &p)
		return 0
	}
	r.within(f, v, text)
	return v
}

func (r *Reader) within(f *Field, v float64, text string) {
	if f.Limits.Set && (v < f.Limits.Min || v > f.Limits.Max || math.IsNaN(v)) {
		r.fail(problem.Newf(problem.Range, f.Key, "%s: %s is outside what this can reckon with", f.Label, text).
			WithHint("%s", f.between(r.system)))
	}
}

// GetCount reads a whole number.
func GetCount(r *Reader, key string) int {
	v := GetFactor(r, key)
	if v != math.Trunc(v) || math.Abs(v) > 1e9 {
		f := r.calc.mustField(key)
		r.fail(problem.Newf(problem.Malformed, key, "%s: %s is not a whole number", f.Label, r.values[key]).
			WithHint("%s", r.calc.howTo(f, r.system)))
		return 0
	}
	return int(v)
}

// GetFactor reads a plain number.
func GetFactor(r *Reader, key string) float64 {
	f := r.calc.mustField(key)
	text, ok := r.text(f)
	if !ok {
		return 0
	}
	v, err := unit.ReadNumber(text)
	if err != nil {
		r.Fail(key, problem.From(err).WithHint("%s", r.calc.howTo(f, r.system)))
		return 0
	}
	r.within(f, v, text)
	return v
}

// GetWord reads a choice; the word is one of the declared ones.
func GetWord(r *Reader, key string) string {
	f := r.calc.mustField(key)
	text, ok := r.text(f)
	if !ok {
		return ""
	}
	if word, ok := f.Takes.Word(text); ok {
		return word
	}
	r.fail(problem.Newf(problem.Unknown, key, "%s: %q is not one of the choices", f.Label, text).
		WithHint("%s", r.calc.howTo(f, r.system)))
	return ""
}

// GetYes reads a yes or no; an optional one left empty is no.
func GetYes(r *Reader, key string) bool {
	f := r.calc.mustField(key)
	text, ok := r.text(f)
	if !ok {
		return false
	}
	if word, ok := f.Takes.Word(text); ok {
		return word == "yes"
	}
	r.fail(problem.Newf(problem.Malformed, key, "%s: %q is neither yes nor no", f.Label, text).WithHint("yes or no"))
	return false
}

// GetText reads free words.
func GetText(r *Reader, key string) string {
	text, _ := r.text(r.calc.mustField(key))
	return text
}

// Pair is one left:right of a list.
type Pair[L, R unit.Measure] struct {
	Left  L
	Right R
}

// GetPairs reads a list such as 20A:0.7mm,40A:0.95mm; a semicolon parts
// entries too, which lets a decimal comma stand in the numbers. It returns nil
// for an optional field left empty.
func GetPairs[L, R unit.Measure](r *Reader, key string) []Pair[L, R] {
	f := r.calc.mustField(key)
	text, ok := r.text(f)
	if !ok {
		return nil
	}
	between := ","
	if strings.Contains(text, ";") {
		between = ";"
	}
	var pairs []Pair[L, R]
	for _, entry := range strings.Split(text, between) {
		left, right, ok := strings.Cut(entry, ":")
		if !ok {
			r.fail(problem.Newf(problem.Malformed, key, "%s: %q has no colon between its two values", f.Label, strings.TrimSpace(entry)).
				WithHint("%s", r.calc.howTo(f, r.system)))
			return nil
		}
		pairs = append(pairs, Pair[L, R]{L(r.number(f, f.Takes, left)), R(r.number(f, f.Takes.Right, right))})
	}
	return pairs
}
