package form

import (
	"slices"
	"strconv"
	"strings"

	"kerfside/calc/order"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// Rows returns a reader of each row of a list field, in their order; nil for one
// that is optional and was left empty. See List.
func (r *Reader) Rows(key string) []*Reader {
	r, f := r.at(key)
	text, ok := r.text(f)
	if !ok {
		return nil
	}
	l := f.Takes.List
	entered, err := l.split(text)
	if err != nil {
		r.fail(problem.New(problem.Malformed, key, f.Label+": "+err.Error(), r.calc.written(f)))
		return nil
	}
	if len(entered) > l.Most {
		r.fail(problem.Newf(problem.Range, key, "%s: %s, and this takes %d at most", f.Label, unit.Count(len(entered), "row", "rows"), l.Most).
			WithHint("Split the job, or give like ones a count."))
		return nil
	}
	if len(entered) == 0 && !f.Optional && r.asked(f) {
		r.fail(r.missing(f))
	}
	rows := make([]*Reader, len(entered))
	for i, row := range entered {
		rows[i] = r.row(f, i+1, row)
	}
	return rows
}

// row reads the n-th row of a list, counted from 1.
func (r *Reader) row(f *Field, n int, entered cells) *Reader {
	number := strconv.Itoa(n)
	row := &Reader{calc: f.Takes.List.Row, form: r, key: f.Key + "." + number, name: f.Takes.List.Name + " " + number,
		system: r.system, values: map[string]string{}, typed: &Typed{in: r.typed.in}}
	for _, key := range order.Keys(entered) {
		text, err := asText(entered[key])
		if err != nil {
			row.fail(problem.New(problem.Malformed, row.key+"."+key, err.Error(), "Give text, a number, or true or false."))
			continue
		}
		if _, ok := row.calc.field(key); !ok && !strings.HasPrefix(key, "_") {
			row.fail(problem.Newf(problem.Unknown, row.key+"."+key, "there is no %q in it", key).
				WithHint("%s", "Fields: "+strings.Join(row.calc.keys(), ", ")+"."))
			continue
		}
		if text != "" {
			row.values[key] = text
		}
	}
	return row
}

// at returns the field of that key with who reads it: a row what is its own, else
// the form that it stands in.
func (r *Reader) at(key string) (*Reader, *Field) {
	if _, own := r.calc.field(key); !own && r.form != nil {
		return r.form.at(key)
	}
	return r, r.calc.mustField(key)
}

// Name is the row in words, "Cut 2"; "" of a whole form.
func (r *Reader) Name() string { return r.name }

// blame tells a trouble with a row to the form that it stands in.
func (r *Reader) blame(p *problem.Error) {
	own := *p
	own.Msg = r.name + ": " + p.Msg
	_, isOwn := r.calc.field(p.Field)
	_, ofForm := r.form.calc.field(p.Field)
	switch {
	case p.Field == "":
		own.Field = r.key
	case isOwn:
		own.Field = r.key + "." + p.Field
	case ofForm:
		own.Msg = p.Msg
	}
	r.form.fail(&own)
}

// troubles are those of this reader; a row has those of its form too, but none of
// another row's.
func (r *Reader) troubles() []*problem.Error {
	if r.form == nil {
		return r.errs
	}
	list := strings.TrimRight(r.key, "0123456789")
	return slices.DeleteFunc(slices.Clone(r.form.troubles()), func(p *problem.Error) bool {
		return strings.HasPrefix(p.Field, list) && p.Field != r.key && !strings.HasPrefix(p.Field, r.key+".")
	})
}

// place orders fields as they are declared, and rows by their number.
func (c *Calculator) place(field string) []int {
	key, inRow, ok := strings.Cut(field, ".")
	at := []int{slices.Index(c.keys(), key)}
	if f, known := c.field(key); ok && known && f.Takes.Kind == KindList {
		number, cell, _ := strings.Cut(inRow, ".")
		n, _ := strconv.Atoi(number)
		at = append(at, n, slices.Index(f.Takes.List.Row.keys(), cell))
	}
	return at
}

// WriteRows writes rows of a list field as a text that it reads, in their order
// here: what a remedy proposes to enter instead.
func (r *Reader) WriteRows(key string, rows []*Reader) string {
	_, f := r.at(key)
	list := make([]map[string]string, len(rows))
	for i, row := range rows {
		list[i] = row.values
	}
	return f.Takes.List.write(list)
}
