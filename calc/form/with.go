package form

// With returns a reader of the same form with other texts in some fields, as if
// they had been entered. Of a row, what is no field of its own goes into the form
// that it stands in.
func (r *Reader) With(texts map[string]string) *Reader {
	with := *r
	with.errs, with.values = nil, map[string]string{}
	for key, text := range r.values {
		with.values[key] = text
	}
	others := map[string]string{}
	for key, text := range texts {
		if _, own := r.calc.field(key); own || r.form == nil {
			with.values[key] = text
		} else {
			others[key] = text
		}
	}
	if r.form != nil {
		with.form = r.form.With(others)
	}
	return &with
}

// Said is a text of a field, or its default with "", as it reads in the
// reader's units.
func (r *Reader) Said(key, text string) string {
	r, f := r.at(key)
	if text == "" {
		text = f.Default
	}
	if f.Takes.Kind == KindNumber {
		if v, err := r.calc.ReadValue(key, ValueInput{Text: text, Units: string(r.system)}); err == nil {
			return v.Text
		}
	}
	return text
}
