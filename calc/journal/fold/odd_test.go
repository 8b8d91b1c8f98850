package fold

import (
	"encoding/json"
	"slices"
	"testing"
)

// goodDay is a session in which everything is in order, with a line of each sort.
func goodDay(t *testing.T) *script {
	return (&script{T: t}).
		Add("rig", 0, "rig.set", `{'name':'South truck','drainEvery':1500000}`, about("rig-1")).
		Add("line", 0, "line.set", `{'name':'Tips'}`, about("line-1")).
		Add("open", minute, "session.opened", `{'rig':'rig-1','title':'Gate'}`, about("s-1")).
		Add("tip", 2*minute, "part.fitted", `{'slot':'tip','line':'line-1'}`, about("tip-1"), in("s-1")).
		Add("count", 2*minute, "stock.counted", `{'n':5}`, about("line-1"), in("s-1")).
		Add("run", 9*minute, "arc.run", run(3*minute, 5*minute, "rig-1"), in("s-1")).
		Add("fail", 9*minute, "check.answered", `{'guide':'bring-up','step':'clamp','result':'fail'}`, in("s-1")).
		Add("fault", 9*minute, "fault.seen", `{'symptom':'no-arc','signs':['no-arc']}`, about("fault-1"), in("s-1")).
		Add("found", 9*minute, "fault.found", `{'cause':'tip-worn'}`, about("fault-1"), in("s-1")).
		Add("watch", 9*minute, "watch.started", `{'ms':1800000}`, in("s-1")).
		Add("set", 9*minute, "setting.set", `{'units':'us'}`).
		Add("note", 9*minute, "note.added", `{'text':'all is well'}`, in("s-1"))
}

// TestOddEntryHidesNoOther: whatever stands in one entry of a session, all others
// are listed as they were, and it has a line itself. An entry that is odd, or of a
// newer version or of a kind that nobody knows, changes nothing that is counted.
func TestOddEntryHidesNoOther(t *testing.T) {
	good := goodDay(t)
	before := foldOf(good)
	all, values := examples(t)
	for _, kind := range []string{"hasOwnProperty", "valueOf", "__proto__", "constructor", "toString", "drone.flown", "session.flown"} {
		all[kind] = example{Body: map[string]json.RawMessage{"text": json.RawMessage(`"x"`)}}
	}
	tries := 0
	for kind, e := range all {
		try := func(body map[string]json.RawMessage, v int) {
			tries++
			text, _ := jsonOf(body)
			s := &script{T: t, Events: slices.Clone(good.Events)}
			options := []option{in("s-1"), func(m map[string]any) { m["v"] = v }}
			if e.About != "" {
				options = append(options, about(e.About))
			}
			s.Add("odd", 20*minute, kind, text, options...)
			checkOthers(t, foldOf(s), before, kind+" "+text)
		}
		for key := range e.Body {
			for _, value := range values {
				body := map[string]json.RawMessage{}
				for k, v := range e.Body {
					body[k] = v
				}
				body[key] = value
				try(body, 1)
			}
			missing := map[string]json.RawMessage{}
			for k, v := range e.Body {
				if k != key {
					missing[k] = v
				}
			}
			try(missing, 1)
		}
		try(e.Body, 2)
		try(map[string]json.RawMessage{}, 1)
	}
	t.Logf("tally: %d odd entries", tries)
}

// checkOthers compares what stood in before with what stands in after, in which
// there is one entry more.
func checkOthers(t *testing.T, after, before *Fold, what string) {
	t.Helper()
	was, err := before.Session("s-1")
	if err != nil {
		t.Fatal(err)
	}
	is, err := after.Session("s-1")
	if err != nil {
		t.Errorf("%s: %v", what, err)
		return
	}
	lines := map[string]SessionLine{}
	for _, l := range is.Lines {
		lines[l.ID] = l
	}
	for _, l := range was.Lines {
		if now, ok := lines[l.ID]; !ok || !sameJSON(now, l) {
			t.Errorf("%s: the line of %s was %+v and is %+v", what, l.ID, l, now)
		}
	}
	odd, here := lines[id("odd")]
	x := after.facts[id("odd")]
	if quiet := x.known() && slices.Contains([]string{"amend", "void", "same"}, x.kind); here == quiet || here && odd.Check == nil {
		t.Errorf("%s: has a line: %t, %+v", what, here, odd)
	}
	if e := after.settled().entries[x.id]; e != nil && (e.odd || !x.known()) {
		now, then := after.Now(), before.Now()
		if now.Session == nil {
			t.Errorf("%s: no session is open", what)
			return
		}
		now.Session.Entries--
		if !sameJSON(now, then) || !sameJSON(after.Things(), before.Things()) || !sameJSON(after.Stocks(), before.Stocks()) ||
			!sameJSON(after.Parts(), before.Parts()) || !sameJSON(after.Settings(), before.Settings()) || !sameJSON(after.Guides(9), before.Guides(9)) {
			t.Errorf("%s: it is not to count, and yet the views differ", what)
		}
	}
}

// TestOddValuePutsNoGoodOneOut: of the fields of a thing, of the findings of a
// fault and of the amendments of a time, the last that can be counts.
func TestOddValuePutsNoGoodOneOut(t *testing.T) {
	s := goodDay(t).
		Add("a", 20*minute, "session.set", `{'title':5,'rig':['x'],'site':{}}`, about("s-1")).
		Add("b", 20*minute, "rig.set", `{'name':{},'drainEvery':'soon','tips':[1]}`, about("rig-1")).
		Add("c", 20*minute, "fault.found", `{'cause':7}`, about("fault-1"), in("s-1")).
		Add("d", 20*minute, "fault.seen", `{'signs':'x'}`, about("fault-1"), in("s-1"), at(8*minute)).
		Add("e", 21*minute, "amend", `{'of':'`+id("note")+`','set':{'at':`+timeText(7*minute)+`}}`, in("s-1")).
		Add("f", 22*minute, "amend", `{'of':'`+id("note")+`','set':{'at':'noon'}}`, in("s-1"))
	v := sessionOf(s, "s-1")
	if v.Title != "Gate" || v.Rig != "rig-1" || v.Site != "" {
		t.Errorf("session = %q on %q at %q", v.Title, v.Rig, v.Site)
	}
	if n := entryOf(t, v, "note"); n.At != t0+7*minute {
		t.Errorf("the note is at %d, want %d", n.At, t0+7*minute)
	}
	if c := entryOf(t, v, "a").Check; len(c) != 3 {
		t.Errorf("three fields were passed over, said is %+v", c)
	}
	now := foldOf(s).Now()
	if r := now.Rigs[0]; r.Name != "South truck" || r.Drain.Every != 1_500_000 {
		t.Errorf("rig = %+v", r)
	}
	if f := now.Faults[0]; f.Symptom != "no-arc" || f.Cause != "tip-worn" || now.Found["tip-worn"] != 1 {
		t.Errorf("fault = %+v, found %v", f, now.Found)
	}
	if f := foldOf(s).Things().Rigs[0].Fields; string(f.Fields["name"]) != `"South truck"` || f.Fields["tips"] != nil || len(f.Also) > 0 {
		t.Errorf("fields = %s", f.Fields)
	}
}

func timeText(ms int64) string {
	text, _ := jsonOf(t0 + ms)
	return text
}
