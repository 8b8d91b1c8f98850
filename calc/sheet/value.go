package sheet

import (
	"strings"

	"kerfside/calc/day"
)

// exactDigits is how many digits every spreadsheet keeps of a number.
const exactDigits = 15

// What can be wrong with a field, behind what was read, and what to do.
var (
	noNumber   = [2]string{" is no number that can be read", "Write digits alone, with one point or comma at most and no unit, like 12.5."}
	noWhole    = [2]string{" is no whole number", "Write whole pieces, like 12."}
	noTime     = [2]string{" is no date or time that can be read", "Write year, month, day and perhaps the time, like 2026-03-01 or 2026-03-01T17:05."}
	needsPoint = [2]string{" may be thousands or a fraction", "Write thousands without a mark, and fractions with the point."}
	needsComma = [2]string{" may be thousands or a fraction", "Write thousands without a mark, and fractions with the comma."}
)

// cell reads what stands in a field of the column, or says what is wrong with it. comma
// says that decimals of the file have one.
func (c *Column) cell(field string, comma bool) (is Cell, amiss *[2]string) {
	if c.Type < Integer {
		return OfText(unguard(field)), nil
	}
	text := strings.Trim(field, blanks+"'\t\r\n")
	if text == "" {
		return is, nil
	}
	is.Type = c.Type
	if c.Type == Time {
		var ok bool
		if is.Text, ok = readTime(text); !ok {
			return is, &noTime
		}
		return is, nil
	}
	var isThousands bool
	is.Text, isThousands = readNumber(text, comma)
	switch {
	case isThousands && comma:
		return is, &needsComma
	case isThousands:
		return is, &needsPoint
	case is.Text == "":
		return is, &noNumber
	case c.Type == Integer && strings.IndexByte(is.Text, '.') >= 0:
		return is, &noWhole
	}
	return is, nil
}

// readNumber returns the number in digits with a point, "" for what is none. One mark
// stands before the fraction, whichever it is. Only where it is not the mark of the file,
// and three digits stand behind it as behind thousands, nobody can tell what was meant.
func readNumber(text string, comma bool) (number string, isThousands bool) {
	text = strings.Replace(text, "\u2212", "-", 1)
	minus := strings.HasPrefix(text, "-")
	digits := strings.TrimLeft(text, "+-")
	whole, fraction := digits, ""
	if mark := strings.IndexAny(digits, ".,"); mark >= 0 {
		whole, fraction = digits[:mark], digits[mark+1:]
		isThousands = (digits[mark] == ',') != comma && len(fraction) == 3 && len(whole) <= 3 && strings.Trim(whole, "0") != ""
	}
	all := whole + fraction
	if len(text)-len(digits) > 1 || strings.Trim(all, "0123456789") != "" || all == "" || len(all) > exactDigits {
		return "", false
	}
	if isThousands {
		return "", true
	}
	if number = strings.TrimLeft(whole, "0"); number == "" {
		number = "0"
	}
	if fraction != "" {
		number += "." + fraction
	}
	if minus && strings.Trim(all, "0") != "" {
		number = "-" + number
	}
	return number, false
}

// readTime returns a day of the calendar, perhaps with a time of day behind a blank or
// the T of ISO 8601, in the form of Time. Seconds are left out where there are none:
// some spreadsheets write them always.
func readTime(text string) (when string, ok bool) {
	const date, minutes, seconds = len("2026-03-01"), len("2026-03-01T17:05"), len("2026-03-01T17:05:00")
	if len(text) < date {
		return "", false
	}
	if _, _, _, ok := day.Read(text[:date]); !ok || len(text) == date {
		return text, ok
	}
	if len(text) < minutes || text[date] != 'T' && text[date] != ' ' {
		return "", false
	}
	if _, _, ok := day.ReadTime(text[date+1 : minutes]); !ok {
		return "", false
	}
	when = text[:date] + "T" + text[date+1:minutes]
	if len(text) == minutes {
		return when, true
	}
	if len(text) != seconds || text[minutes] != ':' {
		return "", false
	}
	if s, ok := day.Digits(text[minutes+1:]); !ok || s > 59 {
		return "", false
	} else if s > 0 {
		when += text[minutes:]
	}
	return when, true
}

// told returns what was read, short enough for a message.
func told(field string) string {
	const most = 60
	for i := range field {
		if i >= most {
			field = field[:i] + "…"
			break
		}
	}
	return "“" + field + "”"
}
