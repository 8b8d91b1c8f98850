package main

import (
	"regexp"
	"strings"
)

// saying is a call that says words.
type saying struct {
	by      string // say, sayKnown or sayIfKnown
	key     string // its first argument
	at, end int    // from its name to the end of that
	more    bool   // whether values follow
}

var sayingCall = regexp.MustCompile(`(?:^|[^.#\w])(say|sayKnown|sayIfKnown)\(`)

// sayings finds the calls in a module that gets words from words/words.js.
func sayings(source string) []saying {
	imported := fromWords.FindString(source)
	var found []saying
	for _, at := range sayingCall.FindAllStringSubmatchIndex(source, -1) {
		if by := source[at[2]:at[3]]; !regexp.MustCompile(`\b` + by + `\b`).MatchString(imported) {
			continue
		}
		end := at[1] + topLevel(source[at[1]:], ",)")
		found = append(found, saying{by: source[at[2]:at[3]], key: source[at[1]:end], at: at[2], end: end, more: end < len(source) && source[end] == ','})
	}
	return found
}

// values returns what a choice between values can come to, each as it is written.
func values(expression string) []string {
	expression = strings.TrimSpace(expression)
	for from := 0; ; {
		at := from + topLevel(expression[from:], "?")
		if at >= len(expression) {
			return []string{expression}
		}
		if next := expression[at+1:]; !strings.HasPrefix(next, ".") && !strings.HasPrefix(next, "?") {
			colon := at + 1
			for depth := 1; depth > 0 && colon < len(expression); {
				colon += topLevel(expression[colon:], "?:")
				if colon == len(expression) {
					break
				}
				if expression[colon] == '?' {
					depth++
				} else {
					depth--
				}
				colon++
			}
			return append(values(strings.TrimSuffix(expression[at+1:colon], ":")), values(expression[colon:])...)
		}
		from = at + 2
	}
}

// topLevel returns where one of ends first stands outside of brackets and texts, or
// the length.
func topLevel(text, ends string) int {
	depth := 0
	for i := 0; i < len(text); i++ {
		c := text[i]
		switch {
		case depth == 0 && strings.IndexByte(ends, c) >= 0:
			return i
		case strings.IndexByte("([{", c) >= 0:
			depth++
		case strings.IndexByte(")]}", c) >= 0:
			depth--
		case strings.IndexByte("\"`'", c) >= 0:
			for i++; i < len(text) && text[i] != c; i++ {
				if text[i] == '\\' {
					i++
				}
			}
		}
	}
	return len(text)
}
