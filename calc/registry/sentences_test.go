package registry

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"kerfside/calc/cutting"
)

// mostWords is how long a sentence of a form may be: it is read beside the work.
const mostWords = 18

var (
	sentenceEnd = regexp.MustCompile(`[.!?:;](?:\s|$)`)
	// computing is what a person of the trade does not say of a figure; the input current of a
	// machine is on its plate.
	computing = regexp.MustCompile(`(?i)\b(sums?|null|invalid|default|inputs?)\b(?: current| amps)?`)
)

// notRead is what nobody has to read to enter a value: what a figure rests on, and what a search finds.
var notRead = map[string]bool{"sources": true, "basis": true, "terms": true, "key": true, "name": true, "tests": true}

// TestSentencesAreShort reads all that the forms of the calculators say, and the words of every stop.
func TestSentencesAreShort(t *testing.T) {
	data, err := json.Marshal([]any{Describe(), cutting.Stops()})
	if err != nil {
		t.Fatal(err)
	}
	var all any
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	read := 0
	var visit func(path string, value any)
	visit = func(path string, value any) {
		switch value := value.(type) {
		case map[string]any:
			if name, ok := value["name"].(string); ok && path == "" {
				path = name
			}
			for key, inner := range value {
				if !notRead[key] {
					visit(path+"/"+key, inner)
				}
			}
		case []any:
			for _, inner := range value {
				visit(path, inner)
			}
		case string:
			for _, one := range sentenceEnd.Split(value, -1) {
				read++
				if n := len(strings.Fields(one)); n > mostWords {
					t.Errorf("%s has %d words in one breath, want %d at most: %s", path, n, mostWords, one)
				}
				for _, found := range computing.FindAllString(one, -1) {
					if !strings.EqualFold(found, "input current") && !strings.EqualFold(found, "input amps") {
						t.Errorf("%s says %q: %s", path, found, one)
					}
				}
			}
		}
	}
	visit("", all)
	if read < 2000 {
		t.Errorf("only %d sentences were read", read)
	}
}
