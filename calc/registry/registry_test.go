package registry

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
	"kerfside/calc/vector"
)

const vectors = "../../testdata/calc"

// load returns the cases of every vector file by calculator.
func load(t testing.TB) map[string][]vector.Case {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(vectors, "*.txt"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no vectors in %s: %v", vectors, err)
	}
	cases := map[string][]vector.Case{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		list, err := vector.Parse(string(text))
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		cases[strings.TrimSuffix(filepath.Base(file), ".txt")] = list
	}
	return cases
}

func reply(name string, input []byte) []byte {
	a, err := Calculate(name, input)
	var v any = a
	if err != nil {
		v = problem.Envelope{Error: problem.From(err)}
	}
	b, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	return b
}

func TestVectors(t *testing.T) {
	for name, cases := range load(t) {
		for _, c := range cases {
			t.Run(name+"/"+c.Name, func(t *testing.T) {
				if c.Call != name {
					t.Errorf("calls %s but stands in the vectors of %s", c.Call, name)
				}
				for _, line := range c.Check(reply(c.Call, c.Input)) {
					t.Errorf("line %d: %s", c.Line, line)
				}
			})
		}
	}
}

// TestDeclarations holds every declaration against what forms and the command
// line rely on.
func TestDeclarations(t *testing.T) {
	cases := load(t)
	if names := Names(); len(slices.Compact(slices.Sorted(slices.Values(names)))) != len(names) {
		t.Errorf("a calculator is listed twice: %v", names)
	}
	for _, c := range All() {
		t.Run(c.Name, func(t *testing.T) {
			if len(cases[c.Name]) == 0 {
				t.Errorf("no vectors: add testdata/calc/%s.txt", c.Name)
			}
			if c.Title == "" || c.About == "" || !strings.Contains("ready layout cut fix book", c.Place) || c.Place == "" {
				t.Error("title, about or place is missing")
			}
			for _, id := range c.Sources {
				if _, ok := source.Get(id); !ok {
					t.Errorf("source %q is not listed in package source", id)
				}
			}
			for i := range c.Fields {
				f := &c.Fields[i]
				checkField(t, c, f, f.Key, func(v any) map[string]any { return map[string]any{f.Key: v} })
				for j := 0; f.Takes.List != nil && j < len(f.Takes.List.Row.Fields); j++ {
					cell := &f.Takes.List.Row.Fields[j]
					checkField(t, c, cell, f.Key+".1."+cell.Key, func(v any) map[string]any { return map[string]any{f.Key: []any{map[string]any{cell.Key: v}}} })
				}
			}
		})
	}
}

// checkField checks one field, which problems name so, by what is entered into it.
func checkField(t *testing.T, c *form.Calculator, f *form.Field, name string, entered func(any) map[string]any) {
	if f.Label == "" {
		t.Errorf("%s has no label", name)
	}
	if _, ok := source.Get(f.Basis); f.Basis != "" && !ok {
		t.Errorf("%s rests on %q, which is not listed in package source", name, f.Basis)
	}
	if f.Takes.Kind == form.KindNumber && !f.Limits.Set {
		t.Errorf("%s has no limits", name)
	}
	for _, text := range slices.Concat([]string{f.Default}, f.Chips, f.ChipsUS) {
		if text == "" {
			continue
		}
		_, err := c.CalculateValues(entered(text))
		if p := problem.From(err); p != nil && blames(p, name) {
			t.Errorf("%s: its own default or chip %q is refused: %v", name, text, p)
		}
	}
	if f.Takes.Kind != form.KindText {
		_, err := c.CalculateValues(entered("bad value"))
		p := problem.From(err)
		if p == nil || !blames(p, name) {
			t.Errorf("%s: a bad value is not blamed on it: %v", name, p)
		}
	}
}

func blames(p *problem.Error, field string) bool {
	if p.Field == field || strings.HasPrefix(p.Field, field+".") {
		return p.Hint != ""
	}
	for _, q := range p.Also {
		if q.Field == field || strings.HasPrefix(q.Field, field+".") {
			return q.Hint != ""
		}
	}
	return false
}

// TestBothSystems: every vector that has an answer has it in US units as well,
// with the same values.
func TestBothSystems(t *testing.T) {
	for name, cases := range load(t) {
		for _, c := range cases {
			if c.Fail != nil {
				continue
			}
			values := map[string]any{}
			if err := json.Unmarshal(c.Input, &values); err != nil {
				t.Fatal(err)
			}
			values["units"] = string(unit.US)
			input, err := json.Marshal(values)
			if err != nil {
				t.Fatal(err)
			}
			c.Says = nil // texts may differ
			for _, line := range c.Check(reply(name, input)) {
				t.Errorf("%s/%s in US units: %s", name, c.Name, line)
			}
		}
	}
}

// TestSources: each source listed is cited somewhere, and none is made up.
func TestSources(t *testing.T) {
	cited := map[source.ID]bool{}
	for _, c := range All() {
		for _, id := range c.Sources {
			cited[id] = true
		}
		for _, f := range allFields(c) {
			cited[f.Basis] = true
		}
	}
	for _, list := range load(t) {
		for _, c := range list {
			cited[source.ID(c.From)] = true
		}
	}
	text := goSources(t)
	listed := map[source.ID]bool{}
	for _, id := range source.IDs() {
		if listed[id] {
			t.Errorf("source %q stands in two lists", id)
		}
		listed[id] = true
		if !cited[id] && !strings.Contains(text, `"`+string(id)+`"`) {
			t.Errorf("source %q is cited nowhere", id)
		}
	}
}

// goSources is the text of all Go files under calc but the source lists and
// the tests: tables cite sources there.
func goSources(t *testing.T) string {
	t.Helper()
	var b strings.Builder
	err := filepath.WalkDir("..", func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || strings.Contains(path, "source") {
			return err
		}
		text, err := os.ReadFile(path)
		b.Write(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return b.String()
}
