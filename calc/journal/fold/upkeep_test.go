package fold

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// anHour in ms.
const anHour = 60 * minute

// anUpkeep is a truck with two sessions, a filter that was changed in the first, oil between
// them and a drained trap in the second.
func anUpkeep(t *testing.T) *script {
	return (&script{T: t}).
		Add("rig", 0, "rig.set", `{'name':'Truck 1','drainEvery':1500000,'upkeep.oil':{'hours':3600000,'days':30},'upkeep.winch':{'days':365,'name':'Winch rope'}}`, about("rig-1")).
		Add("open", anHour, "session.opened", `{'rig':'rig-1'}`, about("s-1")).
		Add("arc-1", anHour+30*minute, "arc.run", run(anHour+20*minute, anHour+25*minute, "rig-1"), in("s-1")).
		Add("filter", anHour+40*minute, "filter.changed", `{}`, in("s-1")).
		Add("arc-2", anHour+50*minute, "arc.run", run(anHour+45*minute, anHour+48*minute, "rig-1"), in("s-1")).
		Add("close", 2*anHour, "session.closed", `{}`, about("s-1")).
		Add("oil", 24*anHour, "upkeep.done", `{'task':'oil','rig':'rig-1','note':'topped up'}`).
		Add("tag", 24*anHour+minute, "upkeep.done", `{'task':'extinguisher','rig':'rig-1','next':`+fmt.Sprint(t0+9000*anHour)+`}`).
		Add("open-2", 48*anHour, "session.opened", `{'rig':'rig-1'}`, about("s-2")).
		Add("drain", 48*anHour+10*minute, "trap.drained", `{}`, in("s-2")).
		Add("arc-3", 48*anHour+30*minute, "arc.run", run(48*anHour+20*minute, 48*anHour+22*minute, "rig-1"), in("s-2"))
}

// taskOf returns a task of the only rig.
func taskOf(t *testing.T, f *Fold, now int64, task string) UpkeepTask {
	t.Helper()
	v := f.Upkeep(now)
	if len(v.Rigs) != 1 {
		t.Fatalf("%d rigs", len(v.Rigs))
	}
	i := slices.IndexFunc(v.Rigs[0].Tasks, func(one UpkeepTask) bool { return one.Task == task })
	if i < 0 {
		t.Fatalf("no task %s", task)
	}
	return v.Rigs[0].Tasks[i]
}

func TestUpkeep(t *testing.T) {
	f, now := foldOf(anUpkeep(t)), int64(t0+48*anHour+anHour)
	var tasks []string
	for _, one := range f.Upkeep(now).Rigs[0].Tasks {
		tasks = append(tasks, one.Task)
	}
	if want := append(slices.Clone(upkeepTasks), "winch"); !slices.Equal(tasks, want) {
		t.Errorf("tasks are %v, want %v", tasks, want)
	}
	if r := f.Upkeep(now).Rigs[0]; r.Ms != 10*minute || r.Hours != 2*anHour || r.Name != "Truck 1" {
		t.Errorf("rig = %+v", r)
	}
	for task, want := range map[string]UpkeepTask{
		"drain":  {At: t0 + 48*anHour + 10*minute, ID: id("drain"), Ms: 2 * minute, Hours: 50 * minute, Limits: UpkeepLimits{Arc: 1_500_000}},
		"filter": {At: t0 + anHour + 40*minute, ID: id("filter"), Ms: 5 * minute, Hours: 20*minute + anHour},
		"oil":    {At: t0 + 24*anHour, ID: id("oil"), Ms: 2 * minute, Hours: anHour, Limits: UpkeepLimits{Days: 30, Hours: anHour, By: id("rig")}},
		"winch":  {Ms: 10 * minute, Hours: 2 * anHour, Limits: UpkeepLimits{Days: 365, Name: "Winch rope", By: id("rig")}},
		"lead":   {Ms: 10 * minute, Hours: 2 * anHour},
	} {
		got := taskOf(t, f, now, task)
		if got.At != want.At || got.ID != want.ID || got.Ms != want.Ms || got.Hours != want.Hours || got.Limits != want.Limits || len(got.Times) > 0 != (want.At > 0) {
			t.Errorf("%s = %+v, want %+v", task, got, want)
		}
	}
	if tag := taskOf(t, f, now, "extinguisher"); tag.Next != t0+9000*anHour || tag.Device != "phone-a" {
		t.Errorf("extinguisher = %+v", tag)
	}
	if oil := taskOf(t, f, now, "oil").Times; len(oil) != 1 || oil[0].Note != "topped up" || oil[0].Kind != "upkeep.done" {
		t.Errorf("oil was done %+v", oil)
	}
}

// TestTimeAtWork: of each way in which sessions of a rig may lie, the hours that count.
func TestTimeAtWork(t *testing.T) {
	open := func(s *script, name string, ms int64) {
		s.Add(name, ms, "session.opened", `{'rig':'rig-1'}`, about(name))
	}
	note := func(s *script, name string, ms int64) {
		s.Add("n-"+name+fmt.Sprint(ms), ms, "note.added", `{'text':'x'}`, in(name))
	}
	shut := func(s *script, name string, ms int64) {
		s.Add("c-"+name, ms, "session.closed", `{}`, about(name))
	}
	for name, test := range map[string]struct {
		of   func(*script)
		want int64 // at 30 h
	}{
		"closed": {func(s *script) { open(s, "a", anHour); shut(s, "a", 3*anHour) }, 2 * anHour},
		"a night in it": {func(s *script) {
			open(s, "a", 0)
			note(s, "a", anHour)
			note(s, "a", 10*anHour)
			shut(s, "a", 11*anHour)
		}, 2 * anHour},
		"a gap just short enough": {func(s *script) { open(s, "a", 0); shut(s, "a", 4*anHour) }, 4 * anHour},
		"a gap just too long":     {func(s *script) { open(s, "a", 0); shut(s, "a", 4*anHour+1) }, 0},
		"open until now":          {func(s *script) { open(s, "a", 28*anHour); note(s, "a", 29*anHour) }, 2 * anHour},
		"open and forgotten":      {func(s *script) { open(s, "a", 0); note(s, "a", anHour) }, anHour},
		"two phones, one morning": {func(s *script) { open(s, "a", 0); open(s, "b", anHour); shut(s, "a", 2*anHour); shut(s, "b", 3*anHour) }, 3 * anHour},
		"entered after the close": {func(s *script) { open(s, "a", 0); shut(s, "a", anHour); note(s, "a", 2*anHour) }, anHour},
		"of another rig":          {func(s *script) { s.Add("o", 0, "session.opened", `{'rig':'rig-2'}`, about("a")); shut(s, "a", anHour) }, 0},
		"removed": {func(s *script) {
			open(s, "a", 0)
			shut(s, "a", anHour)
			s.Add("v", 2*anHour, "void", `{'of':'`+id("a")+`'}`)
		}, 0},
		"an arc entered later": {func(s *script) {
			open(s, "a", 0)
			shut(s, "a", 6*anHour)
			s.Add("r", 9*anHour, "arc.run", run(3*anHour, 3*anHour+minute, "rig-1"), in("a"))
		}, 6 * anHour},
		"a clock that was ahead": {func(s *script) { open(s, "a", 40*anHour); note(s, "a", 41*anHour) }, anHour},
		"opened again after lunch": {func(s *script) {
			open(s, "a", 0)
			note(s, "a", anHour)
			s.Add("c1", anHour, "session.closed", `{}`, about("a"))
			s.Add("o2", 2*anHour, "session.opened", `{}`, about("a"))
			shut(s, "a", 3*anHour)
		}, 3 * anHour},
	} {
		s := (&script{T: t}).Add("rig", 0, "rig.set", `{'name':'Truck 1'}`, about("rig-1"))
		test.of(s)
		got := int64(-1)
		for _, r := range foldOf(s).Upkeep(t0 + 30*anHour).Rigs {
			if r.Rig == "rig-1" {
				got = r.Hours
			}
		}
		if got != test.want {
			t.Errorf("%s: %d min, want %d", name, got/minute, test.want/minute)
		}
	}
}

// TestUpkeepAmended: a task that is moved to another rig, renamed or removed counts there,
// and a drained trap is one whichever kind tells of it.
func TestUpkeepAmended(t *testing.T) {
	now := int64(t0 + 49*anHour)
	s := anUpkeep(t).Add("a", 49*anHour, "amend", `{'of':'`+id("oil")+`','set':{'task':'drain','at':`+fmt.Sprint(t0+anHour+30*minute)+`}}`)
	f := foldOf(s)
	if oil := taskOf(t, f, now, "oil"); oil.At != 0 || oil.Ms != 10*minute {
		t.Errorf("renamed, oil = %+v", oil)
	}
	if drain := taskOf(t, f, now, "drain"); drain.ID != id("drain") || len(drain.Times) != 2 || drain.Times[1].ID != id("oil") {
		t.Errorf("renamed, drain = %+v", drain)
	}
	s.Add("v", 49*anHour+1, "void", `{'of':'`+id("drain")+`'}`).Add("v2", 49*anHour+2, "void", `{'of':'`+id("tag")+`'}`)
	f = foldOf(s)
	if drain := taskOf(t, f, now, "drain"); drain.ID != id("oil") || drain.Ms != 5*minute {
		t.Errorf("removed, drain = %+v", drain)
	}
	if d := f.Now().Rigs[0].Drain; d.At != t0+anHour+30*minute || d.Ms != 5*minute {
		t.Errorf("the trap was drained %+v", d)
	}
	if tag := taskOf(t, f, now, "extinguisher"); tag.Next != 0 || tag.At != 0 {
		t.Errorf("removed, extinguisher = %+v", tag)
	}
	s.Add("off", 50*anHour, "rig.set", `{'upkeep.oil':{'off':true,'days':-1,'arc':1.5,'hours':'x'},'upkeep.winch':null}`, about("rig-1"))
	s.Add("odd", 51*anHour, "rig.set", `{'upkeep.oil':7}`, about("rig-1"), device("phone-b"))
	if got := taskOf(t, foldOf(s), now, "oil").Limits; got != (UpkeepLimits{Off: true, By: id("off")}) {
		t.Errorf("limits of oil are %+v", got)
	}
	if tasks := foldOf(s).Upkeep(now).Rigs[0].Tasks; len(tasks) != len(upkeepTasks) {
		t.Errorf("the crew's own task is still there: %+v", tasks[len(tasks)-1])
	}
}

// TestUpkeepKeepsToTheRig: what passed since a task is no more than what passed in all, its
// times go backward, and where none is later than the last arc the sums are those of the rig.
func TestUpkeepKeepsToTheRig(t *testing.T) {
	laws(t, func(t *rapid.T) {
		list := genJournal(t)
		now := t0 + rapid.Int64Range(0, 400).Draw(t, "now")*minute
		f := NewFold()
		for i, e := range list { // as it grows, so that what is kept is asked for
			o, n := confirmed(e, i)
			f.Add(e, o, n)
			f.Upkeep(now)
		}
		v := f.Upkeep(now)
		if want := foldAll(list).Upkeep(now); !sameJSON(v, want) {
			t.Fatalf("grown:\n%+v\nat once:\n%+v", v, want)
		}
		for _, r := range v.Rigs {
			for _, one := range r.Tasks {
				if one.Ms > r.Ms || one.Hours > r.Hours || one.Hours < 0 || one.At == 0 && len(one.Times) == 0 && (one.Ms != r.Ms || one.Hours != r.Hours) {
					t.Fatalf("%s of %+v", one.Task, r)
				}
				if !slices.IsSortedFunc(one.Times, func(a, b UpkeepTime) int { return int(min(1, max(-1, b.At-a.At))) }) {
					t.Fatalf("times of %s: %+v", one.Task, one.Times)
				}
			}
		}
	})
}
