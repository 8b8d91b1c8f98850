//go:build !js

// Native only: it runs another program, which a phone cannot.

package ics

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"kerfside/calc/outside"
)

// parsed is an event as others read it.
type parsed struct {
	UID   string   `json:"uid"`
	Stamp string   `json:"stamp"`
	Start string   `json:"start"`
	End   string   `json:"end"`
	Alarm string   `json:"alarm"`
	Times []string `json:"times"` // of the thirty days from its start on

	texts []string // what it says, and its alarm
}

// TestCalendarsAgainstPython lets icalendar and vobject read what is written here, and
// recurring-ical-events, which stands on icalendar, find on which days an event comes
// again. All are exact. Days and times are told by package time, which calc itself may
// not ask.
func TestCalendarsAgainstPython(t *testing.T) {
	bits := strings.Split("tip , ; : \\ \\n \" é 日 \U0001F527 drain BEGIN:VEVENT ' = blue-truck", " ")
	bits = append(bits, " ", "\n", "\n ", "\t", ",,", strings.Repeat("long ", 20))
	random := rand.New(rand.NewPCG(5545, 1))
	words := func(least int) string {
		text := strings.Repeat("x", least)
		for range random.IntN(12) {
			text += bits[random.IntN(len(bits))]
		}
		return text
	}
	const day, local = "2006-01-02", "2006-01-02T15:04:05"
	var files []string
	var want [][]parsed
	for range 120 {
		stamp := time.UnixMilli(random.Int64N(4e12)).UTC()
		var events []Event
		var read []parsed
		for i := range 1 + random.IntN(4) {
			about, summary, description := fmt.Sprintf("%s %d", words(1), i), words(1), words(0)
			start := time.UnixMilli(random.Int64N(4e12)).UTC().Truncate(time.Second)
			p := parsed{UID: uid(about), Stamp: stamp.Truncate(time.Second).Format(local) + "Z", texts: []string{summary, description, summary}}
			switch random.IntN(3) {
			case 0:
				start = start.Truncate(24 * time.Hour)
				events = append(events, Due(about, start.Format(day), summary, description))
				p.Start, p.End = start.Format(day), start.AddDate(0, 0, 1).Format(day)
				p.Alarm = start.Add(-15 * time.Hour).Format(local)
				p.Times = []string{p.Start}
			case 1:
				start = start.Truncate(time.Minute)
				every := random.IntN(9)
				events = append(events, Daily(about, start.Format(day), start.Format("15:04"), every, summary, description))
				p.Start, p.End = start.Format(local), start.Add(10*time.Minute).Format(local)
				p.Alarm = p.Start
				for at := 0; at < 30; at += max(every, 1) {
					p.Times = append(p.Times, start.AddDate(0, 0, at).Format(local))
				}
			case 2:
				end := start.Add(time.Duration(1+random.IntN(20000)) * time.Second)
				events = append(events, FireWatch(about, start.UnixMilli()+random.Int64N(1000), end.UnixMilli(), summary, description))
				p.Start, p.End = start.Format(local)+"Z", end.Format(local)+"Z"
				p.Alarm = p.End
				p.Times = []string{p.Start}
			}
			read = append(read, p)
		}
		file, err := Calendar(events, stamp.UnixMilli())
		if err != nil {
			t.Fatal(err)
		}
		files, want = append(files, file), append(want, read)
	}
	var theirs [][]parsed
	var texts [][][]string
	outside.Python(t, outside.Recurring, "calendars.py", files, &theirs)
	outside.Python(t, outside.VObject, "calendar_texts.py", files, &texts)
	if len(theirs) != len(files) || len(texts) != len(files) {
		t.Fatalf("%d and %d answers to %d files", len(theirs), len(texts), len(files))
	}
	events := 0
	for i, read := range theirs {
		if len(read) != len(want[i]) || len(texts[i]) != len(want[i]) {
			t.Errorf("%d and %d events are read of %q", len(read), len(texts[i]), files[i])
			continue
		}
		for k, got := range read {
			events++
			got.texts = texts[i][k]
			if fmt.Sprintf("%+q", got) != fmt.Sprintf("%+q", want[i][k]) {
				t.Errorf("read as\n%+q, want\n%+q, in\n%s", got, want[i][k], files[i])
			}
		}
	}
	t.Logf("tally: %d events read by icalendar", events)
}
