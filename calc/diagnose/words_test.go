package diagnose

import (
	"regexp"
	"strings"
	"testing"
)

// mostWords is how long a sentence may be that is read with gloves on.
const mostWords = 18

var sentenceEnd = regexp.MustCompile(`[.!?:;](?:\s|$)`)

// sentences are what is read in one breath.
func sentences(text string) []string {
	var all []string
	for _, one := range sentenceEnd.Split(text, -1) {
		if one = strings.TrimSpace(one); one != "" {
			all = append(all, one)
		}
	}
	return all
}

// TestSentencesAreShort: signs, causes and checks are read beside a hot cut.
func TestSentencesAreShort(t *testing.T) {
	read := 0
	short := func(key string, texts ...string) {
		for _, text := range texts {
			for _, one := range sentences(text) {
				read++
				if n := len(strings.Fields(one)); n > mostWords {
					t.Errorf("%s has %d words in one breath, want %d at most: %s", key, n, mostWords, one)
				}
			}
		}
	}
	for _, s := range Signs {
		short(s.Key, s.Label, s.Stop, s.Now, s.NoFault)
	}
	for _, c := range Causes {
		short(c.Key, c.Label, c.Do)
	}
	for _, c := range Checks {
		short(c.Key, c.Label, c.Do, c.Yes, c.No)
	}
	if read < 400 {
		t.Errorf("only %d sentences were read", read)
	}
}
