package sheet

import "strings"

// line is what was found between two ends of lines outside of quotes.
type line struct {
	number int // of its first line in the file, from 1
	fields []string
	amiss  string // what is wrong with its quotes, "" for nothing
}

// What can be wrong with quotes.
const (
	openQuotes   = "a quote is opened and never closed"
	behindQuotes = "something stands behind a closing quote"
)

// scanner takes a text apart by RFC 4180 §2, with any end of lines and a separator of
// its own. A quote amid a field that does not begin with one stands for itself.
type scanner struct {
	text      string
	separator byte
	at        int
	number    int // of the line that at is on
}

// next returns the next line, false at the end.
func (s *scanner) next() (line, bool) {
	if s.at >= len(s.text) {
		return line{}, false
	}
	l := line{number: s.number}
	for {
		l.fields = append(l.fields, s.field(&l))
		if s.at >= len(s.text) {
			return l, true
		}
		if s.text[s.at] != s.separator {
			s.endLine()
			return l, true
		}
		s.at++
	}
}

// field reads up to the next separator or end of line.
func (s *scanner) field(l *line) string {
	quoted := ""
	if s.at < len(s.text) && s.text[s.at] == '"' {
		quoted = s.quoted(l)
	}
	begin := s.at
	for s.at < len(s.text) && s.text[s.at] != s.separator && s.text[s.at] != '\r' && s.text[s.at] != '\n' {
		s.at++
	}
	rest := s.text[begin:s.at]
	if quoted != "" && rest != "" && l.amiss == "" {
		l.amiss = behindQuotes
	}
	return quoted + rest
}

// quoted reads what stands in quotes, and passes over the closing one.
func (s *scanner) quoted(l *line) string {
	s.at++
	begin := s.at
	for s.at < len(s.text) {
		switch s.text[s.at] {
		case '\r', '\n':
			s.endLine()
			continue
		case '"':
			end := s.at
			s.at++
			if s.at == len(s.text) || s.text[s.at] != '"' {
				return strings.ReplaceAll(s.text[begin:end], `""`, `"`)
			}
		}
		s.at++
	}
	l.amiss = openQuotes
	return s.text[begin:]
}

// endLine passes over the end of a line: CRLF, LF or CR.
func (s *scanner) endLine() {
	if s.text[s.at] == '\r' && s.at+1 < len(s.text) && s.text[s.at+1] == '\n' {
		s.at++
	}
	s.at++
	s.number++
}
