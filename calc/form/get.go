package form

import (
	"math"
	"strings"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// Get reads a quantity. It returns 0 for an optional field left empty; use Has
// to tell.
func Get[M unit.Measure](r *Reader, key string) M {
	r, f := r.at(key)
	text, ok := r.text(f)
	if !ok {
		return 0
	}
	return M(r.number(f, f.Takes, text))
}

// GetSheet is Get for a thickness that may be written as a sheet gauge; gauge
// turns the number of a gauge into a thickness.
func GetSheet(r *Reader, key string, gauge func(number string) (unit.Length, error)) unit.Length {
	r, f := r.at(key)
	text, ok := r.text(f)
	if !ok {
		return 0
	}
	r.Sheets(gauge)
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
	v, _, err := t.parse(text, system)
	return v, err
}

// parse is Parse that tells the unit as well in which the value was written.
func (t *Type) parse(text string, system unit.System) (v float64, in string, err error) {
	bare := t.Bare
	if system == unit.US && t.US != "" && unit.IsFraction(text) {
		bare = t.US
	}
	return t.Quantity.ParseIn(text, bare)
}

func (r *Reader) number(f *Field, t *Type, text string) float64 {
	v, in, err := t.parse(text, r.system)
	if err != nil {
		p := *problem.From(err)
		p.Msg = f.Label + ": " + p.Msg
		if p.Hint == t.Quantity.Allowed(t.Bare) { // else it asks back, and says for what
			p.Hint = r.calc.howTo(f, r.system)
		}
		r.Fail(f.Key, &p)
		return 0
	}
	r.typed.in[typedValue{t.Quantity, v}] = in
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
	r, f := r.at(key)
	v := GetFactor(r, key)
	if v != math.Trunc(v) || math.Abs(v) > 1e9 {
		r.fail(problem.Newf(problem.Malformed, key, "%s: %s is not a whole number", f.Label, r.values[key]).
			WithHint("%s", r.calc.howTo(f, r.system)))
		return 0
	}
	return int(v)
}

// GetFactor reads a plain number.
func GetFactor(r *Reader, key string) float64 {
	r, f := r.at(key)
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
	r, f := r.at(key)
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
	r, f := r.at(key)
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
	r, f := r.at(key)
	text, _ := r.text(f)
	return text
}

// Pair is one left:right of a list.
type Pair[L, R unit.Measure] struct {
	Left  L
	Right R
}

// GetPairs reads a list such as 20A:0.7mm,40A:0.95mm; a semicolon parts
// entries too, which lets a decimal comma stand in the numbers. A right half that
// may be left out and is, is 0. It returns nil for an optional field left empty.
func GetPairs[L, R unit.Measure](r *Reader, key string) []Pair[L, R] {
	r, f := r.at(key)
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
		if !ok && f.Takes.Each.Known != "" {
			pairs = append(pairs, Pair[L, R]{Left: L(r.number(f, f.Takes, left))})
			continue
		}
		if !ok {
			r.fail(problem.Newf(problem.Malformed, key, "%s: %q has no colon between its two values", f.Label, strings.TrimSpace(entry)).
				WithHint("%s", r.calc.written(f)))
			return nil
		}
		pairs = append(pairs, Pair[L, R]{L(r.number(f, f.Takes, left)), R(r.number(f, f.Takes.Right, right))})
	}
	return pairs
}
