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
		{Key: "tips", Label: "Tips", Takes: Pairs(Number[unit.Current]("A", "A"), Number[unit.Length]("mm", "in")), Optional: true},
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
	const want = `{"results":{"wall":{"value":0.0015,"unit":"m","text":"0.0591 in","also":"1.5 mm"},` +
		`"tips":{"value":2,"unit":"1","text":"2"},"total":{"value":2,"unit":"m","text":"6.56 ft","also":"2 m"}},` +
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
		{"not an object", `[1]`, "", problem.Malformed},
		{"two objects", `{} {}`, "", problem.Malformed},
		{"nothing", `{}`, "length", problem.Missing},
		{"null is nothing", `{"length": null}`, "length", problem.Missing},
		{"a list", `{"length": [1]}`, "length", problem.Malformed},
		{"a wrong unit", `{"length": "5psi"}`, "length", problem.Unit},
		{"below", `{"length": "0.5mm"}`, "length", problem.Range},
		{"above", `{"length": "2m"}`, "length", problem.Range},
		{"an unknown key", `{"length": "5mm", "lenght": 5}`, "lenght", problem.Unknown},
		{"an unknown choice", `{"length": "5mm", "kind": "plate"}`, "kind", problem.Unknown},
		{"not whole", `{"length": "5mm", "pieces": 1.5}`, "pieces", problem.Malformed},
		{"an unknown gauge", `{"length": "5mm", "kind": "tube", "wall": "99ga"}`, "wall", problem.Unknown},
		{"a field that the choice asks for", `{"length": "5mm", "kind": "tube"}`, "wall", problem.Missing},
		{"a pair without a colon", `{"length": "5mm", "tips": "20A"}`, "tips", problem.Malformed},
		{"neither yes nor no", `{"length": "5mm", "wet": "perhaps"}`, "wet", problem.Malformed},
		{"units of nowhere", `{"length": "5mm", "units": "furlongs"}`, "units", problem.Unknown},
		{"a very long text", `{"length": "` + strings.Repeat("9", 3000) + `"}`, "length", problem.Malformed},
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
	if err != nil || v.Text != "6.35 mm" || v.Also != "1/4 in" {
		t.Errorf("ReadValue = %+v, %v, want 6.35 mm, 1/4 in", v, err)
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
		{"16ga", "16", true}, {"16 gauge", "16", true}, {"16g", "16", true}, {"3/0 ga.", "3/0", true},
		{"6kg", "", false}, {"6mg", "", false}, {"16", "", false}, {"ga", "", false}, {"g", "", false},
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
		{"metric", map[string]any{"length": "1/2"}, 0, "Write 1/2in, or 12.7mm."},
		{"US", map[string]any{"length": "1/2", "units": "us"}, 0.0127, ""},
		{"US, whole and part", map[string]any{"length": "1-1/2", "units": "us"}, 0.0381, ""},
		{"US, a bare number", map[string]any{"length": "12", "units": "us"}, 0.012, ""},
		{"US, what is allowed", map[string]any{"length": "thick", "units": "us"}, 0, "a bare number is in mm, a fraction in in"},
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
	}{{"metal", "Aluminum", "alloy"}, {"wall", "y", "behind"}, {"wall", true, "behind"}, {"wall", 1, "behind"}} {
		r := NewReader(c, map[string]any{test.key: test.value})
		GetText(r, test.wanted)
		if p := problem.From(r.Err()); p == nil || p.Field != test.wanted {
			t.Errorf("%s %v without %s: %v, want it to be missing", test.key, test.value, test.wanted, r.Err())
		}
	}
}
