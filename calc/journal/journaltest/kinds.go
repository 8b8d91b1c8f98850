package journaltest

import (
	"bytes"
	"encoding/json"
	"os"
	"testing"
)

// KindsFile holds a good body for each kind and values that no field asks for; the
// tests of the phone's rows read it too.
const KindsFile = "../../../testdata/journal/kinds.json"

// Example is a good entry of a kind.
type Example struct {
	About string                     `json:"about"`
	Body  map[string]json.RawMessage `json:"body"`
}

// Examples returns what KindsFile holds, and two more odd values.
func Examples(t *testing.T) (kinds map[string]Example, odd []json.RawMessage) {
	var file struct {
		Kinds map[string]Example
		Odd   []json.RawMessage
	}
	text, err := os.ReadFile(KindsFile)
	if err == nil {
		err = json.Unmarshal(text, &file)
	}
	if err != nil {
		t.Fatal(err)
	}
	return file.Kinds, append(file.Odd, json.RawMessage(`1e999`), bytes.Repeat([]byte("9"), 400))
}
