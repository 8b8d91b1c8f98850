package engine

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/order"
	"kerfside/calc/problem"
)

// ask makes a call through JSON both ways.
func ask[Out any](t testing.TB, d *Engine, name string, in any) Out {
	t.Helper()
	text, err := json.Marshal(in)
	if err != nil {
		t.Fatal(err)
	}
	v, err := d.Call(name, text)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if text, err = json.Marshal(v); err != nil {
		t.Fatal(err)
	}
	var out Out
	if err := json.Unmarshal(text, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

func TestEveryCallIsSpecified(t *testing.T) {
	doc := specification(t)
	for name := range New().calls {
		if !strings.Contains(doc, name) {
			t.Errorf("the specification does not tell of %s", name)
		}
	}
	for _, name := range event.Kinds() {
		if !strings.Contains(doc, name) {
			t.Errorf("the specification does not tell of the kind %s", name)
		}
	}
}

func TestCallRefuses(t *testing.T) {
	d := New()
	for name, c := range map[string]struct {
		call, in string
		kind     problem.Kind
	}{
		"no such call":    {call: "journal-burn", in: "{}", kind: problem.Unknown},
		"no JSON":         {call: "journal-fold", in: "{", kind: problem.Malformed},
		"wrong type":      {call: "journal-fold", in: `{"events":7}`, kind: problem.Malformed},
		"no such session": {call: "journal-session", in: `{"id":"nobody"}`, kind: problem.NotFound},
		"no session":      {call: "journal-session", in: `{}`, kind: problem.NotFound},
		"no such part":    {call: "journal-part", in: `{"id":"nobody"}`, kind: problem.NotFound},
		"no event":        {call: "journal-check", in: `{"raw":"{}"}`, kind: problem.Malformed},
		"no export":       {call: "journal-import", in: `{"text":"hello"}`, kind: problem.Malformed},
		"empty import":    {call: "journal-import", in: `{"text":""}`, kind: problem.Malformed},
	} {
		if v, err := d.Call(c.call, []byte(c.in)); problem.KindOf(err) != c.kind {
			t.Errorf("%s: %v, %v, want %s", name, v, err, c.kind)
		}
	}
}

// TestRestoreNamesTheBroken: segments that do not make one snapshot are all named, to be
// deleted, and the fold begins with nothing.
func TestRestoreNamesTheBroken(t *testing.T) {
	d := New()
	folded := ask[Folded](t, d, "journal-fold", map[string]any{"events": records(notes(t, "phone-a", 1500)), "keep": true})
	if len(folded.Segments) != 2 {
		t.Fatalf("%d segments: the case is not tried", len(folded.Segments))
	}
	if got := ask[Restored](t, d, "journal-restore", map[string]any{"rungs": folded.Segments}); got.L != 1500 || len(got.Stale) != 0 || d.fold.Len() != 1500 {
		t.Errorf("of a whole snapshot: %+v with %d events", got, d.fold.Len())
	}
	folded.Segments[0].Data += "\n"
	if got := ask[Restored](t, d, "journal-restore", map[string]any{"rungs": folded.Segments}); got.L != 0 || !slices.Equal(got.Stale, []string{"000000", "000001"}) || d.fold.Len() != 0 {
		t.Errorf("of a broken one: %+v with %d events", got, d.fold.Len())
	}
}

// TestFoldHandsOutWhatChanged: the first fold returns all views, a later one
// those that differ; a portion with more to come returns none.
func TestFoldHandsOutWhatChanged(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{'rig':'rig-1','title':'Gate'}`, about("s1")).
		Add("a", minute, "arc.started", `{'rig':'rig-1'}`, in("s1")).
		Add("set", 2*minute, "setting.set", `{'units':'us'}`, about("phone-a"))
	all := records(s.Events)
	d := New()
	if v := ask[Folded](t, d, "journal-fold", map[string]any{"events": all[:1], "more": true}); v.Views != nil || v.L != 1 {
		t.Errorf("a portion: %+v", v)
	}
	v := ask[Folded](t, d, "journal-fold", map[string]any{"events": all[1:2], "device": "phone-a"})
	if got := order.Keys(v.Views); !slices.Equal(got, []string{"book", "guides", "now", "rigs", "settings", "stock"}) || v.L != 2 || v.Fold != fold.FoldVersion {
		t.Errorf("the first fold: %v, l %d", got, v.L)
	}
	if v.Arc["rig-1"] != (fold.RunningArc{ID: id("a"), Start: t0 + minute, In: "s1"}) {
		t.Errorf("arc = %+v", v.Arc)
	}
	v = ask[Folded](t, d, "journal-fold", map[string]any{"events": all[2:]})
	if got := order.Keys(v.Views); !slices.Equal(got, []string{"settings"}) {
		t.Errorf("a setting changed %v", got)
	}
	bad := event.Record{Raw: `{"id":"x"}`, L: 9}
	if v = ask[Folded](t, d, "journal-fold", map[string]any{"events": []event.Record{bad}}); len(v.Views) != 0 || len(v.Refused) != 1 || v.Refused[0].L != 9 || v.L != 9 {
		t.Errorf("a record that is no event: %+v", v)
	}
}

// TestViewsKeepTheirShape holds the views to the shapes of the specification,
// by the keys they have.
func TestViewsKeepTheirShape(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{'rig':'rig-1'}`, about("s1")).
		Add("rig", 0, "rig.set", `{'name':'North'}`, about("rig-1")).
		Add("fit", 1, "part.fitted", `{'slot':'tip','rig':'rig-1'}`, about("tip-1"), in("s1")).
		Add("a", 2, "arc.started", `{'rig':'rig-1'}`, in("s1")).
		Add("w", 3, "watch.started", `{'ms':1000}`, in("s1")).
		Add("l", 4, "stock.moved", `{'n':1}`, about("tips")).
		Add("f", 5, "check.answered", `{'guide':'bring-up','step':'clamp','result':'fail'}`, in("s1")).
		Add("stop", 5, "check.answered", `{'guide':'may-i-cut','step':'wet','result':'fail'}`, in("s1")).
		Add("x", 6, "fault.seen", `{'symptom':'no arc'}`, in("s1"))
	d := New()
	views := ask[Folded](t, d, "journal-fold", map[string]any{"events": records(s.Events)}).Views
	session, err := jsonOf(ask[map[string]any](t, d, "journal-session", byID{"s1"}))
	if err != nil {
		t.Fatal(err)
	}
	views["session"] = json.RawMessage(session)
	for path, want := range map[string]string{
		"now":                           "check fails faults found gate open rigs session watch",
		"now session":                   "arcs closed cuts entries fails id job ms open opened rig site starts title",
		"now rigs 0":                    "drain filter lastArc ms name parts rig starts",
		"now rigs 0 drain":              "at due every ms",
		"now rigs 0 parts 0":            "at check fields line ms part readAt readMs reading slot starts",
		"now watch 0":                   "device ends from id in ms rig running",
		"now fails 0":                   "at guide id in result slot step",
		"now gate":                      "asked stops",
		"now gate stops 0":              "at by id in rig says site step",
		"now gate asked 0":              "at id in rig verdict",
		"now faults 0":                  "at cause id in rig seen signs symptom",
		"book":                          "sessions total",
		"rigs":                          "jobs rigs sites",
		"rigs rigs 0":                   "also by fields id",
		"stock lines 0":                 "again also by counted differs fields id n",
		"settings":                      "devices",
		"guides progress 0":             "fails guide in last opened steps",
		"guides progress 0 steps clamp": "at body device id result",
		"session":                       "also arcs by check closed cuts entries fails fields id job ms open opened rig site starts title",
		"session entries 0":             "about at body check device history id kind n o t v void wall",
	} {
		var v any
		step := strings.Fields(path)
		if err := json.Unmarshal(views[step[0]], &v); err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		for _, key := range step[1:] {
			if list, ok := v.([]any); ok {
				v = list[0]
			} else {
				v = v.(map[string]any)[key]
			}
		}
		if got := strings.Join(order.Keys(v.(map[string]any)), " "); got != want {
			t.Errorf("%s has %s, want %s", path, got, want)
		}
	}
}

// TestReplyIsTheAnswer: the text that a worker gets says what the call answers, with
// all views, with some, with none and where they are left out.
func TestReplyIsTheAnswer(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{'rig':'rig-1','title':'<a> & é'}`, about("s1")).
		Add("a", 2, "arc.started", `{'rig':'rig-1'}`, in("s1"))
	list := records(s.Events)
	spoken, called := New(), New()
	for _, in := range []map[string]any{
		{"events": list[:1], "more": true}, {"events": list[:1]}, {"events": list[1:], "keep": true}, {"events": []event.Record{}},
	} {
		text, err := jsonOf(in)
		if err != nil {
			t.Fatal(err)
		}
		reply, err := spoken.Reply("journal-fold", json.RawMessage(text))
		if err != nil {
			t.Fatal(err)
		}
		var got struct{ OK Folded }
		if err := json.Unmarshal(reply, &got); err != nil {
			t.Fatalf("%s: %v", reply, err)
		}
		want := ask[Folded](t, called, "journal-fold", in)
		if !sameJSON(got.OK, want) {
			t.Errorf("after %s the reply is %s, the answer %+v", text, reply, want)
		}
	}
	if reply, err := spoken.Reply("journal-hash", nil); err != nil || !strings.HasPrefix(string(reply), `{"ok":{"hash":"`) {
		t.Errorf("journal-hash replies %s, %v", reply, err)
	}
	if _, err := spoken.Reply("journal-dance", nil); problem.From(err).Kind != problem.Unknown {
		t.Errorf("an unknown call: %v", err)
	}
}
