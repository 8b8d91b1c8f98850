package form

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// sheets means other thicknesses by one number in two metals, as gauges do.
var sheets = map[string]map[string]unit.Length{
	"steel": {"16": 1.52 * unit.Millimetre}, "zinc": {"16": 1.14 * unit.Millimetre},
}

// bench is a small calculator with a list, and with a field that its rows fall back on.
var bench = Calculator{
	Name: "bench",
	Fields: []Field{
		{Key: "amps", Label: "Current", Takes: Number[unit.Current]("A", "A"), Default: "40A", Limits: Within(5*unit.Ampere, 100*unit.Ampere)},
		{Key: "cuts", Label: "Cuts", Takes: List(EachRow{Name: "Cut", Shown: "{name} · {count} × {length} · {thickness} {metal}", Bare: []string{"metal", "thickness", "length"}, Ordered: true, Most: 5},
			Field{Key: "name", Label: "Name", Takes: Text(), Optional: true},
			Field{Key: "metal", Label: "Metal", Takes: OneOf("steel", "Steel", "zinc", "Zinc"), Default: "steel"},
			Field{Key: "thickness", Label: "Thickness", Takes: Number[unit.Length]("mm", "in").As(unit.Plate), Gauge: true, Limits: Within(0.3*unit.Millimetre, 20*unit.Millimetre)},
			Field{Key: "length", Label: "Length", Takes: Number[unit.Length]("mm", "in"), Limits: Within(1*unit.Millimetre, 10*unit.Metre)},
			Field{Key: "count", Label: "How many", Takes: Count(), Default: "1", Limits: WithinCount(1, 100)},
			Field{Key: "coat", Label: "Coat", Takes: OneOf("thin", "Thin", "thick", "Thick"), Only: When("metal", "zinc"), Hazard: true},
		)},
		{Key: "stops", Label: "Stops", Optional: true, Takes: List(EachRow{Name: "Stop", Shown: "{minutes}"}, Field{Key: "minutes", Label: "Minutes", Takes: Factor()})},
	},
	Results: []Result{
		{Key: "total", Label: "Total", Gives: Number[unit.Length]("m", "ft")},
		{Key: "rows", Label: "Rows", Gives: Rows("thickness", "Thickness", "name", "Name")},
		{Key: "turned", Label: "The other way round", Gives: Text()},
		{Key: "stops", Label: "Stops", Gives: Count()},
	},
	Run: func(r *Reader, a *Answer) error {
		total := unit.Length(0)
		var rows []*Row
		list := r.Rows("cuts")
		for _, in := range list {
			metal := GetWord(in, "metal")
			thick := GetSheet(in, "thickness", func(number string) (unit.Length, error) {
				if t, ok := sheets[metal][number]; ok {
					return t, nil
				}
				return 0, problem.Newf(problem.Unknown, "", "no gauge %q", number).WithHint("Only 16.")
			})
			GetWord(in, "coat")
			amps := Get[unit.Current](in, "amps") // the form's own
			length, count := Get[unit.Length](in, "length"), GetCount(in, "count")
			if in.Err() == nil && float64(amps) < 3000*float64(thick) {
				in.Fail("", problem.Newf(problem.Refused, "thickness", "it is too thick").WithHint("Take another."))
			}
			total += length * unit.Length(count)
			row := a.NewRowOf(in)
			PutCell(row, "thickness", Number[unit.Length]("mm", "in").As(unit.Plate), thick)
			row.PutWord("name", GetText(in, "name"))
			rows = append(rows, row)
		}
		a.PutCount("stops", len(r.Rows("stops")))
		if err := r.Err(); err != nil {
			return err
		}
		Put(a, "total", total)
		a.PutRows("rows", rows)
		for i, j := 0, len(list)-1; i < j; i, j = i+1, j-1 {
			list[i], list[j] = list[j], list[i]
		}
		a.PutWord("turned", r.WriteRows("cuts", list))
		return nil
	},
}

// TestListsInEveryForm: one list, written in each way, means one thing.
func TestListsInEveryForm(t *testing.T) {
	for name, cuts := range map[string]any{
		"objects":          []any{map[string]any{"thickness": "6mm", "length": "400mm", "count": 3}, map[string]any{"name": "back rail", "metal": "Zinc", "thickness": "16ga", "length": 1200, "coat": "thin", "_key": "a1"}},
		"a text of JSON":   `[{"thickness": 6, "length": 400, "count": "3"}, {"name": "back rail", "metal": "zinc", "thickness": "16ga", "length": "1.2m", "coat": "thin", "_key": "a1"}]`,
		"the command line": `steel 6mm 400 count=3; zinc 16ga 1.2m name="back rail" coat=thin _key=a1;`,
		"a usual word out": `6mm 400 count=3; zinc 16ga name="back rail" 1.2m coat=thin _key=a1`,
		"a usual word on":  `6mm 400 count=3; 16ga zinc 1.2m name="back rail" coat=thin _key=a1`,
		"lines":            "thickness=6mm length=40cm count=3\n\n  zinc thickness=16ga name='back rail' 1,2m coat=thin _key=a1\n",
	} {
		a, err := bench.CalculateValues(map[string]any{"cuts": cuts, "units": "us"})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		total, _ := a.Results().Get("total")
		rows, _ := a.Results().Get("rows")
		second, _ := rows.([]*Group)[1].Get("thickness")
		turned, _ := a.Results().Get("turned")
		if v := total.(Value).Value; v < 2.3999 || v > 2.4001 || second.(Value).Text != "16 ga, 0.045 in" {
			t.Errorf("%s: a total of %v and a sheet of %q, want 2.4 and the gauge of its own metal", name, v, second.(Value).Text)
		}
		if !strings.HasPrefix(turned.(string), `[{"name":"back rail","metal":"`) || !strings.HasSuffix(turned.(string), `"3"}]`) || !strings.Contains(turned.(string), `"_key":"a1"`) {
			t.Errorf("%s: the other way round it is %s", name, turned)
		}
		if again, err := bench.CalculateValues(map[string]any{"cuts": turned}); err != nil {
			t.Errorf("%s: what was written is not read: %v", name, err)
		} else if same, _ := again.Results().Get("total"); same.(Value).Value != total.(Value).Value {
			t.Errorf("%s: written and read again it is %v", name, same)
		}
	}
}

// TestListTroubles: what is wrong with a row names its field, its number and what to do.
func TestListTroubles(t *testing.T) {
	const good = `{"thickness": "6mm", "length": "400mm"}`
	tests := []struct {
		name, cuts, field string
		kind              problem.Kind
		says              string
	}{
		{name: "nothing", cuts: `""`, field: "cuts", kind: problem.Missing, says: "No cut is listed yet"},
		{name: "an empty list", cuts: `[]`, field: "cuts", kind: problem.Missing},
		{name: "an empty list in a text", cuts: `" [ ] "`, field: "cuts", kind: problem.Missing},
		{name: "separators alone", cuts: `" ; ;"`, field: "cuts", kind: problem.Missing},
		{name: "a number alone", cuts: `5`, field: "cuts.1.length", kind: problem.Missing},
		{name: "an object", cuts: good, field: "cuts", kind: problem.Malformed},
		{name: "half a list", cuts: `"[{\"length\": 5}"`, field: "cuts", kind: problem.Malformed},
		{name: "more than a list", cuts: `"[] x"`, field: "cuts", kind: problem.Malformed},
		{name: "a list of texts", cuts: `["6mm"]`, field: "cuts", kind: problem.Malformed},
		{name: "too many rows", cuts: `[` + strings.Repeat(good+",", 5) + good + `]`, field: "cuts", kind: problem.Range, says: "6 rows, and this takes 5 at most"},
		{name: "a very long list", cuts: `"` + strings.Repeat("6mm ", 60000) + `"`, field: "cuts", kind: problem.Malformed},
		{name: "a cell left empty", cuts: `[` + good + `, {"thickness": "6mm"}]`, field: "cuts.2.length", kind: problem.Missing, says: "Cut 2: Length is needed"},
		{name: "an empty row", cuts: `[` + good + `, {}]`, field: "cuts.2.thickness", kind: problem.Missing},
		{name: "null for a row", cuts: `[null]`, field: "cuts.1.thickness", kind: problem.Missing},
		{name: "a wrong unit", cuts: `[{"thickness": "6psi", "length": 400}]`, field: "cuts.1.thickness", kind: problem.Unit},
		{name: "outside the limits", cuts: `[` + good + `, ` + good + `, {"thickness": "900mm", "length": 400}]`, field: "cuts.3.thickness", kind: problem.Range, says: "Cut 3: Thickness: 900mm is outside"},
		{name: "not whole", cuts: `[{"thickness": 6, "length": 400, "count": 1.5}]`, field: "cuts.1.count", kind: problem.Malformed},
		{name: "a gauge that its metal has not", cuts: `[{"thickness": "18ga", "length": 400}]`, field: "cuts.1.thickness", kind: problem.Unknown},
		{name: "a hazard left open", cuts: `[{"metal": "zinc", "thickness": "6mm", "length": 400}]`, field: "cuts.1.coat", kind: problem.Missing, says: "Cut 1: “Coat” is not answered"},
		{name: "an unknown cell", cuts: `[{"thicknes": "6mm"}]`, field: "cuts.1.thicknes", kind: problem.Unknown, says: "Cut 1: "},
		{name: "a list in a cell", cuts: `[{"thickness": ["6mm"]}]`, field: "cuts.1.thickness", kind: problem.Malformed},
		{name: "what only the sum refuses", cuts: `[` + good + `, {"thickness": "20mm", "length": 400}, {"thickness": "20mm", "length": 400}]`, field: "cuts.2.thickness", kind: problem.Refused, says: "Cut 2: it is too thick"},
		{name: "a word too many", cuts: `"steel 6mm 400 3"`, field: "cuts", kind: problem.Malformed, says: `Cut 1: "3" has no key`},
		{name: "a key twice", cuts: `"6mm; steel metal=zinc"`, field: "cuts", kind: problem.Malformed, says: "Cut 2: metal is given twice"},
		{name: "an open quote", cuts: `"name=\"back rail"`, field: "cuts", kind: problem.Malformed},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := bench.Calculate([]byte(`{"cuts": ` + test.cuts + `}`))
			p := problem.From(err)
			if p == nil || p.Field != test.field || p.Kind != test.kind || p.Hint == "" || !strings.Contains(p.Msg, test.says) {
				t.Errorf("Calculate(%.80s) = %+v, want %s %s that says %q, with a hint", test.cuts, p, test.field, test.kind, test.says)
			}
		})
	}
}

// TestRowsHaveTheirFormBehindThem: a trouble with the form's own field is blamed on
// that once, and is a trouble of each row; another row's is not.
func TestRowsHaveTheirFormBehindThem(t *testing.T) {
	_, err := bench.Calculate([]byte(`{"amps": "5V", "cuts": "steel 6mm 400; steel 6mm; steel 99mm 400"}`))
	p := problem.From(err)
	var fields []string
	for _, e := range append([]*problem.Error{p}, p.Also...) {
		fields = append(fields, e.Field)
	}
	if got := strings.Join(fields, " "); got != "amps cuts.2.length cuts.3.thickness" || strings.Contains(p.Msg, "Cut") {
		t.Errorf("the troubles are %s: %v", got, p)
	}

	r := NewReader(&bench, map[string]any{"cuts": "steel 6mm 400; steel 6mm", "amps": "30A"})
	rows := r.Rows("cuts")
	Get[unit.Length](rows[1], "length")
	if rows[0].Err() != nil || rows[1].Err() == nil || r.Err() == nil {
		t.Errorf("row 1: %v, row 2: %v, the form: %v; want a trouble with row 2 and the form", rows[0].Err(), rows[1].Err(), r.Err())
	}
	if !rows[0].Given("amps") || rows[0].Given("count") || !rows[0].Has("count") || rows[0].Has("coat") || rows[1].Name() != "Cut 2" {
		t.Error("a row does not say what was given in it and in its form")
	}
	with := rows[0].With(map[string]string{"amps": "20A", "length": "1m"})
	if amps, length := Get[unit.Current](with, "amps"), Get[unit.Length](with, "length"); amps != 20*unit.Ampere || length != 1*unit.Metre {
		t.Errorf("with other texts the row reads %v and %v", amps, length)
	}
	if amps, length := Get[unit.Current](rows[0], "amps"), Get[unit.Length](rows[0], "length"); amps != 30*unit.Ampere || length != 400*unit.Millimetre {
		t.Errorf("and itself it reads %v and %v", amps, length)
	}
}

func TestDescribeList(t *testing.T) {
	d := bench.Describe().Fields[1]
	if d.Kind != KindList || d.Rows == nil || d.Rows.Name != "Cut" || !d.Rows.Ordered || d.Rows.Most != 5 || len(d.Rows.Fields) != 6 || d.Rows.Fields[2].Key != "thickness" {
		t.Errorf("the list is described as %+v", d)
	}
	if want := "Rows parted by semicolons; in each metal, thickness, length, then all else as key=value. Or a JSON list of objects."; d.Allowed != want {
		t.Errorf("it is written as %q", d.Allowed)
	}
	if v, err := bench.ReadValue("cuts.thickness", ValueInput{Text: "1/4in", Units: "metric"}); err != nil || v.Text != "6.4 mm" {
		t.Errorf("a value in a row is read as %+v, %v", v, err)
	}
}

// FuzzList: a text is a list or a trouble, never anything else; what was read of it and
// written is read as the same.
func FuzzList(f *testing.F) {
	for _, seed := range []string{"", "steel 6mm 400mm count=3; zinc 1/4\" 2ft", `[{"metal":"zinc","count":3,"_key":"é"}]`, `name="a \"b\" ; c" 5'6"`, "name='it''s'", "=; =x", "a=", `[null]`, "{}", "\n;\n"} {
		f.Add(seed)
	}
	l := bench.Fields[1].Takes.List
	f.Fuzz(func(t *testing.T, text string) {
		if v, err := listText(text); err != nil || v == "" {
			return
		}
		if _, err := bench.CalculateValues(map[string]any{"cuts": text}); err != nil && problem.From(err).Kind == problem.Internal {
			t.Fatal(err)
		}
		once := l.canonical(strings.TrimSpace(text))
		if _, err := l.split(strings.TrimSpace(text)); err != nil {
			return
		}
		var rows []map[string]string
		if err := json.Unmarshal([]byte(once), &rows); err != nil {
			t.Fatalf("%q is written as %s: %v", text, once, err)
		}
		if again := l.canonical(once); again != once {
			t.Fatalf("%q is written as %s and then as %s", text, once, again)
		}
		for _, row := range rows {
			for key, cell := range row {
				if _, _, ok := cutKey(key + "="); !ok || strings.ContainsAny(cell, "\"'; \t\r\n") {
					return // no text says it, or quotes are needed
				}
			}
		}
		var b strings.Builder
		for _, row := range rows {
			for key, cell := range row {
				fmt.Fprintf(&b, " %s=%s", key, cell)
			}
			b.WriteString(" ;")
		}
		if typed := l.canonical(b.String()); len(rows) > 0 && !strings.Contains(once, "{}") && typed != once {
			t.Fatalf("%q is %s as JSON and %s as typed", text, once, typed)
		}
	})
}
