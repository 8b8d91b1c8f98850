package store

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"kerfside/calc/problem"
)

// maxName is the length of a name that still fits a line of a phone.
const maxName = 40

// maxMarks is how many marks may stand on one letter. Scripts need up to four; more
// of them cover the lines above and below.
const maxMarks = 4

// readName reads what people call a device or a crew, with one space where several
// or other ones stand, which look the same. field is to blame for a bad one.
func readName(field, name string) (string, error) {
	if strings.ContainsFunc(name, unseen) || !utf8.ValidString(name) || hasStrayLook(name) {
		return "", problem.New(problem.Malformed, field, "the name has a character that cannot be seen: a line break, or a mark that turns text around",
			"Delete the name and type it by hand, on one line.")
	}
	name = strings.Join(strings.Fields(name), " ")
	switch n := utf8.RuneCountInString(name); {
	case n == 0:
		return "", problem.New(problem.Malformed, field, "the name is empty", "Type a name, such as Truck 2.")
	case n > maxName:
		return "", problem.Newf(problem.Malformed, field, "the name has %d characters", n).WithHint("At most %d fit. Leave some out.", maxName)
	case isPiledUp(name):
		return "", problem.New(problem.Malformed, field, "the name has marks without a letter, or too many on one", "Delete the name and type it by hand.")
	}
	return name, nil
}

// unseen reports whether r shows nothing of its own: controls (a terminal obeys
// even those of Latin-1), marks that turn text around or have no width, line
// ends, letters that fill no place, and blanks that are no spaces. With them one
// phone can pass for another, or write over the lines of a list.
func unseen(r rune) bool {
	return r == unicode.ReplacementChar || r == blankBraille || r == someObject ||
		unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Other_Default_Ignorable_Code_Point, unicode.Noncharacter_Code_Point)
}

const (
	blankBraille = '\u2800'
	someObject   = '\ufffc'
	asPicture    = '\ufe0f' // the sign before it is shown in colour
	asText       = '\ufe0e' // or as a letter
)

// hasStrayLook reports whether name has a selector of looks where nothing looks
// otherwise by it: only signs have two looks that anybody would type.
func hasStrayLook(name string) bool {
	last := rune(0)
	for _, r := range name {
		if unicode.Is(unicode.Variation_Selector, r) && !(unicode.Is(unicode.S, last) && (r == asPicture || r == asText)) {
			return true
		}
		last = r
	}
	return false
}

// isPiledUp reports whether name has a mark that stands on no letter, or more than
// maxMarks on one.
func isPiledUp(name string) bool {
	room := 0
	for _, r := range name {
		switch {
		case r == ' ':
			room = 0
		case unicode.In(r, unicode.Mn, unicode.Me):
			if room--; room < 0 {
				return true
			}
		default:
			room = maxMarks
		}
	}
	return false
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
