package sheet

import "strings"

// A spreadsheet takes a field that begins with one of some signs for a formula, with
// quotes around it or without, and runs it. OWASP, "CSV Injection", lists = + - @, tab
// and carriage return, and tells to begin each such field with an apostrophe, which makes
// it a text. It warns of separators and quotes too: by one that is not the separator of
// this file, but of the spreadsheet, a field can begin amid a text. So a text is guarded
// where it begins, and behind each semicolon, tab and line break in it; a comma
// separates here, and stands in quotes.
//
// Beyond OWASP, full-width forms of the signs count too, which some spreadsheets read
// alike, all other controls, and signs behind blanks and quotes, which some strip. And a text
// that looks like a number or a date, as "007" and "3-4" do, is guarded: it would come
// back as another.
//
// The guard comes off on reading. That gives each text as it was, since an apostrophe is
// one of the quotes: a text that begins like a guarded one is guarded itself.
const guardSign = '\''

const (
	begins  = ";\t\r\n" // behind these a field may begin, for a spreadsheet that separates so
	signs   = "=+-@＝＋－＠\u2212\uFE63\uFE62\uFE66\uFE6B"
	blanks  = " \u00A0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200A\u200B\u200C\u200D\u2028\u2029\u202F\u205F\u2060\u3000\uFEFF"
	skips   = blanks + "'\"`´‘’‚“”„«»‹›＇＂"
	numeric = "0123456789 \u00A0\u202F.,:/-%eE+"
)

// guard returns the text as it is written.
func guard(text string) string {
	var b strings.Builder
	for at, first := 0, true; first || at < len(text); first = false {
		if isFormula(text[at:]) || first && isNumeric(text) {
			b.WriteByte(guardSign)
		}
		end := fieldEnd(text, at)
		b.WriteString(text[at:end])
		at = end
	}
	return b.String()
}

// unguard returns the text that guard was given.
func unguard(written string) string {
	var b strings.Builder
	for at, first := 0, true; first || at < len(written); first = false {
		end := fieldEnd(written, at)
		if rest := written[at:]; rest != "" && rest[0] == guardSign && (isFormula(rest[1:]) || first && isNumeric(rest[1:])) {
			at++
		}
		b.WriteString(written[at:end])
		at = end
	}
	return b.String()
}

// fieldEnd returns where the next field may begin behind at.
func fieldEnd(text string, at int) int {
	n := strings.IndexAny(text[at:], begins)
	if n < 0 {
		return len(text)
	}
	end := at + n + 1
	if strings.HasPrefix(text[end-1:], "\r\n") {
		end++
	}
	return end
}

// isFormula reports whether some spreadsheet may take a field that begins like this for
// a formula.
func isFormula(text string) bool {
	for _, r := range strings.TrimLeft(text, skips) {
		return r != '\n' && (r < ' ' || r == 0x7F) || strings.ContainsRune(signs, r)
	}
	return false
}

// isNumeric reports whether a spreadsheet may read the text as a number or a date, and
// write another text for it.
func isNumeric(text string) bool {
	rest := strings.TrimLeft(text, skips)
	if strings.Trim(rest, numeric) != "" || !strings.ContainsAny(rest, "0123456789") {
		return false
	}
	return rest != text || len(text) > exactDigits || strings.Trim(text, "0123456789") != "" || text[0] == '0' && text != "0"
}
