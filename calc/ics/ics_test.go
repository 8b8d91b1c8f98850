package ics

import (
	"strings"
	"testing"
	"unicode/utf8"

	"kerfside/calc/problem"
)

const now = 1772381100000 // 2026-03-01T16:05:00Z

// TestCalendar: a file, whole.
func TestCalendar(t *testing.T) {
	got, err := Calendar([]Event{
		Due("upkeep.rig-x.extinguisher", "2026-03-15", "Extinguisher, blue truck", ""),
		Daily("drain.rig-x", "2026-03-01", "17:00", 1, "Drain the trap", "Open it; wait until it\nblows dry."),
		FireWatch("watch.s1", 1772380800000, 1772382630000, "Fire watch", ""),
	}, now)
	if err != nil {
		t.Fatal(err)
	}
	want := strings.ReplaceAll(`BEGIN:VCALENDAR
VERSION:2.0
PRODID:-//Kerfside//Kerfside//EN
BEGIN:VEVENT
UID:upkeep.rig-x.extinguisher@kerfside
DTSTAMP:20260301T160500Z
DTSTART;VALUE=DATE:20260315
SUMMARY:Extinguisher\, blue truck
BEGIN:VALARM
ACTION:DISPLAY
DESCRIPTION:Extinguisher\, blue truck
TRIGGER:-PT15H
END:VALARM
END:VEVENT
BEGIN:VEVENT
UID:drain.rig-x@kerfside
DTSTAMP:20260301T160500Z
DTSTART:20260301T170000
SUMMARY:Drain the trap
DURATION:PT10M
RRULE:FREQ=DAILY;INTERVAL=1
DESCRIPTION:Open it\; wait until it\nblows dry.
BEGIN:VALARM
ACTION:DISPLAY
DESCRIPTION:Drain the trap
TRIGGER:PT0S
END:VALARM
END:VEVENT
BEGIN:VEVENT
UID:watch.s1@kerfside
DTSTAMP:20260301T160500Z
DTSTART:20260301T160000Z
SUMMARY:Fire watch
DURATION:PT30M30S
BEGIN:VALARM
ACTION:DISPLAY
DESCRIPTION:Fire watch
TRIGGER;RELATED=END:PT0S
END:VALARM
END:VEVENT
END:VCALENDAR
`, "\n", "\r\n")
	if got != want {
		t.Errorf("Calendar() =\n%s\nwant\n%s", got, want)
	}
}

// TestRFC5545 holds values to the examples of the RFC.
func TestRFC5545(t *testing.T) {
	for section, c := range map[string][2]string{
		"§3.3.4 date":                 {string(On("1997-07-14")), "19970714"},
		"§3.3.5 form 1":               {string(OnAt("1998-01-18", "23:00")), "19980118T230000"},
		"§3.3.5 form 2":               {string(At(885193200_000)), "19980119T070000Z"},
		"§3.3.11 text":                {text("Project XYZ Final Review\nConference Room - 3B\nCome Prepared."), `Project XYZ Final Review\nConference Room - 3B\nCome Prepared.`},
		"§3.8.6.3 trigger":            {duration(-15 * 60), "-PT15M"},
		"§3.8.6.3 trigger at the end": {duration(5 * 60), "PT5M"},
		"§3.8.6.1 no duration":        {duration(0), "PT0S"},
	} {
		if got, want := c[0], c[1]; got != want {
			t.Errorf("%s: %q, want %q", section, got, want)
		}
	}
	if got := text("a\\b;c,d:\"e\r\nf\rg\th\x00i"); got != `a\\b\;c\,d:"e\nf\ng`+"\th i" {
		t.Errorf("text is written as %q", got)
	}
}

// TestFolded: RFC 5545 §3.1. No line has more than 75 octets, none is cut amid a
// character, and unfolded it is what it was.
func TestFolded(t *testing.T) {
	for _, bit := range []string{"a", "é", "日", "\U0001F527", "a\u0301日"} {
		for n := range 120 {
			value := "x" + strings.Repeat(bit, n)
			got, ended := strings.CutSuffix(folded("SUMMARY:"+value+"\n"), "\r\n")
			if !ended || strings.ReplaceAll(got, "\r\n ", "") != "SUMMARY:"+value {
				t.Fatalf("%q is folded as %q", value, got)
			}
			lines := strings.Split(got, "\r\n")
			for i, line := range lines {
				if len(line) > 75 || !utf8.ValidString(line) || i < len(lines)-1 && len(line) < 75-utf8.UTFMax {
					t.Fatalf("%q is folded as %q: %d octets in a line", value, got, len(line))
				}
			}
		}
	}
}

// TestSameThingSameName: what is the same replaces itself, and nothing else.
func TestSameThingSameName(t *testing.T) {
	seen := map[string]string{}
	for _, about := range []string{"a", "A", "a b", "a%20b", "a+20b", "a.b", "a@b", "é", "e\u0301", "a\r\nb", "a/b", strings.Repeat("x", 100)} {
		got := uid(about)
		if before, ok := seen[got]; ok {
			t.Errorf("%q and %q are both %s", before, about, got)
		}
		seen[got] = about
		if strings.Trim(got, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.+-_@") != "" || uid(about) != got {
			t.Errorf("%q is %q", about, got)
		}
	}
}

func TestRefused(t *testing.T) {
	for name, c := range map[string]struct {
		event Event
		now   int64
	}{
		"no such day":       {Due("a", "2026-02-29", "x", ""), now},
		"no month":          {Due("a", "2026-13-01", "x", ""), now},
		"another way":       {Due("a", "1.3.2026", "x", ""), now},
		"no hour":           {Daily("a", "2026-03-01", "24:00", 1, "x", ""), now},
		"seconds":           {Daily("a", "2026-03-01", "17:00:00", 1, "x", ""), now},
		"no words":          {Due("a", "2026-03-01", "", ""), now},
		"about nothing":     {Due("", "2026-03-01", "x", ""), now},
		"ends before":       {FireWatch("a", now, now-1000, "x", ""), now},
		"before 1970":       {FireWatch("a", -5000, now, "x", ""), now},
		"after 9999":        {FireWatch("a", (lastSecond+1)*1000, (lastSecond+2)*1000, "x", ""), now},
		"a clock far ahead": {Due("a", "2026-03-01", "x", ""), 1 << 60},
	} {
		got, err := Calendar([]Event{c.event}, c.now)
		if p := problem.From(err); err == nil || got != "" || p.Kind != problem.Malformed || p.Hint == "" {
			t.Errorf("%s: %q, %v", name, got, err)
		}
	}
	if _, err := Calendar(nil, now); problem.KindOf(err) != problem.Missing {
		t.Errorf("no events: %v", err)
	}
}
