package ics

import (
	"strings"
	"unicode/utf8"
)

// longestLine is how many octets a line may have without its end (RFC 5545 §3.1).
const longestLine = 75

// file is the text of a calendar file as it grows.
type file struct{ strings.Builder }

// line writes a property, folded where it is longer than a line may be: it goes on behind
// a blank on the next one. No character is cut in two.
func (f *file) line(name, value string) {
	rest, room := name+":"+value, longestLine
	for len(rest) > room {
		end := room
		for !utf8.RuneStart(rest[end]) {
			end--
		}
		f.WriteString(rest[:end] + "\r\n ")
		rest, room = rest[end:], longestLine-1
	}
	f.WriteString(rest + "\r\n")
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
