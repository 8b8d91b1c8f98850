package store_test

import (
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// TestNames: a name is what is seen of it, wherever it comes in.
func TestNames(t *testing.T) {
	a := onDisk(t).Access
	d, _ := storetest.Join(t, a, storetest.Crew, store.Owner, "phone-a")
	open := storetest.Invite(t, a, storetest.Crew, store.Member)
	ways := map[string]func(name string) error{
		"join": func(name string) error {
			_, _, err := a.Enrol(store.Enrolment{Secret: open.Secret, Name: name, Now: now})
			if err == nil { // it is used up
				open = storetest.Invite(t, a, storetest.Crew, store.Member)
			}
			return err
		},
		"rename a phone": func(name string) error {
			return a.ChangeDevice(storetest.Crew, d.ID, store.Change{Name: name}, "", now)
		},
		"add a crew":    func(name string) error { _, err := a.AddCrew(name, now); return err },
		"rename a crew": func(name string) error { return a.RenameCrew(storetest.Crew, name, now) },
	}
	bad := map[string]string{
		"NUL": "a\x00b", "a line end": "a\nb", "a line end behind it": "Truck 1\n", "DEL": "a\x7fb", "escape": "a\x1b[2Jb",
		"C1 escape": "a\u009b2Jb", "next line": "a\u0085b", "soft hyphen": "a\u00adb",
		"right to left": "a\u202eb", "isolate": "a\u2066b", "right-to-left mark": "a\u200fb", "Arabic letter mark": "a\u061cb",
		"zero width space": "a\u200bb", "joiner": "a\u200db", "byte order mark": "\ufeffTruck 1", "word joiner": "a\u2060b", "tag": "a\U000e0041b",
		"line separator": "a\u2028b", "paragraph separator": "a\u2029b", "filler": "\u3164", "grapheme joiner": "a\u034fb",
		"language tag": "a\U000e0001b", "unused tag": "a\U000e0002b", "selector of looks": "Truck\ufe0f 1", "the 17th": "Truck\U000e0100", "the first": "\ufe01Truck",
		"Mongolian selector": "a\u180bb", "blank Braille": "\u2800", "an object": "a\ufffcb", "noncharacter": "a\ufdd0b", "Hangul filler": "\u115f\u1160", "musical": "a\U0001d173b",
		"no character": "a\ufffdb", "no UTF-8": "a\xffb", "half of one": "a\xe2\x80",
	}
	for way, name := range ways {
		for why, text := range bad {
			p := problem.From(name(text))
			if p == nil || p.Kind != problem.Malformed || p.Field != "name" || !strings.Contains(p.Msg, "cannot be seen") || !strings.Contains(p.Hint, "type it by hand") {
				t.Errorf("%s with %s: %v", way, why, p)
			}
		}
		for _, text := range []string{strings.Repeat("é", 41), " \u00a0 ", strings.Repeat("x", 10_000), "a" + strings.Repeat("\u0301", 5), "\u0301a", "Truck \u20dd1", "T" + strings.Repeat("\u0489\u0301", 15)} {
			if p := problem.From(name(text)); p == nil || p.Kind != problem.Malformed || p.Field != "name" || p.Hint == "" {
				t.Errorf("%s with %q: %v", way, text, p)
			}
		}
		for _, text := range []string{"Truck 2", " Osier Ford Repair ", strings.Repeat("é", 40), "Грузовик №2", "トラック", "מס׳ 2", "शिविर", "Truck ✂️", "Tru\u0302\u0301ck", "ཧྐྵྨ", "รถ ที่ ๒"} {
			if err := name(text); err != nil {
				t.Errorf("%s with %q: %v", way, text, err)
			}
		}
	}
}

// TestNamesThatLookTheSame are stored the same.
func TestNamesThatLookTheSame(t *testing.T) {
	a := onDisk(t).Access
	for _, text := range []string{"Truck 2", " Truck  2 ", "Truck\u00a02", "Truck\u2003\u20092", "Truck\u30002"} {
		if err := a.RenameCrew(storetest.Crew, text, now); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		if c, err := a.CrewByID(t.Context(), storetest.Crew); err != nil || c.Name != "Truck 2" {
			t.Errorf("%q is stored as %q, %v", text, c.Name, err)
		}
	}
}

// TestShowName: a name that was taken long ago does nothing to a terminal.
func TestShowName(t *testing.T) {
	if got := store.ShowName("Truck\u009b2J\u202e 1\nx é"); got != "Truck?2J? 1?x é" {
		t.Errorf("it shows %q", got)
	}
}
