package fold

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// daysOf says what a page of days lists, sessions by their name.
func daysOf(v Days) string {
	var said []string
	for _, item := range v.Items {
		if item.Session != nil {
			said = append(said, item.Session.ID)
			continue
		}
		said = append(said, item.Line.Kind)
	}
	return strings.Join(said, " ")
}

// TestDaysHoldWhatHappenedOutside: sessions and what was entered outside of any, newest
// first; what is in a session, what a phone set for itself and the stop of an arc are not
// listed apart.
func TestDaysHoldWhatHappenedOutside(t *testing.T) {
	s := (&script{T: t}).
		Add("rig", 1*minute, "rig.set", `{'name':'Truck 1'}`, about("r")).
		Add("units", 2*minute, "setting.set", `{'units':'us'}`, about("phone-a")).
		Add("look", 3*minute, "check.answered", `{'guide':'torch-inspection','step':'tip-size','result':'change','rig':'r'}`).
		Add("fit", 4*minute, "part.fitted", `{'slot':'tip','rig':'r'}`, about("p")).
		Add("gate", 5*minute, "check.answered", `{'guide':'may-i-cut','step':'verdict','result':'good','rig':'r'}`).
		Add("open", 6*minute, "session.opened", `{'rig':'r'}`, about("s")).
		Add("drain", 7*minute, "trap.drained", `{'rig':'r'}`, in("s")).
		Add("close", 8*minute, "session.closed", `{}`, about("s")).
		Add("arc", 9*minute, "arc.started", `{'rig':'r'}`).
		Add("stop", 10*minute, "arc.stopped", `{'of':'`+id("arc")+`'}`).
		Add("new", 11*minute, "fuse.blown", `{}`)
	f := foldOf(s)
	if got, want := daysOf(f.Days(DayMark{}, 0)), "fuse.blown arc.started s part.fitted check.answered rig.set"; got != want {
		t.Errorf("listed %q, want %q", got, want)
	}
	v := f.Days(DayMark{}, 0)
	if got := v.Items[2].Session; got.Drains != 1 || got.Parts != 0 {
		t.Errorf("the session counts %+v", got)
	}
	if l := v.Items[1].Line; l.Arc == nil || l.Arc.Ms != minute || l.Arc.By != id("stop") {
		t.Errorf("the arc outside is %+v", l.Arc)
	}
	f.Add((&script{T: t}).Add("gone", 12*minute, "void", `{'of':'`+id("open")+`'}`).Events[0], nil, 0)
	if got, want := daysOf(f.Days(DayMark{}, 0)), "fuse.blown arc.started check.answered part.fitted check.answered rig.set"; got != want {
		t.Errorf("the session removed: listed %q, want %q", got, want)
	}
	f.Add((&script{T: t}).Add("moved", 13*minute, "amend", `{'of':'`+id("fit")+`','set':{'slot':'electrode','at':`+fmt.Sprint(t0+2*minute)+`}}`).Events[0], nil, 0)
	if l := f.Days(DayMark{}, 0).Items[4].Line; l.Kind != "part.fitted" || !strings.Contains(string(l.Body), "electrode") || len(l.History) != 1 {
		t.Errorf("corrected and moved, the fitting is %+v", l)
	}
}

// TestDaysArePaged: pages of any size make up the one list.
func TestDaysArePaged(t *testing.T) {
	laws(t, func(t *rapid.T) {
		f := foldAll(genJournal(t))
		whole := f.Days(DayMark{}, 1000)
		if whole.More {
			t.Fatal("a drawn journal has more than 1000 items: ask for a larger page")
		}
		size := rapid.IntRange(1, 5).Draw(t, "size")
		var items []DayItem
		for mark, more := (DayMark{}), true; more; {
			page := f.Days(mark, size)
			if more = page.More; more && len(page.Items) != size {
				t.Fatalf("a page of %d has %d items and more follow", size, len(page.Items))
			}
			items = append(items, page.Items...)
			if n := len(page.Items); n > 0 {
				mark = page.Items[n-1].mark()
			}
		}
		got, want := sayJSON(t, items), sayJSON(t, whole.Items)
		if len(whole.Items) > 0 && got != want {
			t.Fatalf("by pages of %d:\n%s\nat once:\n%s", size, got, want)
		}
		if !slices.IsSortedFunc(whole.Items, func(a, b DayItem) int {
			if m := b.mark(); a.mark().isBehind(m.At, m.ID) || a.mark() == m {
				return -1
			}
			return 1
		}) {
			t.Fatalf("not newest first: %s", want)
		}
	})
}

// TestViewOfDaysFollows: the view that is handed out after each event is that of a fold
// that begins anew, whatever changed.
func TestViewOfDaysFollows(t *testing.T) {
	laws(t, func(t *rapid.T) {
		list := genJournal(t)
		f, shown := NewFold(), json.RawMessage(nil)
		take := func() {
			changed, err := f.ChangedViews()
			if err != nil {
				t.Fatal(err)
			}
			if days, ok := changed["days"]; ok {
				shown = days
			}
		}
		take()
		for _, e := range list {
			f.Add(e, nil, 0)
			take()
		}
		for i, e := range list {
			o, n := confirmed(e, i)
			f.Add(e, o, n)
			take()
		}
		if got, want := string(shown), sayJSON(t, foldAll(list).Days(DayMark{}, dayTop)); got != want {
			t.Fatalf("handed out:\n%s\nanew:\n%s", got, want)
		}
	})
}

// TestDaysAreBounded: neither many entries nor heavy ones make the view large.
func TestDaysAreBounded(t *testing.T) {
	s := &script{T: t}
	for i := range 90 {
		s.Add(fmt.Sprintf("n-%d", i), int64(i)*minute, "note.added", `{'text':'x'}`)
	}
	for i := range 40 {
		s.Add(fmt.Sprintf("p-%d", i), int64(100+i)*minute, "photo.added", `{'thumb':'`+strings.Repeat("x", 8000)+`'}`)
	}
	v := foldOf(s).Days(DayMark{}, dayTop)
	if text := sayJSON(t, v); len(v.Items) > 10 || !v.More || len(text) > 2*dayBytes {
		t.Errorf("%d items in %d bytes", len(v.Items), len(text))
	}
	if v := foldOf(&script{T: t, Events: s.Events[:90]}).Days(DayMark{}, dayTop); len(v.Items) != dayTop || !v.More {
		t.Errorf("of 90 notes %d are in the view", len(v.Items))
	}
}

func sayJSON(t rapid.TB, v any) string {
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
