package journal

import "encoding/json"

// body is an object that was read into its keys, each once.
type body []member

// readBody reads an object; of what is none it knows no key.
func readBody(raw json.RawMessage) body {
	o, err := members(raw)
	if err != nil {
		return nil
	}
	return o.members
}

// get returns the value of key, nil if it is missing or null.
func (b body) get(key string) json.RawMessage {
	for _, m := range b {
		if m.key == key && string(m.value) != "null" {
			return json.RawMessage(m.value)
		}
	}
	return nil
}

// text returns the text under key, "" if there is none.
func (b body) text(key string) string {
	s, _ := unquote(b.get(key))
	return s
}

// texts returns the texts listed under key, none if it is no list. What else
// stands in the list is passed over.
func (b body) texts(key string) []string {
	texts := []string{}
	var list []json.RawMessage
	if raw := b.get(key); raw != nil && json.Unmarshal(raw, &list) == nil {
		for _, one := range list {
			if s, err := unquote(one); err == nil {
				texts = append(texts, s)
			}
		}
	}
	return texts
}

// whole returns the integer under key.
func (b body) whole(key string) (int64, bool) {
	return whole(b.get(key))
}

// wholeIn returns the integer under key if it is there and within the limits.
func (b body) wholeIn(key string, low, high int64) (int64, bool) {
	n, ok := b.whole(key)
	return n, ok && low <= n && n <= high
}
