package engine

import (
	"fmt"
	"math"
	"testing"

	"kerfside/calc/journal/book"
	"kerfside/calc/journal/fold"
)

// engineOf returns an engine that has folded a script.
func engineOf(s *script) *Engine {
	e := New()
	for _, one := range s.Events {
		e.fold.Add(one, nil, 0)
	}
	return e
}

func taughtBy(s *script) book.Taught {
	s.T.Helper()
	out, err := engineOf(s).Call("journal-taught", []byte(`{"id":"job-1"}`))
	if err != nil {
		s.T.Fatal(err)
	}
	return out.(book.Taught)
}

// cutInLots writes a job whose only cut is done in lots of so many pieces, each piece of
// so many s of arc.
func cutInLots(t *testing.T, row string, seconds, pieces []int64) *script {
	s := (&script{T: t}).Add("job", 0, "job.set", `{'cut.k1':`+row+`}`, about("job-1")).
		Add("open", 0, "session.opened", `{'rig':'rig-1','job':'job-1','planned':{'cuts':{'k1':{'n':4,'arc':100}}}}`, about("s"))
	at := int64(minute)
	for i, sec := range seconds {
		ms := sec * pieces[i] * 1000
		s.Add(fmt.Sprintf("run-%d", i), at+ms, "arc.run", fmt.Sprintf(`{'start':%d,'stop':%d,'cut':'k1'}`, t0+at, t0+at+ms), in("s")).
			Add(fmt.Sprintf("done-%d", i), at+ms+1000, "cut.done", fmt.Sprintf(`{'cut':'k1','n':%d}`, pieces[i]), about("job-1"), in("s"))
		at += ms + minute
	}
	return s
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-6*math.Abs(b) }

// TestTaught: the arc of a piece and its range are what R 4.2.2 says: t.test(c(30, 34,
// 41, 35)) has the mean 35 and 27.76620317 to 42.23379683; lm(c(30, 34, 41) ~ 1, weights =
// c(1, 3, 2)) has 35.66666667 and 23.41270632 to 47.92062701. Planned are 25 s a piece.
func TestTaught(t *testing.T) {
	for _, test := range []struct {
		seconds, pieces  []int64
		arc, low, high   float64 // s
		says             string
		speed, slow, top float64 // mm/s of 700 mm
	}{
		{seconds: []int64{30, 34, 41, 35}, pieces: []int64{1, 1, 1, 1}, arc: 35, low: 27.76620317, high: 42.23379683, speed: 20, slow: 700 / 42.23379683, top: 700 / 27.76620317,
			says: "The arc burned about 1.4 times as long as planned, from 4 pieces. It may be 1.1 to 1.7 times: slower than planned."},
		{seconds: []int64{30, 34, 41}, pieces: []int64{1, 3, 2}, arc: 214.0 / 6, low: 23.41270632, high: 47.92062701, speed: 700 * 6 / 214.0, slow: 700 / 47.92062701, top: 700 / 23.41270632,
			says: "The arc burned about 1.4 times as long as planned, from 6 pieces. It may be 0.9 to 1.9 times, so the plan may be right."},
		{seconds: []int64{20}, pieces: []int64{1}, arc: 20, speed: 35,
			says: "The arc burned about 0.8 times as long as planned, from one piece. That is too little to tell how much it varies."},
	} {
		v := taughtBy(cutInLots(t, `{'metal':'mild-steel','thickness':'6mm','length':'70cm','count':'9','at':5}`, test.seconds, test.pieces))
		c := v.Cuts[0]
		if !near(c.Arc.Value, test.arc*1000) || c.Arc.Known != (test.low > 0) || test.low > 0 && (!near(c.Arc.Low, test.low*1000) || !near(c.Arc.High, test.high*1000)) {
			t.Errorf("%v: arc = %+v", test.seconds, c.Arc)
		}
		if c.Planned != 25_000 || !near(c.Ratio.Value, test.arc/25) || c.Says != test.says {
			t.Errorf("%v: ratio = %+v, %q, want %q", test.seconds, c.Ratio, c.Says, test.says)
		}
		if !near(c.Speed.Value, test.speed*1000) || !near(c.PlannedSpeed, 28_000) || test.low > 0 && (!near(c.Speed.Low, test.slow*1000) || !near(c.Speed.High, test.top*1000)) {
			t.Errorf("%v: speed = %+v, planned %v", test.seconds, c.Speed, c.PlannedSpeed)
		}
	}
}

// TestTaughtOfWhatIsNotKnown: a row without a length tells no speed, an odd plan no
// ratio, and pieces without an arc nothing.
func TestTaughtOfWhatIsNotKnown(t *testing.T) {
	s := cutInLots(t, `{'metal':'mild-steel','thickness':'soon'}`, []int64{10, 10}, []int64{1, 1}).
		Add("odd", 2*minute, "session.set", `{'planned':{'cuts':{'k1':{'n':0,'arc':1e300}}}}`, about("s"))
	v := taughtBy(s)
	if c := v.Cuts[0]; c.Speed != (book.Ranged{}) || c.Ratio != (book.Ranged{}) || c.Says != "" || c.Arc.Value != 10_000 {
		t.Errorf("cut = %+v", c)
	}
	s = (&script{T: t}).Add("job", 0, "job.set", `{'cut.k1':{}}`, about("job-1")).Add("done", 0, "cut.done", `{'cut':'k1'}`, about("job-1"))
	if v := taughtBy(s); len(v.Cuts) > 0 || len(v.Times) > 0 {
		t.Errorf("taught = %+v", v)
	}
}

// TestTimesThatAJobChanged: only those that would be others without it.
func TestTimesThatAJobChanged(t *testing.T) {
	s := cutInLots(t, `{}`, []int64{10, 10, 10}, []int64{1, 1, 1})
	old := func(name string, from int64) {
		s.Add("open-"+name, from, "session.opened", `{'rig':'rig-1','job':'job-0'}`, about(name)).
			Add("p-"+name, from+minute, "pause.started", `{'why':'air'}`, in(name)).
			Add("e-"+name, from+3*minute, "pause.ended", `{'of':'`+id("p-"+name)+`'}`, in(name))
	}
	old("s-0", 100*minute)
	s.Add("p", 5*minute, "pause.started", `{'why':'moving'}`, in("s")).Add("e", 6*minute, "pause.ended", `{'of':'`+id("p")+`'}`, in("s"))
	want := []book.TaughtTime{
		{What: "pause-moving", After: fold.Spread{N: 1, Low: minute, Median: minute, High: minute}},
		{What: "piece", After: fold.Spread{N: 2, Low: minute, Median: minute, High: minute}},
	}
	if got := taughtBy(s).Times; fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("times = %+v, want %+v", got, want)
	}
}

// TestPlannedTold: the time of the first plan is told in words no finer than its range,
// and what another phone wrote that is no plan is not told.
func TestPlannedTold(t *testing.T) {
	for planned, want := range map[string]struct{ all, cut string }{
		`{'elapsed':4000,'low':2975,'high':7260,'cuts':{'k1':{'n':4,'arc':100,'elapsed':600,'low':350,'high':1080}}}`: {"about 40 to 130 min", "about 4 to 18 min"},
		`{'elapsed':'soon','cuts':{'k1':{'n':4,'arc':100,'elapsed':600,'low':700,'high':500}}}`:                       {},
		`{'elapsed':-5}`: {},
	} {
		s := (&script{T: t}).Add("job", 0, "job.set", `{'cut.k1':{'length':'700mm','count':'4'}}`, about("job-1")).
			Add("open", 0, "session.opened", `{'rig':'rig-1','job':'job-1','planned':`+planned+`}`, about("s"))
		if got := taughtBy(s); got.Planned != want.all || got.Takes["k1"] != want.cut {
			t.Errorf("%s: %q, %q, want %+v", planned, got.Planned, got.Takes["k1"], want)
		}
	}
}
