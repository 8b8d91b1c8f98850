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
	var f file
	f.line("BEGIN", "VCALENDAR")
	f.line("VERSION", "2.0")
	f.line("PRODID", "-//Kerfside//Kerfside//EN")
	for _, e := range events {
		if err := e.write(&f, At(now)); err != nil {
			return "", err
		}
	}
	f.line("END", "VCALENDAR")
	return f.String(), nil
}

// write writes one event.
func (e Event) write(f *file, now Moment) error {
	start, err := e.Start.form()
	if err != nil {
		return err
	}
	stamp, err := now.form()
	if err != nil {
		return err
	}
	if e.About == "" || e.Summary == "" || e.Seconds < 0 || e.EveryDays < 0 {
		return problem.New(problem.Malformed, "", "an event lacks what it is about, or ends before it begins", "Say what is due, and how long it takes.")
	}
	f.line("BEGIN", "VEVENT")
	f.line("UID", uid(e.About))
	f.line("DTSTAMP", stamp)
	if e.Start.isDay() {
		f.line("DTSTART;VALUE=DATE", start)
	} else {
		f.line("DTSTART", start)
	}
	if e.Seconds > 0 && !e.Start.isDay() {
		f.line("DURATION", duration(e.Seconds))
	}
	if e.EveryDays > 0 {
		f.line("RRULE", "FREQ=DAILY;INTERVAL="+strconv.Itoa(e.EveryDays))
	}
	f.line("SUMMARY", text(e.Summary))
	if e.Description != "" {
		f.line("DESCRIPTION", text(e.Description))
	}
	if e.Alarm.From != Never {
		f.line("BEGIN", "VALARM")
		f.line("ACTION", "DISPLAY")
		f.line("DESCRIPTION", text(e.Summary))
		if e.Alarm.From == Ends {
			f.line("TRIGGER;RELATED=END", duration(e.Alarm.After))
		} else {
			f.line("TRIGGER", duration(e.Alarm.After))
		}
		f.line("END", "VALARM")
	}
	f.line("END", "VEVENT")
	return nil
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
