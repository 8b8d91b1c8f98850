package engine

import (
	"encoding/json"

	"kerfside/calc/order"
)

// Reply is Call with the answer as the JSON {"ok": answer}.
func (e *Engine) Reply(name string, input json.RawMessage) ([]byte, error) {
	v, err := e.Call(name, input)
	if err != nil {
		return nil, err
	}
	folded, _ := v.(Folded)
	if folded.Views != nil {
		views := folded.Views
		folded.Views, v = nil, nil
		return reply(folded, views)
	}
	return reply(v, nil)
}

// reply writes an answer with views added to it. They are JSON that was made here a
// moment ago; encoding/json would read every byte of them once more.
func reply(v any, views map[string]json.RawMessage) ([]byte, error) {
	text, err := json.Marshal(v)
	if err != nil {
		return nil, err
	}
	size := len(text) + 32
	for name, view := range views {
		size += len(name) + len(view) + 4
	}
	b := append(append(make([]byte, 0, size), `{"ok":`...), text...)
	if views != nil {
		b = append(b[:len(b)-1], `,"views":`...)
		next := byte('{')
		for _, name := range order.Keys(views) {
			b = append(append(b, next, '"'), name...)
			b = append(append(b, '"', ':'), views[name]...)
			next = ','
		}
		if len(views) == 0 {
			b = append(b, '{')
		}
		b = append(b, '}', '}')
	}
	return append(b, '}'), nil
}
