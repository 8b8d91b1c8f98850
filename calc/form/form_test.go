package form

import (
	"encoding/json"
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// shop is a small calculator with a field of each kind.
var shop = Calculator{
	Name: "shop",
	Fields: []Field{
		{Key: "length", Label: "Length", Takes: Number[unit.Length]("mm", "in"), Limits: Within(1*unit.Millimetre, 1*unit.Metre)},
		{Key: "kind", Label: "Kind", Takes: OneOf("bar", "Bar", "tube", "Tube"), Default: "bar"},
		{Key: "wall", Label: "Wall", Takes: Number[unit.Length]("mm", "in"), Only: When("kind", "tube"), Gauge: true,
			Limits: Within(0.3*unit.Millimetre, 20*unit.Millimetre)},
		{Key: "pieces", Label: "Pieces", Takes: Count(), Default: "1", Limits: WithinCount(1, 100)},
		{Key: "tips", Label: "Tips", Takes: Pairs(Number[unit.Current]("A", "A"), Number[unit.Length]("mm", "in"), Each{}), Optional: true},
		{Key: "wet", Label: "Wet", Takes: YesNo(), Optional: true},
	},
	Results: []Result{
		{Key: "total", Label: "Total", Gives: Number[unit.Length]("m", "ft")},
		{Key: "wall", Label: "Wall", Gives: Number[unit.Length]("mm", "in")},
		{Key: "tips", Label: "Tips", Gives: Count()},
	},
	Run: func(r *Reader, a *Answer) error {
		length, pieces := Get[unit.Length](r, "length"), GetCount(r, "pieces")
		kind := GetWord(r, "kind")
		if kind == "tube" {
			Put(a, "wall", GetSheet(r, "wall", func(number string) (unit.Length, error) {
				if number != "16" {
					return 0, problem.Newf(problem.Unknown, "", "no gauge %q", number).WithHint("Only 16.")
				}
				return 1.5 * unit.Millimetre, nil
			}))
		}
		a.PutCount("tips", len(GetPairs[unit.Current, unit.Length](r, "tips")))
		GetYes(r, "wet")
		if err := r.Err(); err != nil {
			return err
		}
		Put(a, "total", unit.Length(float64(length)*float64(pieces)))
		return nil
	},
}

func TestRun(t *testing.T) {
	a, err := shop.Calculate([]byte(`{"length": 500, "pieces": "4", "kind": "Tube", "wall": "16ga", "tips": "20:0.7mm, 40A:0.95", "units": "us"}`))
	if err != nil {
		t.Fatal(err)
	}
	got, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	const want = `{"results":{"wall":{"value":0.0015,"unit":"m","text":"0.059 in","also":"1.5 mm"},` +
		`"tips":{"value":2,"unit":"1","text":"2"},"total":{"value":2,"unit":"m","text":"6.6 ft","also":"2 m"}},` +
		`"cautions":[],"working":[],"sources":[]}`
	if string(got) != want {
		t.Errorf("answer = %s\nwant %s", got, want)
	}
}

func TestDecimalCommasInPairs(t *testing.T) {
	if _, err := shop.Calculate([]byte(`{"length": "1m", "tips": "20A:0,7mm; 40A:0,95mm"}`)); err != nil {
		t.Error(err)
	}
}

func TestRefusals(t *testing.T) {
	tests := []struct {
		name, input, field string
		kind               problem.Kind
	}{
		{name: "not an object", input: `[1]`, kind: problem.Malformed},
		{name: "two objects", input: `{} {}`, kind: problem.Malformed},
		{name: "nothing", input: `{}`, field: "length", kind: problem.Missing},
		{name: "null is nothing", input: `{"length": null}`, field: "length", kind: problem.Missing},
		{name: "a list", input: `{"length": [1]}`, field: "length", kind: problem.Malformed},
		{name: "a wrong unit", input: `{"length": "5psi"}`, field: "length", kind: problem.Unit},
		{name: "below", input: `{"length": "0.5mm"}`, field: "length", kind: problem.Range},
		{name: "above", input: `{"length": "2m"}`, field: "length", kind: problem.Range},
		{name: "an unknown key", input: `{"length": "5mm", "lenght": 5}`, field: "lenght", kind: problem.Unknown},
		{name: "an unknown choice", input: `{"length": "5mm", "kind": "plate"}`, field: "kind", kind: problem.Unknown},
		{name: "not whole", input: `{"length": "5mm", "pieces": 1.5}`, field: "pieces", kind: problem.Malformed},
		{name: "an unknown gauge", input: `{"length": "5mm", "kind": "tube", "wall": "99ga"}`, field: "wall", kind: problem.Unknown},
		{name: "a field that the choice asks for", input: `{"length": "5mm", "kind": "tube"}`, field: "wall", kind: problem.Missing},
		{name: "a pair without a colon", input: `{"length": "5mm", "tips": "20A"}`, field: "tips", kind: problem.Malformed},
		{name: "neither yes nor no", input: `{"length": "5mm", "wet": "perhaps"}`, field: "wet", kind: problem.Malformed},
		{name: "units of nowhere", input: `{"length": "5mm", "units": "furlongs"}`, field: "units", kind: problem.Unknown},
		{name: "a very long text", input: `{"length": "` + strings.Repeat("9", 3000) + `"}`, field: "length", kind: problem.Malformed},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := shop.Calculate([]byte(test.input))
			p := problem.From(err)
			if p == nil || p.Field != test.field || p.Kind != test.kind || p.Hint == "" {
				t.Errorf("Calculate(%.60s) = %+v, want %s %s with a hint", test.input, p, test.field, test.kind)
			}
		})
	}
}

// TestAllTroublesAtOnce: a form shows every bad field, first in field order.
func TestAllTroublesAtOnce(t *testing.T) {
	_, err := shop.Calculate([]byte(`{"pieces": "many", "kind": "plate"}`))
	p := problem.From(err)
	if p == nil || p.Field != "length" || len(p.Also) != 2 || p.Also[0].Field != "kind" || p.Also[1].Field != "pieces" {
		t.Errorf("error = %+v, want length, then kind, then pieces", p)
	}
}

// A default is shown in the person's units; what is reckoned with is the default
// as declared. 1 bar is 14.50 lbf/in² (NIST SP 811, appendix B.8).
func TestUsual(t *testing.T) {
	c := &Calculator{Name: "usual", Fields: []Field{
		{Key: "p", Label: "Pressure", Takes: Number[unit.Pressure]("bar", "psi"), Default: "6bar", Limits: Within(0*unit.Bar, 9*unit.Bar)},
		{Key: "none", Label: "Pressure", Takes: Number[unit.Pressure]("bar", "psi"), Limits: Within(0*unit.Bar, 9*unit.Bar)},
		{Key: "on", Label: "On", Takes: YesNo(), Default: "no"},
	}}
	fields := c.Describe().Fields
	if got := fields[0]; got.Default != "6bar" || got.Usual == nil || *got.Usual != (Usual{"6 bar", "87 psi"}) {
		t.Errorf("%q is shown as %+v, want 6 bar and 87 psi", got.Default, got.Usual)
	}
	if fields[1].Usual != nil || fields[2].Usual != nil {
		t.Errorf("shown as usual: %+v, %+v; want nothing", fields[1].Usual, fields[2].Usual)
	}
}

func TestReadValue(t *testing.T) {
	v, err := shop.ReadValue("length", ValueInput{Text: "1/4in", Units: "metric"})
	if err != nil || v.Text != "6.4 mm" || v.Also != "1/4 in" {
		t.Errorf("ReadValue = %+v, %v, want 6.4 mm, 1/4 in", v, err)
	}
	if v, err := shop.ReadValue("wall", ValueInput{Text: "16ga"}); err != nil || v.Text != "16 ga" {
		t.Errorf("ReadValue of a gauge = %+v, %v, want 16 ga", v, err)
	}
	if _, err := shop.ReadValue("length", ValueInput{Text: "2m"}); problem.KindOf(err) != problem.Range {
		t.Errorf("ReadValue past the limit = %v, want a range problem", err)
	}
	q, err := ReadQuantity(ValueInput{Text: "1.05", Quantity: "length", Bare: "mm", US: "in", In: "µm"})
	if err != nil || q.Whole == nil || *q.Whole != 1050 {
		t.Errorf("ReadQuantity = %+v, %v, want 1050 µm", q, err)
	}
}

// A weight must not be taken for a gauge only because it ends in g.
func TestCutGauge(t *testing.T) {
	tests := []struct {
		text, want string
		ok         bool
	}{
		{text: "16ga", want: "16", ok: true}, {text: "16 gauge", want: "16", ok: true}, {text: "16g", want: "16", ok: true}, {text: "3/0 ga.", want: "3/0", ok: true},
		{text: "6kg"}, {text: "6mg"}, {text: "16"}, {text: "ga"}, {text: "g"},
	}
	for _, test := range tests {
		if got, ok := CutGauge(test.text); got != test.want || ok != test.ok {
			t.Errorf("CutGauge(%q) = %q, %v, want %q, %v", test.text, got, ok, test.want, test.ok)
		}
	}
}

// A fraction without a unit is asked back, whatever field takes it; on a US device
// it is in the unit that such a device enters. A bare number stays metric there, and
// the form says both.
func TestFractionsWithoutAUnit(t *testing.T) {
	r := func(values map[string]any) *Reader { return NewReader(&shop, values) }
	tests := []struct {
		name   string
		values map[string]any
		want   float64 // of length; 0 where it is refused
		hint   string
	}{
		{name: "metric", values: map[string]any{"length": "1/2"}, want: 0, hint: "Write 1/2in, or 12.7mm."},
		{name: "US", values: map[string]any{"length": "1/2", "units": "us"}, want: 0.0127},
		{name: "US, whole and part", values: map[string]any{"length": "1-1/2", "units": "us"}, want: 0.0381},
		{name: "US, a bare number", values: map[string]any{"length": "12", "units": "us"}, want: 0.012},
		{name: "US, what is allowed", values: map[string]any{"length": "thick", "units": "us"}, want: 0, hint: "a bare number is in mm, a fraction in in"},
	}
	for _, test := range tests {
		reader := r(test.values)
		got := float64(Get[unit.Length](reader, "length"))
		p := problem.From(reader.Err())
		if got != test.want && (got < test.want*0.999999 || got > test.want*1.000001) || (p == nil) != (test.hint == "") || p != nil && !strings.Contains(p.Hint, test.hint) {
			t.Errorf("%s: %v, %v, want %v or %q", test.name, got, p, test.want, test.hint)
		}
	}
	if pairs := r(map[string]any{"tips": "40:1/32"}); GetPairs[unit.Current, unit.Length](pairs, "tips") != nil && pairs.Err() == nil {
		t.Error("a bore of 1/32 without a unit was taken")
	}
}

// Choices are answered in other spellings too, and a field that hangs on one is
// asked then as well.
func TestOtherSpellings(t *testing.T) {
	metals := OneOf("mild-steel", "Mild steel", "aluminium", "Aluminium", "galvanised", "Galvanised", "cast-iron", "Cast iron")
	metals.Also = []string{"steel", "mild-steel"}
	for text, want := range map[string]string{
		"aluminum": "aluminium", "Aluminum": "aluminium", "ALUMINIUM": "aluminium", "galvanized": "galvanised", "Galvanized": "galvanised",
		"mild steel": "mild-steel", "Mild_Steel": "mild-steel", " mild  steel": "mild-steel", "steel": "mild-steel", "cast iron": "cast-iron",
		"tin": "", "mild": "", "": "",
	} {
		if got, ok := metals.Word(text); got != want || ok != (want != "") {
			t.Errorf("Word(%q) = %q, %v, want %q", text, got, ok, want)
		}
	}
	c := &Calculator{Name: "hung", Fields: []Field{
		{Key: "metal", Label: "Metal", Takes: metals},
		{Key: "alloy", Label: "Alloy", Takes: Text(), Only: When("metal", "aluminium")},
		{Key: "wall", Label: "Wall", Takes: YesNo(), Default: "no"},
		{Key: "behind", Label: "Behind", Takes: Text(), Only: When("wall", "yes")},
	}}
	for _, test := range []struct {
		key    string
		value  any
		wanted string
	}{{key: "metal", value: "Aluminum", wanted: "alloy"}, {key: "wall", value: "y", wanted: "behind"}, {key: "wall", value: true, wanted: "behind"}, {key: "wall", value: 1, wanted: "behind"}} {
		r := NewReader(c, map[string]any{test.key: test.value})
		GetText(r, test.wanted)
		if p := problem.From(r.Err()); p == nil || p.Field != test.wanted {
			t.Errorf("%s %v without %s: %v, want it to be missing", test.key, test.value, test.wanted, r.Err())
		}
	}
}
