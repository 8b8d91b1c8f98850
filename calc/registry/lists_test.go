package registry

import (
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"testing"

	"kerfside/calc/form"
)

// forms are a calculator and the rows of its lists, each a form of its own.
func forms(c *form.Calculator) []*form.Calculator {
	list := []*form.Calculator{c}
	for i := range c.Fields {
		if l := c.Fields[i].Takes.List; l != nil {
			list = append(list, l.Row)
		}
	}
	return list
}

// allFields are the fields of a calculator and those of the rows of its lists.
func allFields(c *form.Calculator) []form.Field {
	var list []form.Field
	for _, of := range forms(c) {
		list = append(list, of.Fields...)
	}
	return list
}

// describedFields is allFields of what the phone is told.
func describedFields(d []form.FieldDescription) []form.FieldDescription {
	list := slices.Clone(d)
	for _, f := range d {
		if f.Rows != nil {
			list = append(list, f.Rows.Fields...)
		}
	}
	return list
}

// spoiling is an input with one field or cell replaced.
type spoiling struct {
	field  string // "cuts.2.thickness"
	of     *form.Field
	values map[string]any
}

// spoilt returns the input with each field in turn, and each cell of each row of a
// list, replaced by what change gives for it; a field that change passes over stays.
func spoilt(t *testing.T, c *form.Calculator, input []byte, change func(f *form.Field, given bool) []any) []spoiling {
	t.Helper()
	var list []spoiling
	read := func() map[string]any {
		v := map[string]any{}
		if err := json.Unmarshal(input, &v); err != nil {
			t.Fatal(err)
		}
		return v
	}
	for i := range c.Fields {
		f := &c.Fields[i]
		_, given := read()[f.Key]
		for _, to := range change(f, given) {
			v := read()
			v[f.Key] = to
			list = append(list, spoiling{field: f.Key, of: f, values: v})
		}
		rows, _ := read()[f.Key].([]any)
		for n := range rows {
			for j := range f.Takes.List.Row.Fields {
				cell := &f.Takes.List.Row.Fields[j]
				_, given := rows[n].(map[string]any)[cell.Key]
				for _, to := range change(cell, given) {
					v := read()
					v[f.Key].([]any)[n].(map[string]any)[cell.Key] = to
					list = append(list, spoiling{field: fmt.Sprintf("%s.%d.%s", f.Key, n+1, cell.Key), of: cell, values: v})
				}
			}
		}
	}
	return list
}

var hole = regexp.MustCompile(`\{(\w+)(?:\?|\|[^|{}]*\|[^|{}]*)?\}`)

// TestRowsAreShownWhole: what a row is shown as names fields of its own, and each that
// somebody has to enter.
func TestRowsAreShownWhole(t *testing.T) {
	for _, c := range All() {
		for _, f := range c.Fields {
			l := f.Takes.List
			if l == nil {
				continue
			}
			shown := map[string]bool{}
			for _, m := range hole.FindAllStringSubmatch(l.Shown, -1) {
				shown[m[1]] = true
			}
			for _, cell := range l.Row.Fields {
				if cell.Default == "" && !cell.Optional && cell.Only == nil && !shown[cell.Key] {
					t.Errorf("%s %s: a row is shown without its %s, as %q", c.Name, f.Key, cell.Key, l.Shown)
				}
				if cell.Owner != form.OfNone || cell.Item != "" || cell.Known != "" {
					t.Errorf("%s %s: %s stands in a row and is kept with something: nothing is filled into rows", c.Name, f.Key, cell.Key)
				}
				delete(shown, cell.Key)
			}
			if l.Name == "" || len(shown) > 0 {
				t.Errorf("%s %s: a row has no name, or is shown with what it has not: %v", c.Name, f.Key, shown)
			}
		}
	}
}
