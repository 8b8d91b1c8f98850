package fold

import (
	"encoding/json"
	"testing"
)

// aJob is a job of three cuts, in two sessions. All times are worked by hand.
func aJob(t *testing.T) *script {
	job, b := about("job-1"), device("phone-b")
	arc := func(from, to int64, cut string) string {
		text, _ := jsonOf(map[string]any{"rig": "rig-1", "start": t0 + from*1000, "stop": t0 + to*1000, "starts": 2, "cut": cut})
		return text
	}
	return (&script{T: t}).
		Add("job", 0, "job.set", `{'name':'Gate','rig':'rig-1','cut.k1':{'metal':'mild-steel','count':'3','at':2},'cut.k2':{'metal':'stainless','at':1}}`, job).
		Add("row", 1000, "job.set", `{'cut.k3':{'count':2,'at':3}}`, job, b).
		Add("open", minute, "session.opened", `{'rig':'rig-1','job':'job-1','planned':{'elapsed':600,'cuts':{'k1':{'n':3,'arc':60}}}}`, about("s-1")).
		Add("arc-1", 10*minute, "arc.run", arc(120, 150, "k1"), in("s-1")).
		Add("arc-1b", 10*minute, "arc.run", arc(140, 160, ""), in("s-1"), b). // the same arc, heard by another phone
		Add("arc-2", 10*minute, "arc.run", arc(200, 220, "k1"), in("s-1")).
		Add("wait", 230*1000, "pause.started", `{'why':'air'}`, in("s-1")).
		Add("wait-end", 290*1000, "pause.ended", `{'of':'`+id("wait")+`'}`, in("s-1")).
		Add("arc-3", 10*minute, "arc.run", arc(300, 310, "k2"), in("s-1")).
		Add("arc-4", 10*minute, "arc.run", arc(400, 410, ""), in("s-1")).
		Add("done-1", 220*1000, "cut.done", `{'cut':'k1'}`, job, in("s-1")).
		Add("done-2", 221*1000, "cut.done", `{'cut':'k1','n':1}`, job, in("s-1"), b).
		Add("done-3", 310*1000, "cut.done", `{'cut':'k2'}`, job, in("s-1")).
		Add("close", 12*minute, "session.closed", `{}`, about("s-1")).
		Add("open-2", 24*60*minute, "session.opened", `{'rig':'rig-1','job':'job-1'}`, about("s-2")).
		Add("arc-5", 25*60*minute, "arc.run", arc(24*3600+30, 24*3600+60, "k1"), in("s-2")).
		Add("moving", 24*60*minute+70*1000, "pause.started", `{'why':'moving'}`, in("s-2"))
}

func jobOf(s *script) JobView {
	s.T.Helper()
	v, err := foldOf(s).Job("job-1")
	if err != nil {
		s.T.Fatal(err)
	}
	return v
}

// cutOf returns a cut of a job.
func cutOf(t *testing.T, v JobView, key string) JobCut {
	t.Helper()
	for _, c := range v.Cuts {
		if c.Cut == key {
			return c
		}
	}
	t.Fatalf("the job has no cut %s", key)
	return JobCut{}
}

func TestJob(t *testing.T) {
	v := jobOf(aJob(t))
	var order string
	for _, c := range v.Cuts {
		order += c.Cut + " "
	}
	if order != "k2 k1 k3 " {
		t.Errorf("the cuts are %s", order)
	}
	k1 := cutOf(t, v, "k1")
	want := CutWork{Cut: "k1", Done: 2, Ms: 90_000, Starts: 6, Arcs: 4, Elapsed: 100_000 + 60_000 + 60_000, From: t0 + 120_000, To: t0 + (24*3600+60)*1000, Waits: []Waited{}}
	if !sameJSON(k1.CutWork, want) || k1.Count != 3 || k1.Left != 1 {
		t.Errorf("k1 = %+v", k1)
	}
	k2 := cutOf(t, v, "k2")
	if k2.Elapsed != 90_000 || !sameJSON(k2.Waits, []Waited{{Why: "air", N: 1, Ms: 60_000}}) || k2.Left != 0 {
		t.Errorf("k2 = %+v", k2)
	}
	if k3 := cutOf(t, v, "k3"); k3.Left != 2 || k3.Ms != 0 {
		t.Errorf("k3 = %+v", k3)
	}
	if v.Loose.Ms != 10_000 || v.Loose.Arcs != 1 || v.Ms != 110_000 || v.Starts != 10 {
		t.Errorf("loose = %+v, of %d ms, %d starts", v.Loose, v.Ms, v.Starts)
	}
	if len(v.Work) != 2 || string(v.Work[0].Planned) != `{"elapsed":600,"cuts":{"k1":{"n":3,"arc":60}}}` || string(v.Work[1].Planned) != "null" {
		t.Errorf("sessions = %+v", v.Work)
	}
	if v.Rows != 3 || v.RowsDone != 1 || v.Pieces != 6 || v.Done != 3 || v.Open != "s-2" || v.Sessions != 2 || v.At != t0+24*3600_000 {
		t.Errorf("in short = %+v", v.Job)
	}
	if v.Waiting == nil || *v.Waiting != (Waiting{ID: id("moving"), Why: "moving", At: t0 + 24*3600_000 + 70_000}) {
		t.Errorf("waiting = %+v", v.Waiting)
	}
}

// TestCutTakenOff: what was cut for it is told all the same.
func TestCutTakenOff(t *testing.T) {
	s := aJob(t).
		Add("off-1", 30*60*minute, "job.set", `{'cut.k1':null}`, about("job-1"), supersedes(id("job"))).
		Add("off-3", 30*60*minute, "job.set", `{'cut.k3':null}`, about("job-1"), supersedes(id("row")))
	v := jobOf(s)
	if k1 := cutOf(t, v, "k1"); !k1.Removed || k1.Done != 2 || k1.Left != 0 || string(k1.Row) != `{"metal":"mild-steel","count":"3","at":2}` {
		t.Errorf("k1 = %+v", k1)
	}
	if len(v.Cuts) != 2 || v.Rows != 1 {
		t.Errorf("%d cuts, %d rows", len(v.Cuts), v.Rows)
	}
	s.Add("back", 31*60*minute, "void", `{'of':'`+id("off-1")+`'}`)
	if k1 := cutOf(t, jobOf(s), "k1"); k1.Removed || k1.Left != 1 {
		t.Errorf("brought back, k1 = %+v", k1)
	}
}

// TestTwoPhonesOnOneList: cuts that two phones add both stay; where both change one, the
// loser is shown unless the winner had seen it.
func TestTwoPhonesOnOneList(t *testing.T) {
	b := device("phone-b")
	s := aJob(t).
		Add("a", 2*minute, "job.set", `{'cut.k1':{'count':'4','at':2},'cut.k8':{'at':8}}`, about("job-1")).
		Add("b", 3*minute, "job.set", `{'cut.k1':{'count':'5','at':2},'cut.k9':{'at':9}}`, about("job-1"), b)
	v := jobOf(s)
	if k1 := cutOf(t, v, "k1"); k1.Count != 5 || v.Rows != 5 {
		t.Errorf("k1 = %+v of %d rows", k1, v.Rows)
	}
	if len(v.Also) != 2 || v.Also[1].Field != "cut.k1" || v.Also[1].ID != id("a") { // and what was entered first
		t.Errorf("also = %+v", v.Also)
	}
}

// TestWrongEntriesOfAJob: hiding, amending and moving entries re-computes what they told.
func TestWrongEntriesOfAJob(t *testing.T) {
	s := aJob(t).
		Add("v1", 2*minute, "void", `{'of':'`+id("done-2")+`'}`).
		Add("v2", 2*minute, "void", `{'of':'`+id("wait")+`'}`).
		Add("a1", 2*minute, "amend", `{'of':'`+id("arc-4")+`','set':{'cut':'k2'}}`).
		Add("a2", 2*minute, "amend", `{'of':'`+id("done-3")+`','set':{'n':2}}`)
	v := jobOf(s)
	if k1, k2 := cutOf(t, v, "k1"), cutOf(t, v, "k2"); k1.Done != 1 || k2.Ms != 20_000 || len(k2.Waits) != 0 || k2.Done != 2 {
		t.Errorf("k1 = %+v, k2 = %+v", k1, k2)
	}
	if v.Loose.Ms != 0 || !sameJSON(v.Warnings, []Warning{{What: "more-done", ID: id("job"), Msg: "more pieces are done than the list has"}}) {
		t.Errorf("loose = %+v, check = %+v", v.Loose, v.Warnings)
	}
	s.Add("a3", 3*minute, "amend", `{'of':'`+id("open")+`','set':{'job':null}}`)
	if v := jobOf(s); v.Sessions != 1 || v.Ms != 30_000 || v.Done != 2 {
		t.Errorf("without its first session: %+v", v.Job)
	}
}

// TestPauses: how long each pause of a session is.
func TestPauses(t *testing.T) {
	const h = 60 * minute
	arc := func(from int64) string { return run(from, from+minute, "rig-1") }
	for name, test := range map[string]struct {
		of   func(*script)
		want []int64 // ms of each
	}{
		"told": {func(s *script) { s.Add("e", 5*minute, "pause.ended", `{'of':'`+id("p")+`'}`, in("s")) }, []int64{4 * minute}},
		"told twice": {func(s *script) {
			s.Add("e", 5*minute, "pause.ended", `{'of':'`+id("p")+`'}`, in("s")).Add("f", 6*minute, "pause.ended", `{'of':'`+id("p")+`'}`, in("s"))
		}, []int64{4 * minute}},
		"by the arc": {func(s *script) { s.Add("r", 9*minute, "arc.run", arc(4*minute), in("s")) }, []int64{3 * minute}},
		"arc before told": {func(s *script) {
			s.Add("r", 9*minute, "arc.run", arc(4*minute), in("s")).Add("e", 5*minute, "pause.ended", `{'of':'`+id("p")+`'}`, in("s"))
		}, []int64{3 * minute}},
		"open":           {func(*script) {}, []int64{0}},
		"told next day":  {func(s *script) { s.Add("e", 5*h, "pause.ended", `{'of':'`+id("p")+`'}`, in("s")) }, []int64{0}},
		"of another rig": {func(s *script) { s.Add("r", 9*minute, "arc.run", run(4*minute, 5*minute, "rig-2"), in("s")) }, []int64{0}},
		"two that overlap": {func(s *script) {
			s.Add("p2", 2*minute, "pause.started", `{'why':'parts'}`, in("s"), device("phone-b")).Add("r", 9*minute, "arc.run", arc(4*minute), in("s"))
		}, []int64{3 * minute, 0}},
	} {
		s := (&script{T: t}).Add("o", 0, "session.opened", `{'rig':'rig-1'}`, about("s")).Add("p", minute, "pause.started", `{'why':'air'}`, in("s"))
		test.of(s)
		x := foldOf(s).settled()
		got := []int64{}
		for _, w := range x.sessions["s"].waits(x) {
			got = append(got, w.stop-w.start)
		}
		if !sameJSON(got, test.want) {
			t.Errorf("%s: %v, want %v", name, got, test.want)
		}
	}
}

// TestOddCuts: what stands on a list and cannot be is passed over, and so is what says of
// more pieces than can be.
func TestOddCuts(t *testing.T) {
	s := aJob(t)
	for i, body := range []string{`{'cut.k1':'x','cut.k7':[1],'cut.':{}}`, `{'rig':7,'window':{}}`} {
		s.Add("odd-"+string(rune('a'+i)), 2*minute, "job.set", body, about("job-1"))
	}
	for i, body := range []string{`{'cut':'k1','n':0}`, `{'cut':'k1','n':100001}`, `{'cut':'k1','n':'x'}`, `{'n':1}`} {
		s.Add("odd-done-"+string(rune('a'+i)), 2*minute, "cut.done", body, about("job-1"), in("s-1"))
	}
	was, is := jobOf(aJob(t)), jobOf(s)
	is.By, was.By = nil, nil
	if !sameJSON(is, was) {
		a, _ := json.Marshal(was)
		b, _ := json.Marshal(is)
		t.Errorf("was\n%s\nis\n%s", a, b)
	}
}
