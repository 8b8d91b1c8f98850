// Package ics writes calendar files (RFC 5545) that a phone or a computer takes into its
// own calendar, which reminds when this app is shut.
//
// A file is one VCALENDAR with a VEVENT for each thing:
//
//	BEGIN:VEVENT
//	UID:upkeep.rig-x.extinguisher@kerfside
//	DTSTAMP:20260301T160500Z
//	DTSTART;VALUE=DATE:20260315
//	SUMMARY:Extinguisher of the blue truck
//	BEGIN:VALARM
//	ACTION:DISPLAY
//	DESCRIPTION:Extinguisher of the blue truck
//	TRIGGER:-PT15H
//	END:VALARM
//	END:VEVENT
//
// Nothing is asked of the clock: the caller says when it is. The UID is made of what the
// event is about, so that the same thing, imported again, replaces itself.
package ics

import (
	"strconv"
	"strings"

	"kerfside/calc/problem"
)

// Event is one entry of a calendar.
type Event struct {
	About       string // names the thing and nothing else: the same again replaces it
	Start       Moment
	Seconds     int64 // how long; 0 for a day, or for a moment
	EveryDays   int   // comes again after so many days; 0 for once
	Summary     string
	Description string // "" for none
	Alarm       Alarm
}

// Alarm is when an event is told of.
type Alarm struct {
	From  Edge
	After int64 // seconds from there, negative before it
}

// Edge is what an alarm counts from.
type Edge int

const (
	Never  Edge = iota // there is no alarm
	Begins             // the start of the event; of a day, its midnight
	Ends
)

// Calendar returns a file with the events. now is ms since 1970 UTC.
func Calendar(events []Event, now int64) (string, error) {
	if len(events) == 0 {
		return "", problem.New(problem.Missing, "", "there is nothing to put into a calendar", "Enter what is due first.")
	}
	stamp := At(now)
	lines := "BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//Kerfside//Kerfside//EN\n"
	for i := range events {
		e := &events[i]
		if stamp == "" || e.Start == "" || e.About == "" || e.Summary == "" || e.Seconds < 0 {
			return "", problem.New(problem.Malformed, "", "something due has no name, or no day or time of a calendar", "Say what is due and when, and look at the clock of the phone.")
		}
		lines += e.lines(string(stamp))
	}
	return folded(lines + "END:VCALENDAR\n"), nil
}

// lines returns the lines of one event.
func (e *Event) lines(stamp string) string {
	summary, start, more, alarm := text(e.Summary), ":"+string(e.Start), "", ""
	if e.Start.isDay() {
		start = ";VALUE=DATE" + start
	} else if e.Seconds > 0 {
		more = "\nDURATION:" + duration(e.Seconds)
	}
	if e.EveryDays > 0 {
		more += "\nRRULE:FREQ=DAILY;INTERVAL=" + strconv.Itoa(e.EveryDays)
	}
	if e.Description != "" {
		more += "\nDESCRIPTION:" + text(e.Description)
	}
	if e.Alarm.From != Never {
		related := ""
		if e.Alarm.From == Ends {
			related = ";RELATED=END"
		}
		alarm = "\nBEGIN:VALARM\nACTION:DISPLAY\nDESCRIPTION:" + summary + "\nTRIGGER" + related + ":" + duration(e.Alarm.After) + "\nEND:VALARM"
	}
	return "BEGIN:VEVENT\nUID:" + uid(e.About) + "\nDTSTAMP:" + stamp + "\nDTSTART" + start + "\nSUMMARY:" + summary + more + alarm + "\nEND:VEVENT\n"
}

// uid returns the name of what an event is about as RFC 5545 §3.8.4.7 and RFC 7986 §5.3
// want it: the same for the same, another for another, of letters, digits and some signs.
func uid(about string) string {
	const hex = "0123456789ABCDEF"
	var b strings.Builder
	for i := range len(about) {
		c := about[i]
		switch {
		case c >= '0' && c <= '9', c|0x20 >= 'a' && c|0x20 <= 'z', c == '.', c == '-', c == '_':
			b.WriteByte(c)
		default:
			b.WriteByte('+')
			b.WriteByte(hex[c>>4])
			b.WriteByte(hex[c&15])
		}
	}
	return b.String() + "@kerfside"
}
