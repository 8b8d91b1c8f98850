package fold

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// TestTimes: what the crew does between arcs is counted as what it was, and what was
// several things, too long or never ended is left out by name.
func TestTimes(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{'rig':'rig-1','job':'job-1'}`, about("s")).
		Add("guide", 0, "guide.opened", `{'guide':'torch-inspection'}`, in("s")).
		Add("a1", minute, "check.answered", `{'guide':'torch-inspection','step':'a','result':'good'}`, in("s")).
		Add("a2", 4*minute, "check.answered", `{'guide':'torch-inspection','step':'b','result':'good'}`, in("s")).
		Add("gate", 5*minute, "check.answered", `{'guide':'may-i-cut','step':'asked','result':'go','took':90000}`, in("s"))
	for _, step := range []string{"bare", "wind"} { // two stops that one tap told
		s.Add(step, 6*minute, "check.answered", `{'guide':'may-i-cut','step':'`+step+`','result':'fail','took':30000}`, in("s"), wall(6*minute))
	}
	at, n := 10*int64(minute), 0
	arc := func(cut string) {
		n++
		text, _ := jsonOf(map[string]any{"start": t0 + at, "stop": t0 + at + 30_000, "cut": cut})
		s.Add("arc-"+string(rune('a'+n)), at+30_000, "arc.run", text, in("s"))
		at += 30_000
	}
	then := func(sec int64, kind, body string, options ...option) {
		n++
		s.Add("then-"+string(rune('a'+n)), at+sec*1000, kind, body, append(options, in("s"))...)
	}
	job := about("job-1")
	arc("k1")
	then(5, "cut.done", `{'cut':'k1'}`, job)
	at += 20_000 // a piece
	arc("k1")
	then(5, "cut.done", `{'cut':'k1'}`, job)
	at += 30_000 // a piece
	arc("k1")
	at += 4_000 // struck again
	arc("k1")
	then(5, "cut.done", `{'cut':'k1'}`, job)
	at += 100_000 // a row
	arc("k2")
	then(5, "part.fitted", `{'slot':'tip'}`, about("tip-1"))
	at += 200_000 // a part
	arc("k2")
	then(5, "trap.drained", `{}`)
	at += 50_000 // a drain
	arc("k2")
	then(5, "trap.drained", `{}`)
	then(9, "part.fitted", `{'slot':'tip'}`, about("tip-2"))
	at += 300_000 // several
	arc("k2")
	then(5, "pause.started", `{'why':'air'}`)
	at += 65_000 // a pause of 60 s
	arc("")
	at += 70_000 // no cut
	arc("k2")
	at += 5 * 3600_000 // long
	arc("k2")
	then(5, "pause.started", `{'why':'cooling'}`) // open
	none := []LeftOut{}
	one := func(what string, s int64) TimeOf {
		return TimeOf{What: what, Spread: Spread{N: 1, Low: s * 1000, Median: s * 1000, High: s * 1000}, Left: none}
	}
	want := []TimeOf{
		one("again", 4), one("drain", 50), {What: "gap", Left: []LeftOut{{"long", 1}, {"no-cut", 1}, {"several", 1}}}, {What: "gate", Spread: Spread{N: 2, Low: 45_000, Median: 60_000, High: 75_000}, Left: none},
		one("guide-torch-inspection", 240), one("part", 200), one("pause-air", 60), {What: "pause-cooling", Left: []LeftOut{{"open", 1}}},
		{What: "piece", Spread: Spread{N: 2, Low: 22_500, Median: 25_000, High: 27_500}, Left: none}, one("row", 100),
	}
	if got := foldOf(s).Times("rig-1").Times; !sameJSON(got, want) {
		t.Errorf("times\n%+v, want\n%+v", got, want)
	}
	if got := foldOf(s).Times("rig-2").Times; len(got) > 0 {
		t.Errorf("of another rig: %+v", got)
	}
}

// TestSpread: against what R 4.2.2 gives, quantile(x, c(.25, .5, .75)), whose default is
// definition 7: of 1, 3, 8, 20 it says 2.5, 5.5, 11; of the whole numbers 1 to 10
// 3.25, 5.5, 7.75; of 7 three times 7.
func TestSpread(t *testing.T) {
	for _, test := range []struct {
		of   []int64
		want Spread
	}{
		{of: []int64{20_000, 1000, 8000, 3000}, want: Spread{N: 4, Low: 2500, Median: 5500, High: 11_000}},
		{of: []int64{100, 200, 300, 400, 500, 600, 700, 800, 900, 1000}, want: Spread{N: 10, Low: 325, Median: 550, High: 775}},
		{of: []int64{7}, want: Spread{N: 1, Low: 7, Median: 7, High: 7}},
		{},
	} {
		for range 5 {
			list := slices.Clone(test.of)
			rand.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
			if got := spreadOf(list); got != test.want {
				t.Errorf("spreadOf(%v) = %+v, want %+v", list, got, test.want)
			}
		}
	}
}
