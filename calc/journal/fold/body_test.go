package fold

import (
	"encoding/json"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// TestKeyTwice: at the top of an event no key may stand twice, or two readers would
// see two events. Below, the last counts, as it does for every reader of JSON.
func TestKeyTwice(t *testing.T) {
	for _, key := range []string{`"id":"Qk3vZ0mJ8cW1xT5rLb2hYB"`, `"v":2`, `"body":{}`, `"mood":1,"mood":1`, `"m\u006fod":1,"mood":1`} {
		raw := strings.Replace(worked, `"v":1`, `"v":1,`+key, 1)
		if _, err := event.Decode([]byte(raw)); problem.KindOf(err) != problem.Malformed {
			t.Errorf("%s twice: %v, want malformed", key, err)
		}
	}
	for _, body := range []string{`{"n":7,"n":3}`, `{"n":{"n":7},"\u006e":3}`, `{"n":3,"x":{"y":1,"y":2}}`, `{` + strings.Repeat(`"n":8,`, 100) + `"n":3}`} {
		s := (&script{T: t}).Add("a", 0, "stock.counted", `{"n":0}`, about("line-1"))
		s.Events[0].Body = json.RawMessage(body)
		var read map[string]any
		if err := json.Unmarshal([]byte(body), &read); err != nil || read["n"] != 3. {
			t.Fatalf("%s: encoding/json reads %v, %v", body, read, err)
		}
		if lines := foldOf(s).Stocks().Lines; len(lines) != 1 || lines[0].N != 3 {
			t.Errorf("%s: stock %+v, want 3", body, lines)
		}
	}
}
