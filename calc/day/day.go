// Package day counts the days of the Gregorian calendar, for what may not ask a clock or
// know zones.
package day

import "strings"

// Civil returns the day that is so many days after the first of January 1970, none of
// them before it. Years are counted from March on, so that a leap day is the last of its
// year.
func Civil(days int64) (year, month, day int64) {
	const (
		of400, of100, of4 = 146097, 36524, 1461 // days of so many years, of 100 and 4 without the odd leap day
		fromMarch0        = 719468              // days from the first of March of year 0
	)
	days += fromMarch0
	era := days / of400
	days %= of400
	year = (days - days/(of4-1) + days/of100 - days/(of400-1)) / 365
	days -= 365*year + year/4 - year/100
	// Five months from March on, and again from August, have 153 days.
	m := (5*days + 2) / 153
	day = days - (153*m+2)/5 + 1
	year += 400 * era
	if month = m + 3; month > 12 {
		return year + 1, month - 12, day
	}
	return year, month, day
}

// Read reads a day like "2026-03-01", false if there is none such.
func Read(text string) (year, month, day int64, ok bool) {
	if len(text) != len("2026-03-01") || text[4] != '-' || text[7] != '-' {
		return 0, 0, 0, false
	}
	year, okYear := Digits(text[:4])
	month, okMonth := Digits(text[5:7])
	day, okDay := Digits(text[8:])
	ok = okYear && okMonth && okDay && month >= 1 && month <= 12 && day >= 1 && day <= In(year, month)
	return year, month, day, ok
}

// ReadTime reads a time of day like "17:05".
func ReadTime(text string) (hour, minute int64, ok bool) {
	if len(text) != len("17:05") || text[2] != ':' {
		return 0, 0, false
	}
	hour, okHour := Digits(text[:2])
	minute, okMinute := Digits(text[3:])
	return hour, minute, okHour && okMinute && hour < 24 && minute < 60
}

// Digits reads a few digits and nothing else.
func Digits(text string) (n int64, ok bool) {
	for _, c := range []byte(text) {
		n = 10*n + int64(c-'0')
	}
	return n, strings.Trim(text, "0123456789") == ""
}

// In returns how many days a month has.
func In(year, month int64) int64 {
	switch {
	case month == 2 && year%4 == 0 && (year%100 != 0 || year%400 == 0):
		return 29
	case month == 2:
		return 28
	case month == 4, month == 6, month == 9, month == 11:
		return 30
	}
	return 31
}
