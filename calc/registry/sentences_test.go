package registry

import (
	"encoding/json"
	"errors"
	"regexp"
	"strings"
	"testing"

	"kerfside/calc/cutting"
	"kerfside/calc/problem"
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

// counted finds one thing told as several: "1 starts", but not "corner 1 meets".
var counted = regexp.MustCompile(`(?:^|[^0-9.,/-])1 (?:more |other |new )?(?:starts|cuts|strips|marks|minutes|hours|days|pieces|readings|corners|pairs|entries|notes|photos|parts|steps|signs|layers|couplers|tips)\b`)

// TestAnswersAreShort reads all that calculators answer to the check values, to what phones
// rehearse and to the chips of each field. What is folded away may be longer: the working, and
// what an answer rests on; so may what only a program asks for, a word that is not known.
func TestAnswersAreShort(t *testing.T) {
	var names []string
	for _, c := range All() {
		if strings.Contains(c.Name, "-") {
			names = append(names, c.Name)
		}
	}
	command := regexp.MustCompile(`(?:^|[^#/\w-])(?:` + strings.Join(names, "|") + `)\b`)
	seen := map[string]bool{}
	look := func(where, text string) {
		if text == "" || seen[text] {
			return
		}
		seen[text] = true
		for _, one := range sentenceEnd.Split(text, -1) {
			if n := len(strings.Fields(one)); n > mostWords {
				t.Errorf("%s has %d words in one breath, want %d at most: %s", where, n, mostWords, one)
			}
		}
		if name := command.FindString(text); name != "" && strings.Contains(text, " ") {
			t.Errorf("%s says %q, which is the name of a command: %s", where, name, text)
		}
		if wrong := counted.FindString(text); wrong != "" {
			t.Errorf("%s says %q: %s", where, wrong, text)
		}
	}
	for name, list := range inputs(t) {
		c, err := Get(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range allFields(c) {
			look(name+" "+f.Key, f.Help)
		}
		for _, input := range list {
			a, err := c.Calculate([]byte(input))
			if err != nil {
				if p := (*problem.Error)(nil); errors.As(err, &p) && p.Kind != problem.Unknown {
					look(name+" "+p.Field, p.Msg)
					look(name+" "+p.Field, p.Hint)
				}
				continue
			}
			for _, s := range texts(name, a) {
				if !folded.MatchString(s.where) {
					look(s.where, s.text)
				}
			}
		}
	}
	if len(seen) < 3000 {
		t.Errorf("only %d texts were read", len(seen))
	}
}

// folded are the texts of an answer that stand behind a tap.
var folded = regexp.MustCompile(` (?:working|standing|confidence)$`)

// TestHelpsSayMore holds that a help says what its label does not.
func TestHelpsSayMore(t *testing.T) {
	word := regexp.MustCompile(`[\pL0-9%]+`)
	for _, c := range All() {
		for _, f := range allFields(c) {
			label := " " + strings.Join(word.FindAllString(strings.ToLower(f.Label), -1), " ") + " "
			more := f.Help == ""
			for _, w := range word.FindAllString(strings.ToLower(f.Help), -1) {
				if !strings.Contains(" the a an of its it is at to for in on from as ", " "+w+" ") && !strings.Contains(label, " "+w+" ") {
					more = true
				}
			}
			if !more {
				t.Errorf("%s %s: %q says no more than %q", c.Name, f.Key, f.Help, f.Label)
			}
		}
	}
}
