package shapes

import (
	"errors"
	"fmt"
	"go/ast"
	"go/types"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/registry"
	"kerfside/calc/vector"
)

// calculator is a calculator as the phone calls it.
type calculator struct {
	declared *form.Calculator
	answers  []*form.Answer // to its check values
}

// calculators returns every calculator with what it answers to the check values
// below dir. The declarations tell the results, but neither which of them may be
// missing nor all the columns of a table: that is taken from what is answered.
func calculators(dir string) ([]calculator, error) {
	var list []calculator
	for _, c := range registry.All() {
		text, err := os.ReadFile(filepath.Join(dir, "testdata", "calc", c.Name+".txt"))
		if err != nil && !errors.Is(err, os.ErrNotExist) { // one without check values is told by its own test
			return nil, err
		}
		cases, err := vector.Parse(string(text))
		if err != nil {
			return nil, err
		}
		one := calculator{declared: c}
		for _, check := range cases {
			a, err := c.Calculate(check.Input)
			if err == nil {
				one.answers = append(one.answers, a)
			} else if p := problem.From(err); p.Kind == problem.Internal {
				return nil, fmt.Errorf("%s: %w", c.Name, err)
			}
		}
		list = append(list, one)
	}
	return list, nil
}

// declareCalculators declares what goes into each calculator and what it tells.
func (d *declarations) declareCalculators(list []calculator) error {
	d.file = calcFile
	answer, err := d.source.object("calc/form", "Answer")
	if err != nil {
		return err
	}
	d.names[answer.(*types.TypeName)] = "Answer"
	value, err := d.source.object("calc/form", "Value")
	if err != nil {
		return err
	}
	d.typed(value.Type())
	d.declare("Answer", comment(d.source.said[answer], "")+"export interface Answer<R = Record<string, Result>> "+d.members(d.source.marshalled(answer), "Answer", false)+"\n")
	d.declare("Result", comment("One result, of which its declaration is not known.", "")+"export type Result = Value | string | boolean | Row[];\n")
	d.declare("Row", comment("One row of a table, of which its declaration is not known.", "")+"export interface Row {\n  [key: string]: Result;\n}\n")

	names, results, fields := []string{}, map[string]string{}, map[string]string{}
	for _, c := range list {
		name := c.declared.Name
		names = append(names, name)
		results[name] = camel(name) + "Results"
		d.declare(results[name], c.results(results[name]))
		var keys []string
		for _, f := range c.declared.Fields {
			keys = append(keys, strconv.Quote(f.Key))
		}
		fields[name] = strings.Join(keys, " | ")
	}
	d.union("CalculatorName", "Every calculator.", names)
	d.table("Results", "What each calculator tells.", results)
	d.table("Fields", "What each calculator asks for.", fields)
	d.declare("Entered", comment("What may stand in a field: text as typed (\"6mm\"), a number, yes or no; null and \"\" for nothing.", "")+
		"export type Entered = string | number | boolean | null;\n")
	d.declare("Entries", comment("What is entered into a calculator, with all that is kept of the rig and the site in use, of which it picks its own fields.", "")+
		"export type Entries<N extends CalculatorName> = { [key in Fields[N]]?: Entered } & { rig?: Record<string, unknown>; site?: Record<string, unknown>; units?: \"metric\" | \"us\" };\n")
	return nil
}

// marshalled returns the struct that a type's MarshalJSON writes in its place.
func (s *source) marshalled(of types.Object) *types.Struct {
	method, _, _ := types.LookupFieldOrMethod(types.NewPointer(of.Type()), true, of.Pkg(), "MarshalJSON")
	body, found := s.bodies[method], (*types.Struct)(nil)
	ast.Inspect(body.decl, func(n ast.Node) bool {
		if literal, ok := n.(*ast.CompositeLit); ok {
			if t, ok := body.in.info.TypeOf(literal).(*types.Struct); ok {
				found = t
			}
		}
		return true
	})
	return found
}

// results declares the results of a calculator.
func (c calculator) results(name string) string {
	seen := newColumns()
	for _, a := range c.answers {
		seen.add(a.Results())
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%sexport interface %s {\n", comment(c.declared.Title+": "+c.declared.About, ""), name)
	for _, r := range c.declared.Results {
		said := r.Label
		if r.Gives.Quantity != nil {
			said += ", " + r.Gives.Quantity.SI
		}
		mark := ""
		if seen.times[r.Key] < seen.of {
			mark = "?"
		}
		kinds := seen.kinds[r.Key]
		if kinds == nil {
			kinds = map[string]bool{}
		}
		if as := declaredAs(r.Gives); len(kinds) == 0 || as != listOf(anyRow) && as != "string" {
			kinds[as] = true
		}
		if words := wordsOf(r.Gives); words != "" && kinds["string"] {
			delete(kinds, "string")
		}
		as := seen.typed(r.Key, kinds)
		fmt.Fprintf(&b, "%s  %s%s: %s;\n", comment(said, "  "), keyText(r.Key), mark, as)
	}
	return b.String() + "}\n"
}

const anyRow = "Row"

// declaredAs is the type of a result by its declaration.
func declaredAs(t *form.Type) string {
	switch t.Kind {
	case form.KindNumber, form.KindCount, form.KindFactor:
		return "Value"
	case form.KindYesNo:
		return "boolean"
	case form.KindRows:
		return listOf(anyRow)
	case form.KindChoice:
		return wordsOf(t)
	}
	return "string"
}

// wordsOf are the words of a choice, "" of another type.
func wordsOf(t *form.Type) string {
	if t.Kind != form.KindChoice || len(t.Choices) == 0 {
		return ""
	}
	var words []string
	for _, c := range t.Choices {
		words = append(words, strconv.Quote(c.Word))
	}
	return strings.Join(words, " | ")
}

// columns is what was seen of the keys of some groups of results: of answers, or of
// the rows of a table.
type columns struct {
	of    int // groups
	keys  []string
	times map[string]int // groups that have the key
	kinds map[string]map[string]bool
	rows  map[string]*columns // of the tables among them
}

func newColumns() *columns {
	return &columns{times: map[string]int{}, kinds: map[string]map[string]bool{}, rows: map[string]*columns{}}
}

// add looks at one group more.
func (c *columns) add(g *form.Group) {
	c.of++
	for _, key := range g.Keys() {
		if c.times[key]++; c.kinds[key] == nil {
			c.keys = append(c.keys, key)
			c.kinds[key] = map[string]bool{}
		}
		switch v, _ := g.Get(key); v := v.(type) {
		case form.Value:
			c.kinds[key]["Value"] = true
		case string:
			c.kinds[key]["string"] = true
		case bool:
			c.kinds[key]["boolean"] = true
		case []*form.Group:
			if c.rows[key] == nil {
				c.rows[key] = newColumns()
			}
			for _, row := range v {
				c.rows[key].add(row)
			}
		}
	}
}

// typed is the type of what stands under a key, of those kinds and of the rows seen.
func (c *columns) typed(key string, kinds map[string]bool) string {
	all := slices.Sorted(maps.Keys(kinds))
	if rows := c.rows[key]; rows != nil {
		all = append(slices.DeleteFunc(all, func(k string) bool { return k == listOf(anyRow) }), rows.list())
	}
	return strings.Join(all, " | ")
}

// list is the type of a table that has these columns.
func (c *columns) list() string {
	if c.of == 0 {
		return listOf(anyRow)
	}
	var cells []string
	for _, key := range slices.Sorted(slices.Values(c.keys)) {
		mark := ""
		if c.times[key] < c.of {
			mark = "?"
		}
		cells = append(cells, keyText(key)+mark+": "+c.typed(key, c.kinds[key]))
	}
	return listOf("{ " + strings.Join(cells, "; ") + " }")
}

// camel is "CutPlan" for "cut-plan".
func camel(name string) string {
	var b strings.Builder
	for _, w := range strings.Split(name, "-") {
		b.WriteString(upper(w))
	}
	return b.String()
}
