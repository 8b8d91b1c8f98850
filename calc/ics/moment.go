package ics

import (
	"strconv"
	"strings"

	"kerfside/calc/day"
)

// Moment is when an event begins, as a file has it: a day, a time of day wherever the
// phone is, or a moment of the whole world. "" is none, of what could not be read.
type Moment string

// On returns a whole day, like "2026-03-01" (RFC 5545 §3.3.4).
func On(date string) Moment {
	if _, _, _, ok := day.Read(date); !ok {
		return ""
	}
	return Moment(strings.ReplaceAll(date, "-", ""))
}

// OnAt returns a time of day, like "17:00", by the clock on the wall (RFC 5545 §3.3.5,
// form 1). It moves with summer time, as work does, and needs no table of zones.
func OnAt(date, time string) Moment {
	on := On(date)
	if _, _, ok := day.ReadTime(time); !ok || on == "" {
		return ""
	}
	return on + Moment("T"+time[:2]+time[3:]+"00")
}

const (
	secondsOfDay = 24 * 3600
	lastSecond   = 253402300799 // of the year 9999, beyond which a year has five digits
)

// At returns a moment in ms since 1970 UTC, of which whole seconds are told (RFC 5545
// §3.3.5, form 2). There is none before 1970 or after 9999.
func At(ms int64) Moment {
	s := ms / 1000
	if ms < 0 || s > lastSecond {
		return ""
	}
	year, month, date := day.Civil(s / secondsOfDay)
	s %= secondsOfDay
	const noughts = 1000000 // a digit before the time of day keeps its own
	return Moment(strconv.FormatInt((year*100+month)*100+date, 10) + "T" + strconv.FormatInt(noughts+s/3600*10000+s/60%60*100+s%60, 10)[1:] + "Z")
}

// isDay reports whether the moment is a whole day.
func (m Moment) isDay() bool { return len(m) == len("20260301") }

// duration returns seconds as RFC 5545 §3.3.6 writes them. It has no weeks, and no day:
// a day is 23 hours long when summer time begins.
func duration(seconds int64) string {
	text := "PT"
	if seconds < 0 {
		text, seconds = "-PT", -seconds
	}
	part := func(n int64, letter string) {
		if n > 0 {
			text += strconv.FormatInt(n, 10) + letter
		}
	}
	part(seconds/3600, "H")
	part(seconds/60%60, "M")
	part(seconds%60, "S")
	if seconds == 0 {
		text += "0S"
	}
	return text
}
