package fold

import (
	"bytes"
	"encoding/json"
)

// ChangedViews returns the views that differ from those that it returned last, as JSON
// by name. Only stale views are computed.
func (f *Fold) ChangedViews() (map[string]json.RawMessage, error) {
	marks := &f.settled().stale
	changed := map[string]json.RawMessage{}
	for _, v := range []struct {
		name string
		mark *bool
		make func() any
	}{
		{name: "now", mark: &marks.now, make: func() any { return f.Now() }},
		{name: "rigs", mark: &marks.rigs, make: func() any { return f.Things() }},
		{name: "stock", mark: &marks.stock, make: func() any { return f.Stocks() }},
		{name: "settings", mark: &marks.settings, make: func() any { return f.Settings() }},
		{name: "book", mark: &marks.book, make: func() any { return f.Book("", bookTop) }},
		{name: "days", mark: &marks.days, make: func() any { return f.Days(DayMark{}, dayTop) }},
		{name: "guides", mark: &marks.guides, make: func() any { return f.Guides(guidePage) }},
		{name: "jobs", mark: &marks.jobs, make: func() any { return f.Jobs("", jobTop) }},
	} {
		if !*v.mark {
			continue
		}
		text, err := json.Marshal(v.make())
		if err != nil {
			return nil, err
		}
		*v.mark = false
		if !bytes.Equal(text, f.handedOut[v.name]) {
			f.handedOut[v.name], changed[v.name] = text, text
		}
	}
	return changed, nil
}
