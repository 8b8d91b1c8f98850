package form

import (
	"kerfside/calc/problem"
)

// kept returns what is kept of the rig or of the site.
func (r *Reader) kept(values map[string]any, owner string) map[string]any {
	kept, ok := values[owner].(map[string]any)
	if !ok && values[owner] != nil {
		r.fail(problem.New(problem.Malformed, owner, "the "+owner+" is not an object of fields", `Send something like {"max_current": "45A"}.`))
	}
	return kept
}

// known takes what is kept of the rig and of the site into the fields that have
// an owner, where nothing was entered. The site wins; of an item of the truck it
// does so as a whole: its own compressor has not the truck's tank.
func (r *Reader) known(rig, site map[string]any) {
	own := map[string]bool{}
	for i := range r.calc.Fields {
		if f := &r.calc.Fields[i]; f.Item != "" && r.keptText(f, site) != "" {
			own[f.Item] = true
		}
	}
	for i := range r.calc.Fields {
		f := &r.calc.Fields[i]
		if f.Owner == OfNone || r.Given(f.Key) {
			continue
		}
		text, from := r.keptText(f, site), OfSite
		if text == "" && !own[f.Item] {
			text, from = r.keptText(f, rig), OfRig
			if f.Owner == OfTruck {
				from = OfTruck
			}
		}
		if text != "" {
			r.values[f.Key], r.from[f.Key] = text, from
		}
	}
}

func (r *Reader) keptText(f *Field, kept map[string]any) string {
	text, err := f.entered(kept[f.Key])
	if err != nil && f.Owner != OfNone {
		r.fail(problem.New(problem.Malformed, f.Key, err.Error(), "Enter "+f.Label+" again."))
	}
	return text
}

// From tells where a field's value comes from: OfSite, OfTruck or OfRig of what
// is kept, OfNone if it was entered or is the default.
func (r *Reader) From(key string) Owner {
	r, _ = r.at(key)
	return r.from[key]
}

// FromOf is From for an item: of the first of its fields that was kept.
func (r *Reader) FromOf(item string) Owner {
	if r.form != nil {
		return r.form.FromOf(item)
	}
	for _, f := range r.calc.Fields {
		if from := r.from[f.Key]; f.Item == item && from != OfNone {
			return from
		}
	}
	return OfNone
}
