package main

import (
	"slices"
	"testing"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
)

// foldedDemo is the demo and what a phone makes of it.
func foldedDemo(t *testing.T) (*demoCrew, *fold.Fold) {
	t.Helper()
	d := newDemo(time.Now())
	if d.err != nil {
		t.Fatal(d.err)
	}
	f := fold.NewFold()
	for i, e := range d.events {
		f.Add(e.Event, &e.O, int64(i+1))
	}
	return d, f
}

// TestDemoFolds: each entry is of a kind that the app knows, all of them are counted, and
// nothing about them is odd.
func TestDemoFolds(t *testing.T) {
	d, f := foldedDemo(t)
	if n := f.Len(); n != len(d.events) || n < 600 || n > 2500 {
		t.Errorf("%d entries are folded of %d", n, len(d.events))
	}
	var last event.Stamp
	kinds := map[string]int{}
	for _, e := range d.events {
		kinds[e.Event.Kind]++
		if !event.IsKnown(e.Event.Kind, e.Event.V) {
			t.Errorf("no app knows the kind %s", e.Event.Kind)
		}
		if e.O < last || e.O.Ms() > d.now.UnixMilli() {
			t.Errorf("%s stands at %d, after %d", e.Event.Kind, e.O.Ms(), last.Ms())
		}
		last = e.O
	}
	odd := func(where string, list []fold.Warning) {
		for _, w := range list {
			t.Errorf("%s: %s %s", where, w.What, w.Msg)
		}
	}
	odd("now", f.Now().Check)
	for _, p := range f.Parts() {
		odd("part", p.Check)
	}
	for before := ""; ; {
		book := f.Book(before, 0)
		for _, s := range book.Sessions {
			before = s.ID
			v, err := f.Session(s.ID)
			if err != nil {
				t.Fatal(err)
			}
			odd(s.Title, v.Check)
			for _, l := range v.Lines {
				odd(s.Title+", "+l.Kind, l.Check)
			}
		}
		if len(book.Sessions) == 0 {
			break
		}
	}
	for mark := (fold.DayMark{}); ; {
		days := f.Days(mark, 0)
		for _, item := range days.Items {
			if l := item.Line; l != nil {
				odd(l.Kind, l.Check)
				mark = fold.DayMark{At: l.At, ID: l.ID}
			} else {
				mark = fold.DayMark{At: item.Session.Opened, ID: item.Session.ID}
			}
		}
		if !days.More {
			break
		}
	}
	for _, j := range f.Jobs("", 1000).Jobs {
		v, err := f.Job(j.ID)
		if err != nil {
			t.Fatal(err)
		}
		odd(v.Name, v.Warnings)
		if len(v.Also) > 0 {
			t.Errorf("%s has what was overwritten: %v", v.Name, v.Also)
		}
	}
	for _, s := range f.Stocks().Lines {
		if s.N < 0 || s.Again {
			t.Errorf("%s has %d pieces", s.Fields.Fields["name"], s.N)
		}
	}
	for _, kind := range event.Kinds() {
		if kinds[kind] == 0 && !slices.Contains([]string{"same", "session.set", "void"}, kind) {
			t.Errorf("nothing in the demo is of kind %s", kind)
		}
	}
}

// TestDemoIsAlike: but for its dates the demo is the same each time.
func TestDemoIsAlike(t *testing.T) {
	now := time.Now()
	a, b, later := newDemo(now), newDemo(now), newDemo(now.AddDate(0, 0, 3))
	if len(a.events) != len(b.events) || len(a.events) != len(later.events) {
		t.Fatalf("%d, %d and %d entries", len(a.events), len(b.events), len(later.events))
	}
	for i := range a.events {
		if string(a.events[i].Event.Raw) != string(b.events[i].Event.Raw) {
			t.Fatalf("%s and %s", a.events[i].Event.Raw, b.events[i].Event.Raw)
		}
		if x, y := a.events[i].Event, later.events[i].Event; x.ID != y.ID || x.Kind != y.Kind {
			t.Fatalf("%s %s and, three days later, %s %s", x.Kind, x.ID, y.Kind, y.ID)
		}
	}
}
