package fold

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// aJobDone is the job of aJob with what was done beside cutting, in its first session.
func aJobDone(t *testing.T) *script {
	b := device("phone-b")
	return aJob(t).
		Add("fit-0", 10_000, "part.fitted", `{'slot':'tip','rig':'rig-1','line':'tips'}`, about("p-0")).
		Add("stop-1", minute+1000, "check.answered", `{'guide':'may-i-cut','step':'ground','result':'fail','says':'dry grass','by':'owner'}`, in("s-1"), wall(minute)).
		Add("stop-2", minute+1001, "check.answered", `{'guide':'may-i-cut','step':'fuel-near','result':'fail'}`, in("s-1"), wall(minute)).
		Add("clear", minute+2000, "check.cleared", `{'of':'`+id("stop-1")+`','why':'wetted'}`, in("s-1"), b).
		Add("go", minute+3000, "check.answered", `{'guide':'may-i-cut','step':'asked','result':'go'}`, in("s-1"), wall(minute+3000)).
		Add("c1", minute+4000, "check.answered", `{'guide':'bring-up','step':'clamp','result':'fail'}`, in("s-1")).
		Add("c2", minute+5000, "check.answered", `{'guide':'bring-up','step':'hose','result':'good'}`, in("s-1")).
		Add("c3", minute+6000, "check.answered", `{'guide':'bring-up','step':'clamp','result':'good'}`, in("s-1")).
		Add("watch", minute+7000, "watch.started", `{'ms':1800000}`, in("s-1")).
		Add("pull", 225*1000, "part.pulled", `{'why':'worn'}`, about("p-0"), in("s-1")).
		Add("fit-1", 226*1000, "part.fitted", `{'slot':'tip','line':'tips'}`, about("p-1"), in("s-1")).
		Add("drain", 227*1000, "trap.drained", `{}`, in("s-1")).
		Add("drain-2", 228*1000, "upkeep.done", `{'task':'drain'}`, in("s-1"), b).
		Add("photo", 230*1000, "photo.added", `{'sha256':'ab'}`, in("s-1")).
		Add("note", 231*1000, "note.added", `{'text':'bent'}`, in("s-1"), b).
		Add("seen", 232*1000, "fault.seen", `{'symptom':'no-arc'}`, about("fault-1"), in("s-1")).
		Add("found-1", 233*1000, "fault.found", `{'cause':'wet-air'}`, about("fault-1"), in("s-1")).
		Add("found-2", 234*1000, "fault.found", `{'cause':'tip-worn','helped':'in part'}`, about("fault-1"), in("s-1")).
		Add("tried", 235*1000, "cut.tried", `{'metal':'mild-steel','thickness':6000,'verdict':'good'}`, in("s-1")).
		Add("watch-end", 11*minute, "watch.ended", `{'of':'`+id("watch")+`'}`, in("s-1")).
		Add("late-arc", 11*minute+40_000, "arc.run", run(11*minute+20_000, 11*minute+30_000, "rig-1"), in("s-1")).
		Add("other", 12*minute+1, "note.added", `{'text':'of no session'}`)
}

func TestJobRecord(t *testing.T) {
	v := jobOf(aJobDone(t))
	ms := func(at int64) int64 { return t0 + at }
	for what, pair := range map[string][2]any{
		"parts": {v.Parts, []JobPart{
			{ID: id("pull"), At: ms(225_000), In: "s-1", Kind: "part.pulled", Part: "p-0", Rig: "rig-1", Slot: "tip", Line: "tips", Why: "worn", Device: "phone-a"},
			{ID: id("fit-1"), At: ms(226_000), In: "s-1", Kind: "part.fitted", Part: "p-1", Rig: "rig-1", Slot: "tip", Line: "tips", Device: "phone-a"},
		}},
		"watches": {v.Watches, []JobWatch{{ID: id("watch"), In: "s-1", Rig: "rig-1", Device: "phone-a", At: ms(minute + 7000), Arc: id("arc-4"), From: ms(410_000), To: ms(11 * minute), Ms: 30 * minute}}},
		"guides":  {v.Checks.Guides, []JobGuide{{Guide: "bring-up", In: "s-1", At: ms(minute + 6000), Results: []Share{{Word: "good", N: 2}}, Fails: 1}}},
		"gates": {v.Checks.Gates, []JobGate{
			{ID: id("stop-1"), At: ms(minute + 1000), In: "s-1", Rig: "rig-1", Device: "phone-a", Verdict: "stop", Stops: []JobStop{
				{ID: id("stop-1"), Step: "ground", Says: "dry grass", By: "owner", Cleared: id("clear"), ClearedAt: ms(minute + 2000), ClearedBy: "phone-b", How: "wetted"},
				{ID: id("stop-2"), Step: "fuel-near", Says: "fuel near"},
			}},
			{ID: id("go"), At: ms(minute + 3000), In: "s-1", Rig: "rig-1", Device: "phone-a", Verdict: "go", Stops: []JobStop{}},
		}},
		"photos": {v.Photos, []JobPhoto{{ID: id("photo"), At: ms(230_000), In: "s-1", Device: "phone-a", Body: []byte(`{"sha256":"ab"}`)}}},
		"notes":  {v.Notes, []JobNote{{ID: id("note"), At: ms(231_000), In: "s-1", Device: "phone-b", Text: "bent"}}},
		"faults": {v.Faults, []JobFault{{Fault: "fault-1", ID: id("found-2"), At: ms(234_000), In: "s-1", Rig: "rig-1", Symptom: "no-arc", Signs: []string{}, Cause: "tip-worn", Helped: "in part"}}},
		"drains": {v.Drains, 2},
		"tried":  {v.Tried, []JobTried{{ID: id("tried"), At: ms(235_000), In: "s-1", Rig: "rig-1", Verdict: "good", Body: []byte(`{"metal":"mild-steel","thickness":6000,"verdict":"good"}`)}}},
	} {
		if !sameJSON(pair[0], pair[1]) {
			t.Errorf("%s are\n%s, want\n%s", what, sayJSON(t, pair[0]), sayJSON(t, pair[1]))
		}
	}
}

// TestJobRecordAmended: what is removed is gone from it, and what is moved to another
// session or time is told there.
func TestJobRecordAmended(t *testing.T) {
	s := aJobDone(t)
	for i, name := range []string{"pull", "go", "photo", "found-2", "drain-2", "watch-end"} {
		s.Add(fmt.Sprintf("v-%d", i), 20*minute, "void", `{'of':'`+id(name)+`'}`, in("s-1"))
	}
	s.Add("a", 20*minute, "amend", `{'of':'`+id("note")+`','set':{'text':'bent twice'}}`, in("s-1"))
	v := jobOf(s)
	if len(v.Parts) != 1 || len(v.Checks.Gates) != 1 || len(v.Photos) != 0 || v.Drains != 1 || v.Notes[0].Text != "bent twice" || v.Faults[0].Cause != "wet-air" {
		t.Errorf("record = %s", sayJSON(t, v.JobRecord))
	}
	if w := v.Watches[0]; !w.Open || w.To != 0 || w.Arc != id("late-arc") || w.From != t0+11*minute+30_000 {
		t.Errorf("the watch goes on: %+v", w)
	}
	s.Add("out", 21*minute, "amend", `{'of':'`+id("open")+`','set':{'job':null}}`)
	if v := jobOf(s); len(v.Parts)+len(v.Checks.Guides)+len(v.Notes)+v.Drains != 0 {
		t.Errorf("without its session the job has %s", sayJSON(t, v.JobRecord))
	}
}

// TestJobPapers: a job in short tells its number, its customer, what was quoted and when it
// was left.
func TestJobPapers(t *testing.T) {
	s := aJob(t).
		Add("n", 13*minute, "job.set", `{'number':'2026-009','customer':'Heron Croft','quote':{'at':`+fmt.Sprint(t0)+`,'price':48000,'number':'2026-009','lines':['Gate']}}`, about("job-1")).
		Add("odd", 14*minute, "job.set", `{'quote':'cheap'}`, about("job-1"), device("phone-b"))
	f := foldOf(s)
	got := f.Jobs("", 0).Jobs[0].Job
	if got.Number != "2026-009" || got.Customer != "Heron Croft" || got.Quoted != t0 || got.Price != 48000 || got.Ended != t0+12*minute {
		t.Errorf("job = %+v", got)
	}
}

// TestNumbers: which jobs have which number, and what is free after the one given last.
func TestNumbers(t *testing.T) {
	for want, given := range map[string][]string{
		"1":                         {},
		"8":                         {"7"},
		"2026-010":                  {"2025-114", "2026-007", "2026-009"},
		"A-100":                     {"B-3", "A-099"},
		"Q1":                        {"5", "Q"},
		"11":                        {"10", "9"},
		"0000000000000000000000002": {"0000000000000000000000001"},
	} {
		s := &script{T: t}
		for i, number := range given {
			s.Add(fmt.Sprint("j", i), int64(i), "job.set", `{'number':'`+number+`'}`, about(fmt.Sprint("job-", i)))
		}
		if got := foldOf(s).Numbers(); got.Next != want || len(got.Numbers) != len(given) {
			t.Errorf("after %v: %+v, want %s", given, got, want)
		}
	}
	s := (&script{T: t}).
		Add("a", 0, "job.set", `{'number':'7'}`, about("job-a")).
		Add("b", 1, "job.set", `{'number':' 7 '}`, about("job-b"), device("phone-b")).
		Add("c", 2, "job.set", `{'number':'9'}`, about("job-c")).
		Add("v", 3, "void", `{'of':'`+id("c")+`'}`)
	if got := foldOf(s).Numbers(); got.Next != "8" || !sameJSON(got.Numbers, []NumberOf{{Number: "7", Jobs: []string{"job-a", "job-b"}}}) {
		t.Errorf("numbers = %+v", got)
	}
}

// TestNextNumberIsFree: no job has the number that is given next, and each number that is
// told is that of the jobs that are told with it.
func TestNextNumberIsFree(t *testing.T) {
	laws(t, func(t *rapid.T) {
		f := foldAll(genJournal(t))
		v := f.Numbers()
		for _, n := range v.Numbers {
			if n.Number == v.Next || len(n.Jobs) == 0 || !slices.IsSorted(n.Jobs) {
				t.Fatalf("next is %s, there are %+v", v.Next, v.Numbers)
			}
			for _, job := range n.Jobs {
				if of, err := f.Job(job); err != nil || of.Number != n.Number {
					t.Fatalf("%s has %q, not %q: %v", job, of.Number, n.Number, err)
				}
			}
		}
	})
}
