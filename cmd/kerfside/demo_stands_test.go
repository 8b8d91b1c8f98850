package main

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"kerfside/calc/journal/book"
	"kerfside/calc/journal/event"
)

// TestDemoStands: what the screens are to show is there: a session of today, a job under
// way, one done and one not begun, a line below its lowest count, and no trouble left open.
func TestDemoStands(t *testing.T) {
	d, f := foldedDemo(t)
	now := f.Now()
	if now.Session == nil || now.Session.Title != "Hill gate, new latch post" || len(now.Open) != 1 {
		t.Errorf("open is %+v of %d", now.Session, len(now.Open))
	}
	if site := string(f.Things().Sites[0].Fields.Fields["name"]); site != `"Hill gate, far socket"` {
		t.Errorf("a phone that has picked no site is at %s", site)
	}
	if len(now.Fails) > 0 || len(now.Gate.Stops) > 0 || len(now.Faults) > 0 {
		t.Errorf("left open: %v %v %v", now.Fails, now.Gate.Stops, now.Faults)
	}
	for _, r := range now.Rigs {
		for _, p := range r.Parts {
			if worn := r.Rig == d.id("truck-1") && (p.Slot == "tip" || p.Slot == "electrode"); worn && (p.Ms < 4*time.Minute.Milliseconds() || p.Reading == nil) {
				t.Errorf("the %s of %s has %d min of arc and was read %s", p.Slot, r.Name, p.Ms/60_000, p.Reading)
			}
		}
	}
	if look, err := book.Make(f, book.Look{Report: "front", Now: d.now.UnixMilli()}); err != nil || !strings.HasPrefix(look.Sections[0].Rows[0].Says[0], "Most worn: ") {
		t.Errorf("the Book begins with %+v, %v", look.Sections[0].Rows[0], err)
	}
	begun := map[string]string{}
	for _, j := range f.Jobs("", 1000).Jobs {
		switch {
		case j.Open != "":
			begun[j.Name] = "open"
		case j.Done == j.Pieces:
			begun[j.Name] = "done"
		case j.Done == 0:
			begun[j.Name] = "not begun"
		default:
			begun[j.Name] = fmt.Sprintf("%d of %d", j.Done, j.Pieces)
		}
	}
	for name, is := range begun {
		want := "done"
		switch name {
		case "Hill gate, new latch post":
			want = "open"
		case "Stair stringers":
			want = "not begun"
		}
		if is != want {
			t.Errorf("%s is %s, want %s", name, is, want)
		}
	}
	due := 0
	for _, r := range f.Upkeep(d.now.UnixMilli()).Rigs {
		for _, task := range r.Tasks {
			if task.Limits.Days > 0 && d.now.UnixMilli()-task.At > task.Limits.Days*24*time.Hour.Milliseconds() {
				due++
				if task.Task != "filter" || r.Name != "Truck 1, 45 A" {
					t.Errorf("%s is due on %s", task.Task, r.Name)
				}
			}
		}
	}
	if due != 1 {
		t.Errorf("%d tasks of upkeep are due by the calendar", due)
	}
	low := 0
	for _, s := range f.Stocks().Lines {
		least, _ := event.ReadInt(s.Fields.Fields["least"])
		if s.N < least {
			low++
		}
	}
	if low != 1 {
		t.Errorf("%d stock lines are below their lowest count", low)
	}
	if at := d.events[len(d.events)-1].O.Ms(); d.now.UnixMilli()-at > 2*time.Hour.Milliseconds() {
		t.Errorf("the last entry is of %s", time.UnixMilli(at))
	}
}
