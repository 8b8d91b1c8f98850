package store

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"kerfside/calc/problem"
)

// maxName is the length of a name that still fits a line of a phone.
const maxName = 40

// readName reads what people call a device or a crew. field is to blame for a
// bad one.
func readName(field, name string) (string, error) {
	if strings.ContainsFunc(name, unseen) || !utf8.ValidString(name) {
		return "", problem.New(problem.Malformed, field, "the name has a character that cannot be seen, such as a line break or a mark that turns text around",
			"Delete the name and type it by hand, on one line.")
	}
	name = strings.TrimSpace(name)
	switch n := utf8.RuneCountInString(name); {
	case n == 0:
		return "", problem.New(problem.Malformed, field, "the name is empty", "Type a name, such as Truck 2.")
	case n > maxName:
		return "", problem.Newf(problem.Malformed, field, "the name has %d characters", n).WithHint("At most %d fit. Leave some out.", maxName)
	}
	return name, nil
}

// unseen reports whether r shows nothing of its own: controls (a terminal obeys
// even those of Latin-1), marks that turn text around or have no width, line
// ends, and letters that fill no place. With them one phone can pass for
// another, or write over the lines of a list.
func unseen(r rune) bool {
	return r == unicode.ReplacementChar || unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Other_Default_Ignorable_Code_Point)
}

// ShowName returns a name fit to be printed: one that was taken before such
// characters were refused shows a question mark for each.
func ShowName(name string) string {
	return strings.Map(func(r rune) rune {
		if unseen(r) {
			return '?'
		}
		return r
	}, name)
}
