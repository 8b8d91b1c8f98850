package form

// With returns a reader of the same form with other texts in some fields, as if
// they had been entered.
func (r *Reader) With(texts map[string]string) *Reader {
	with := *r
	with.errs, with.values = nil, map[string]string{}
	for _, from := range []map[string]string{r.values, texts} {
		for key, text := range from {
			with.values[key] = text
		}
	}
	return &with
}

// Said is a text of a field, or its default with "", as it reads in the
// reader's units.
func (r *Reader) Said(key, text string) string {
	f := r.calc.mustField(key)
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
