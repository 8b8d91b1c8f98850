package ics

import (
	"strings"
	"unicode/utf8"
)

// longestLine is how many octets a line may have without its end (RFC 5545 §3.1).
const longestLine = 75

// folded ends each line as a file has it, and folds one that is longer than a line may
// be: it goes on behind a blank on the next. No character is cut in two.
func folded(lines string) string {
	var b strings.Builder
	octets := 0
	for _, r := range lines {
		switch n := utf8.RuneLen(r); {
		case r == '\n':
			octets = 0
			b.WriteString("\r\n")
			continue
		case octets+n > longestLine:
			octets = 1 + n
			b.WriteString("\r\n ")
		default:
			octets += n
		}
		b.WriteRune(r)
	}
	return b.String()
}

// text returns a value of type TEXT (RFC 5545 §3.3.11). Controls, which no line may hold,
// become blanks.
func text(s string) string {
	var b strings.Builder
	for _, r := range strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(s) { // what is no UTF-8 comes as U+FFFD
		switch {
		case r == '\\', r == ';', r == ',':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r < ' ' && r != '\t', r == 0x7F:
			b.WriteByte(' ')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
