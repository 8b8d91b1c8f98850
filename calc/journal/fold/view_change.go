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
		{"now", &marks.now, func() any { return f.Now() }},
		{"rigs", &marks.rigs, func() any { return f.Things() }},
		{"stock", &marks.stock, func() any { return f.Stocks() }},
		{"settings", &marks.settings, func() any { return f.Settings() }},
		{"book", &marks.book, func() any { return f.Book("", bookTop) }},
		{"guides", &marks.guides, func() any { return f.Guides(guidePage) }},
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
