package fold

import (
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/event"

	"pgregory.net/rapid"
)

// aBook is two sessions and some entries outside of any.
func aBook(t *testing.T) *script {
	return (&script{T: t}).
		Add("rig", 0, "rig.set", `{'name':'Truck North'}`, about("rig-1")).
		Add("site", 1, "site.set", `{'name':'Heron Croft'}`, about("croft")).
		Add("job", 2, "job.set", `{'name':'Gate Hinges','cut.k1':{'metal':'stainless'}}`, about("job-1")).
		Add("open-1", 10*minute, "session.opened", `{'rig':'rig-1','title':'Field gate','site':'croft','job':'job-1'}`, about("s-1")).
		Add("note-1", 11*minute, "note.added", `{'text':'Zinc ground BACK: ÄÖ'}`, in("s-1")).
		Add("fit", 12*minute, "part.fitted", `{'slot':'o-ring'}`, about("p-1"), in("s-1")).
		Add("open-2", 20*minute, "session.opened", `{'rig':'rig-2','title':'Hopper'}`, about("s-2")).
		Add("tried", 21*minute, "cut.tried", `{'metal':'mild-steel','verdict':'too-slow'}`, in("s-2")).
		Add("arc", 24*minute, "arc.run", run(22*minute, 23*minute, "rig-3"), in("s-2")).
		Add("note-2", 30*minute, "note.added", `{'text':'zinc on the shelf'}`).
		Add("seen", 31*minute, "fault.seen", `{'signs':['no-arc','hiss'],'rig':'rig-1'}`, about("f")).
		Add("tried-2", 32*minute, "cut.tried", `{'metal':'mild-steel','rig':'rig-1'}`)
}

// TestFindDays: of each filter the items that it leaves.
func TestFindDays(t *testing.T) {
	f := foldOf(aBook(t))
	for _, test := range []struct {
		filter DayFilter
		want   string
	}{
		{DayFilter{}, "cut.tried fault.seen note.added s-2 s-1 site.set rig.set"},
		{DayFilter{Find: "ZINC"}, "note.added s-1"},
		{DayFilter{Find: "zinc back"}, "s-1"},
		{DayFilter{Find: "äö"}, "s-1"},
		{DayFilter{Find: "zinc hopper"}, ""},
		{DayFilter{Find: "hinges"}, "s-1"},
		{DayFilter{Find: "croft"}, "s-1 site.set"},
		{DayFilter{Find: "north zinc"}, "s-1"},
		{DayFilter{Find: "o-ring"}, "s-1"},
		{DayFilter{Find: "too slow"}, "s-2"},
		{DayFilter{Find: "no-arc"}, "fault.seen"},
		{DayFilter{Find: "north"}, "cut.tried fault.seen s-1 rig.set"},
		{DayFilter{Rig: "rig-1"}, "cut.tried fault.seen s-1 rig.set"},
		{DayFilter{Rig: "rig-3"}, "s-2"},
		{DayFilter{Metal: "mild-steel"}, "cut.tried s-2"},
		{DayFilter{Metal: "stainless"}, "s-1"},
		{DayFilter{Metal: "mild-steel", Rig: "rig-1"}, "cut.tried"},
		{DayFilter{From: t0 + 20*minute, To: t0 + 31*minute}, "note.added s-2"},
		{DayFilter{To: t0 + 2}, "site.set rig.set"},
	} {
		if got := daysOf(f.FindDays(test.filter, DayMark{}, 0)); got != test.want {
			t.Errorf("%+v: %q, want %q", test.filter, got, test.want)
		}
	}
	if v := f.FindDays(DayFilter{Find: "zinc"}, DayMark{}, 1); !v.More || len(v.Items) != 1 {
		t.Errorf("one of two: %+v", v)
	} else if v := f.FindDays(DayFilter{Find: "zinc"}, v.Items[0].mark(), 1); v.More || daysOf(v) != "s-1" {
		t.Errorf("the other: %+v", v)
	}
}

// TestFindFollows: what is entered, amended or removed after somebody looked is found, or is
// not found any more.
func TestFindFollows(t *testing.T) {
	f := foldOf(aBook(t))
	find := func(word string) string { return daysOf(f.FindDays(DayFilter{Find: word}, DayMark{}, 0)) }
	if find("zinc") != "note.added s-1" || find("fence") != "" || find("copper") != "" {
		t.Fatal("before")
	}
	for _, e := range (&script{T: t}).
		Add("a", 40*minute, "amend", `{'of':'`+id("note-1")+`','set':{'text':'copper'}}`, in("s-1")).
		Add("v", 40*minute, "void", `{'of':'`+id("note-2")+`'}`).
		Add("n", 41*minute, "job.set", `{'name':'Fence'}`, about("job-1")).Events {
		f.Add(e, nil, 0)
	}
	if a, b, c, d := find("zinc"), find("copper"), find("fence"), find("hinges"); a != "" || b != "s-1" || c != "s-1" || d != "" {
		t.Errorf("found %q, %q, %q, %q", a, b, c, d)
	}
}

// TestFoundIsWhatIsLookedFor: pages of any size are those items of the whole list of which a
// plain look at what they hold says so, whatever was looked for before.
func TestFoundIsWhatIsLookedFor(t *testing.T) {
	laws(t, func(t *rapid.T) {
		list := genJournal(t)
		filter := DayFilter{Rig: rapid.SampledFrom([]string{"", "rig-1"}).Draw(t, "rig"), Metal: rapid.SampledFrom([]string{"", "stainless"}).Draw(t, "metal"),
			Find: rapid.SampledFrom([]string{"", "tip", "BRING-up", "wet air"}).Draw(t, "find")}
		if rapid.Bool().Draw(t, "bounded") {
			filter.From = t0 + rapid.Int64Range(0, 40).Draw(t, "from")*7000
			filter.To = filter.From + rapid.Int64Range(0, 40).Draw(t, "for")*7000
		}
		f := NewFold()
		for i, e := range list {
			o, n := confirmed(e, i)
			f.Add(e, o, n)
			f.FindDays(filter, DayMark{}, 3)
		}
		var want []DayItem
		for _, item := range f.Days(DayMark{}, 1000).Items {
			if isSought(t, f, item, filter) {
				want = append(want, item)
			}
		}
		var got []DayItem
		for mark, more := (DayMark{}), true; more; {
			page := f.FindDays(filter, mark, rapid.IntRange(1, 5).Draw(t, "size"))
			if more = page.More; len(page.Items) > 0 {
				mark = page.Items[len(page.Items)-1].mark()
			} else if more {
				t.Fatal("an empty page says that more follow")
			}
			got = append(got, page.Items...)
		}
		if sayJSON(t, got) != sayJSON(t, want) {
			t.Fatalf("%+v found\n%s\nwant\n%s", filter, sayJSON(t, got), sayJSON(t, want))
		}
	})
}

// isSought looks through all that the views say of an item.
func isSought(t *rapid.T, f *Fold, item DayItem, filter DayFilter) bool {
	at := item.mark().At
	if at < filter.From || filter.To != 0 && at >= filter.To {
		return false
	}
	lines, rigs, texts, metals := []SessionLine{}, []string{}, []string{}, []string{}
	x := f.settled()
	if item.Session != nil {
		v, err := f.Session(item.Session.ID)
		if err != nil {
			t.Fatal(err)
		}
		lines, rigs, texts = v.Lines, append(rigs, v.Rig), append(texts, v.Title)
		for rig, timeline := range x.sessions[v.ID].timelines {
			if len(timeline.union()) > 0 {
				rigs = append(rigs, rig)
			}
		}
		for _, id := range []string{v.Rig, v.Site} {
			for _, thing := range append(f.Things().Rigs, f.Things().Sites...) {
				if name, _ := event.Unquote(thing.Fields.Fields["name"]); thing.ID == id {
					texts = append(texts, name)
				}
			}
		}
		if job, err := f.Job(v.Job); err == nil {
			texts = append(texts, job.Name)
			for _, c := range job.Cuts {
				if !c.Removed {
					metals = append(metals, event.ReadBody(c.Row).Text("metal"))
				}
			}
		}
	} else {
		lines = append(lines, *item.Line)
		e := x.entries[item.Line.ID]
		rig := x.rigOf(e)
		if e.kind == "rig.set" {
			rig = x.same.of(e.about)
		}
		rigs = append(rigs, rig)
		if r := x.rigs[rig]; r != nil && rig != "" {
			texts = append(texts, r.fields.text("name"))
		}
	}
	for _, l := range lines {
		k := event.KindOf(l.Kind)
		if l.Void || k == nil || l.V > 1 || event.Missing(l.Kind, l.About, event.ReadBody(l.Body)) != "" {
			continue
		}
		texts = append(texts, sayings[l.Kind].word)
		for _, key := range sayings[l.Kind].keys {
			texts = append(texts, event.ReadBody(l.Body).Text(key))
		}
		if l.Kind == "fault.seen" {
			texts = append(texts, event.ReadBody(l.Body).Texts("signs")...)
		}
		if l.Kind == "cut.tried" {
			metals = append(metals, event.ReadBody(l.Body).Text("metal"))
		}
	}
	if item.Line != nil && item.Line.Void && filter != (DayFilter{}) {
		return false
	}
	text := strings.ReplaceAll(strings.ToLower(strings.Join(texts, "\n")), "-", " ")
	for _, word := range strings.Fields(strings.ReplaceAll(strings.ToLower(filter.Find), "-", " ")) {
		if !strings.Contains(text, word) {
			return false
		}
	}
	return (filter.Rig == "" || slices.Contains(rigs, x.same.of(filter.Rig))) && (filter.Metal == "" || slices.Contains(metals, filter.Metal))
}
