package ics

import (
	"fmt"
	"strconv"
	"strings"

	"kerfside/calc/day"
	"kerfside/calc/problem"
)

// Moment is when an event begins: a day, a time of day wherever the phone is, or a
// moment of the whole world.
type Moment struct {
	day  string // 2026-03-01; "" for a moment of the world
	time string // 17:00; "" for the whole day
	ms   int64  // since 1970 UTC
}

// On returns a whole day, like "2026-03-01".
func On(day string) Moment { return Moment{day: day} }

// OnAt returns a time of day, like "17:00", by the clock on the wall: RFC 5545 §3.3.5,
// form 1. It moves with summer time, as work does, and needs no table of zones.
func OnAt(day, time string) Moment { return Moment{day: day, time: time} }

// At returns a moment in ms since 1970 UTC, of which whole seconds are told.
func At(ms int64) Moment { return Moment{ms: ms} }

func (m Moment) isDay() bool { return m.day != "" && m.time == "" }

// form returns the moment as a DATE or DATE-TIME (RFC 5545 §3.3.4, §3.3.5).
func (m Moment) form() (string, error) {
	if m.day == "" {
		return utc(m.ms)
	}
	if _, _, _, ok := day.Read(m.day); !ok {
		return "", problem.New(problem.Malformed, "", "“"+m.day+"” is no day of the calendar", "Write it like 2026-03-01.")
	}
	date := strings.ReplaceAll(m.day, "-", "")
	if m.time == "" {
		return date, nil
	}
	if _, _, ok := day.ReadTime(m.time); !ok {
		return "", problem.New(problem.Malformed, "", "“"+m.time+"” is no time of day", "Write it like 17:00.")
	}
	return date + "T" + strings.ReplaceAll(m.time, ":", "") + "00", nil
}

const (
	secondsOfDay = 24 * 3600
	lastSecond   = 253402300799 // of the year 9999, beyond which a year has five digits
)

// utc returns a moment as a DATE-TIME in UTC.
func utc(ms int64) (string, error) {
	s := ms / 1000
	if s < 0 || s > lastSecond {
		return "", problem.New(problem.Range, "", "the time is before 1970 or after 9999", "Set the clock of the phone.")
	}
	year, month, date := day.Civil(s / secondsOfDay)
	s %= secondsOfDay
	return fmt.Sprintf("%04d%02d%02dT%02d%02d%02dZ", year, month, date, s/3600, s/60%60, s%60), nil
}

// duration returns seconds as RFC 5545 §3.3.6 writes them. It has no weeks, and no day:
// a day is 23 hours long when summer time begins.
func duration(seconds int64) string {
	sign := ""
	if seconds < 0 {
		sign, seconds = "-", -seconds
	}
	text := sign + "PT"
	for _, part := range []struct {
		seconds int64
		letter  string
	}{{3600, "H"}, {60, "M"}, {1, "S"}} {
		if n := seconds / part.seconds; n > 0 {
			text += strconv.FormatInt(n, 10) + part.letter
		}
		seconds %= part.seconds
	}
	if strings.HasSuffix(text, "T") {
		text += "0S"
	}
	return text
}
