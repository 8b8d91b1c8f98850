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
		"no such job":     {call: "journal-job", in: `{"id":"nobody"}`, kind: problem.NotFound},
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
	if got := order.Keys(v.Views); !slices.Equal(got, []string{"book", "days", "guides", "jobs", "now", "rigs", "settings", "stock"}) || v.L != 2 || v.Fold != fold.FoldVersion {
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
