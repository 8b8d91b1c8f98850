package journaltest

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// KindsFile holds a good body for each kind, as its declaration has it, for the tests of
// the phone's rows. OddFile holds values that no field asks for.
const (
	KindsFile = "../../../testdata/journal/kinds.json"
	OddFile   = "../../../testdata/journal/odd.json"
)

// Example is a good entry of a kind.
type Example struct {
	About string                     `json:"about,omitempty"`
	Body  map[string]json.RawMessage `json:"body"`
}

// thingFields are fields that the phone keeps with things, beside the declared ones.
var thingFields = map[string]string{
	"rig.set":        `{"min_current":"15A","max_current":"45A","tips":"25A:0.8mm,45A:1.05mm","pressure_kind":"line","pressure":"15A:1.6bar,45A:4.6bar","calibration":"1.1"}`,
	"site.set":       `{"free_air":"200L/min","hose_length":"15m","generator":"6kW","volts":"230V"}`,
	"setting.set":    `{"rig":"rig-x","site":"none","watchMinutes":30}`,
	"session.opened": `{"plan_current":"45 A","plan_pressure":"4.6 bar","plan_speed":"500 mm/min"}`,
}

// abouts are what good entries are about, by the sort of thing.
var abouts = map[string]string{"rig": "rig-x", "site": "site-x", "job": "job-x", "line": "line-x", "device": "phone-a", "thing": "rig-x",
	"session": "s-1", "part": "part-x", "fault": "fault-x"}

// Good returns a good entry of each kind, by its declaration.
func Good() map[string]Example {
	all := map[string]Example{}
	for _, k := range event.All() {
		e := Example{About: abouts[k.About], Body: map[string]json.RawMessage{}}
		if more := thingFields[k.Name]; more != "" {
			if err := json.Unmarshal([]byte(more), &e.Body); err != nil {
				panic(err) // ours, written above
			}
		}
		for _, f := range k.Body {
			e.Body[f.Key] = json.RawMessage(f.Example)
		}
		all[k.Name] = e
	}
	return all
}

// Examples returns a good entry of each kind, and odd values.
func Examples(t *testing.T) (kinds map[string]Example, odd []json.RawMessage) {
	text, err := os.ReadFile(OddFile)
	if err == nil {
		err = json.Unmarshal(text, &odd)
	}
	if err != nil {
		t.Fatal(err)
	}
	return Good(), append(odd, json.RawMessage(`1e999`), bytes.Repeat([]byte("9"), 400))
}

// addRest writes a good entry of each kind that the script has none of, so that a log
// of the next release has all kinds in it.
func (s *Script) addRest(ms int64) {
	there := map[string]bool{}
	for _, e := range s.Events {
		there[e.Kind] = true
	}
	all := Good()
	for _, kind := range order.Keys(all) {
		if there[kind] {
			continue
		}
		text, err := json.Marshal(all[kind].Body)
		if err != nil {
			s.T.Fatal(err)
		}
		var options []Option
		if about := all[kind].About; about != "" {
			options = append(options, About(about))
		}
		s.Add("rest-"+strings.ReplaceAll(kind, ".", "-"), ms, kind, string(text), options...)
	}
}
