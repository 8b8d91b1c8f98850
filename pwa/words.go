package pwa

import (
	"encoding/json"
	"fmt"
	"html"
	"regexp"
)

// WordTables are the modules that hold words by key.
var WordTables = []string{"words/en.js", "words/guides.js"}

// WordEntry finds a key and its text, as they stand in a table.
var WordEntry = regexp.MustCompile(`"((?:[^"\\]|\\.)+)": ("(?:[^"\\]|\\.)*"),?`)

// ReadWords returns the words of all tables that are there.
func ReadWords(files map[string][]byte) (map[string]string, error) {
	words := map[string]string{}
	for _, table := range WordTables {
		for _, m := range WordEntry.FindAllSubmatch(files[table], -1) {
			var text string
			if err := json.Unmarshal(m[2], &text); err != nil {
				return nil, fmt.Errorf("pwa/%s: the text of %s: %w", table, m[1], err)
			}
			words[string(m[1])] = text
		}
	}
	return words, nil
}

// saysIn finds where a template says words: data-say is followed by the end of its
// tag, behind which the text goes.
var saysIn = regexp.MustCompile(` data-say(-label)?="([^"]*)"([^>]*>)`)

// FillWords puts the words into templates: an element with data-say="KEY" gets that
// text, data-say-label its accessible name.
func FillWords(name string, template []byte, words map[string]string) ([]byte, error) {
	var missing error
	for saysIn.Match(template) { // an element may say both
		template = saysIn.ReplaceAllFunc(template, func(at []byte) []byte {
			m := saysIn.FindSubmatch(at)
			text, known := words[string(m[2])]
			if !known {
				missing = fmt.Errorf("pwa/%s: there are no words for %s", name, m[2])
			}
			if text = html.EscapeString(text); len(m[1]) > 0 {
				return fmt.Appendf(nil, ` aria-label="%s"%s`, text, m[3])
			}
			return fmt.Appendf(nil, "%s%s", m[3], text)
		})
	}
	return template, missing
}
