package registry

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/vector"
)

// laidOut is the answer to a check value of a calculator that lays something out.
type laidOut struct {
	*form.Calculator
	vector.Case
	answer *form.Answer
}

// layouts are all of them.
func layouts(t *testing.T) []laidOut {
	var list []laidOut
	cases := load(t)
	for _, c := range All() {
		for _, v := range cases[c.Name] {
			if c.Place != "layout" || v.Fail != nil {
				continue
			}
			a, err := c.Calculate(v.Input)
			if err != nil {
				t.Fatal(err)
			}
			list = append(list, laidOut{Calculator: c, Case: v, answer: a})
		}
	}
	return list
}

// TestTemplatesOfLayouts: what a layout offers is printed on both papers or refused with
// what to do, and written as both sorts of lines; its title and its notes are there.
func TestTemplatesOfLayouts(t *testing.T) {
	printed, lines := map[string]int{}, 0
	for _, l := range layouts(t) {
		c, v, a := l.Calculator, l.Case, l.answer
		for i, one := range a.Templates() {
			if one.Key == "" || one.Title == "" || len(one.Notes) == 0 || len(one.Lines)+len(one.Circles) == 0 {
				t.Errorf("%s, %s: template %d has no key, title, notes or lines", c.Name, v.Name, i)
			}
			for _, as := range []string{"dxf", "svg"} {
				file, err := Print{Calculator: c.Name, Template: one.Key, As: as}.Of(a)
				if err != nil || !strings.HasPrefix(file.Name, c.Name+"-"+one.Key) || len(file.Data) < 200 {
					t.Errorf("%s, %s: %s of %s is %q with %d bytes (%v)", c.Name, v.Name, as, one.Key, file.Name, len(file.Data), err)
				}
				lines++
			}
		}
		if len(a.Templates()) == 0 {
			continue
		}
		for _, size := range []string{"a4", "letter"} {
			file, err := Print{Calculator: c.Name, As: "pdf", Paper: size, Name: "Osier Ford Repair", Date: "3 May 2025"}.Of(a)
			if p := problem.From(err); err != nil && (p.Kind != problem.Refused || p.Hint == "") {
				t.Errorf("%s, %s: %v", c.Name, v.Name, err)
			} else if err == nil {
				printed[c.Name]++
				if file.Name != c.Name+".pdf" || !strings.HasPrefix(file.Data, "%PDF-") {
					t.Errorf("%s, %s: %q begins %.20q", c.Name, v.Name, file.Name, file.Data)
				}
			}
		}
	}
	for _, name := range []string{"pipe-saddle", "pipe-mitre", "pipe-wrap", "circle-hole", "bracket-develop"} {
		if printed[name] == 0 {
			t.Errorf("nothing of %s was printed", name)
		}
	}
	if lines < 50 {
		t.Errorf("only %d files of lines were written", lines)
	}
}

// TestOnward: the cuts that a layout hands on are what a job's list and a plan take: keys
// that they have, and values that they read.
func TestOnward(t *testing.T) {
	plan, err := Get("job-plan")
	if err != nil {
		t.Fatal(err)
	}
	handed := map[string]int{}
	for _, l := range layouts(t) {
		c, v, a := l.Calculator, l.Case, l.answer
		for _, cut := range a.Cuts() {
			handed[c.Name]++
			row := map[string]any{"name": cut.Name, "metal": "mild-steel"}
			for key, text := range cut.Fields {
				row[key] = text
			}
			_, err := plan.CalculateValues(map[string]any{"cuts": []any{row}, "tips": "45A:1.05mm", "max_current": "45A"})
			if err == nil {
				continue
			}
			for _, p := range append([]*problem.Error{problem.From(err)}, problem.From(err).Also...) {
				unsaid := p.Kind == problem.Missing && strings.HasSuffix(p.Field, ".length") // the list asks for it
				if strings.HasPrefix(p.Field, "cuts.") && !unsaid {
					t.Errorf("%s, %s: the cut %v is not taken: %s: %s (%s)", c.Name, v.Name, cut, p.Field, p.Msg, p.Kind)
				}
			}
		}
	}
	for _, name := range []string{"pipe-saddle", "pipe-mitre", "pipe-wrap", "circle-hole", "bevel-cut"} {
		if handed[name] == 0 {
			t.Errorf("%s hands no cut on", name)
		}
	}
}

// TestPrintRefuses: what is asked for wrongly is told.
func TestPrintRefuses(t *testing.T) {
	const pipe = `{"size": "2in"}`
	for _, c := range []struct {
		in    string
		kind  problem.Kind
		field string
	}{
		{in: `{"calculator": "no-such", "as": "pdf"}`, kind: problem.Unknown, field: ""},
		{in: `{"calculator": "pipe-wrap", "as": "pdf", "paper": "a4", "input": {}}`, kind: problem.Missing, field: "size"},
		{in: `{"calculator": "pipe-wrap", "as": "png", "input": ` + pipe + `}`, kind: problem.Unknown, field: "as"},
		{in: `{"calculator": "pipe-wrap", "as": "pdf", "paper": "a5", "input": ` + pipe + `}`, kind: problem.Unknown, field: "paper"},
		{in: `{"calculator": "pipe-wrap", "as": "dxf", "template": "hole", "input": ` + pipe + `}`, kind: problem.Unknown, field: ""},
		{in: `{"calculator": "convert", "as": "pdf", "paper": "a4", "input": {"from": "1in", "to": "mm"}}`, kind: problem.Unknown, field: ""},
		{in: `no`, kind: problem.Malformed, field: ""},
	} {
		v, err := Call("templates", []byte(c.in))
		var p *problem.Error
		if !errors.As(err, &p) || p.Kind != c.kind || c.field != "" && p.Field != c.field || p.Hint == "" {
			t.Errorf("templates(%s) = %v, %v; want %s of %q and a hint", c.in, v, err, c.kind, c.field)
		}
	}
	v, err := Call("templates", []byte(`{"calculator": "pipe-wrap", "as": "svg", "input": `+pipe+`}`))
	if err != nil {
		t.Fatal(err)
	}
	if data, err := json.Marshal(v); err != nil || !strings.Contains(string(data), `"name":"pipe-wrap-strip.svg"`) {
		t.Errorf("the only template of a wrap is %.80s (%v)", data, err)
	}
}
