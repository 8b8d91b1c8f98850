package engine

import (
	"encoding/json"
	"runtime"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// TestExportAndImport: what is exported is imported as it was, dated as it was, twice
// without harm; a line that is spoilt keeps no other out.
func TestExportAndImport(t *testing.T) {
	d := New()
	list := records(notes(t, "phone-a", 5))
	o := event.Stamp(event.StampOf(t0 - 4000))
	list[2].O, list[2].N, list[2].Unsent = &o, 3, 0
	out := ask[Exported](t, d, "journal-export", map[string]any{"events": list, "crew": "c", "device": "phone-a", "now": t0})
	if out.Name != "kerfside-1760731116.jsonl" {
		t.Errorf("name = %s", out.Name)
	}
	back := ask[Imported](t, d, "journal-import", map[string]any{"text": out.Text})
	if len(back.Events) != 5 || len(back.Refused) != 0 {
		t.Fatalf("%d back, refused %+v", len(back.Events), back.Refused)
	}
	if first := back.Events[0]; first.ID != list[2].ID || first.O == nil || *first.O != o || first.Raw != list[2].Raw {
		t.Errorf("the dated one comes back as %+v", first)
	}
	if second := back.Events[1]; second.O != nil || second.Raw != list[0].Raw || second.Else.ID == "" || second.Else.ID == second.ID {
		t.Errorf("another comes back as %+v", second)
	}
	text := strings.Replace(out.Text, `"kind"`, `"sort"`, 1)
	back = ask[Imported](t, d, "journal-import", map[string]any{"text": text[:len(text)-30]})
	if len(back.Events) != 3 || len(back.Refused) != 2 || back.Refused[0].Line != 2 {
		t.Errorf("spoilt: %d back, refused %+v", len(back.Events), back.Refused)
	}
}

// TestExportWithoutCustomers: the entries that name customers are left out whole and told,
// unless they are asked for; what is in the file are the events themselves.
func TestExportWithoutCustomers(t *testing.T) {
	s := &script{T: t}
	gate, hopper := about("gate"), about("hopper")
	s.Add("name", 0, "job.set", `{'name':'Gate'}`, gate).
		Add("who", 1, "job.set", `{'customer':'Mrs Alder'}`, gate).
		Add("mixed", 2, "job.set", `{'name':'Hopper','customer':'Mr Sedge'}`, hopper).
		Add("amended", 3, "amend", `{'of':'`+id("who")+`','set':{'customer':'Mrs Alder sen.'}}`).
		Add("note", 4, "note.added", `{'text':'the customer waits','customer':'no field of a note'}`, in("s"))
	list := records(s.Events)
	out := ask[Exported](t, New(), "journal-export", map[string]any{"events": list, "now": t0})
	if want := "3 entries with a customer are left out. 1 of an older version says more of its job: that is missing too."; out.Says != want {
		t.Errorf("it says %q, want %q", out.Says, want)
	}
	for _, name := range []string{"Alder", "Sedge"} {
		if strings.Contains(out.Text, name) {
			t.Errorf("%s is in the file", name)
		}
	}
	if head, _, _ := strings.Cut(out.Text, "\n"); !strings.HasSuffix(head, `"count":2,"without":3}`) {
		t.Errorf("the head is %s", head)
	}
	back := ask[Imported](t, New(), "journal-import", map[string]any{"text": out.Text})
	if len(back.Events) != 2 || len(back.Refused) != 0 || back.Events[0].Raw != list[0].Raw || back.Events[1].Raw != list[4].Raw {
		t.Errorf("back come %+v, refused %+v", back.Events, back.Refused)
	}
	if all := ask[Exported](t, New(), "journal-export", map[string]any{"events": list, "now": t0, "customers": true}); all.Says != "" || strings.Count(all.Text, "\n") != 6 || strings.Contains(all.Text, "without") {
		t.Errorf("with customers it says %q:\n%s", all.Says, all.Text)
	}
}

// FuzzImport: what is read from a file can be exported and read again, and no
// line keeps another out.
func FuzzImport(f *testing.F) {
	f.Add(`{"kerfside":1,"crew":"c","device":"d","now":1760731116600,"count":2}` + "\n" + worked + "\n" + `{"o":"0199f3c0b4000000","raw":` + worked + "}\n")
	f.Add(`{"kerfside":1,"count":3}` + "\n[]\n\n" + worked)
	f.Fuzz(func(t *testing.T, text string) {
		v, err := importFile(struct {
			Text string `json:"text"`
		}{text})
		if err != nil {
			return
		}
		var records []event.Record
		for _, e := range v.Events {
			records = append(records, event.Record{ID: e.ID, Raw: e.Raw, T: e.T, O: e.O})
		}
		if whole, err := importFile(struct {
			Text string `json:"text"`
		}{exportOf(t, records)}); err != nil || len(whole.Events) != len(v.Events) || len(whole.Refused) != 0 {
			t.Fatalf("%d events of %q are %d once exported: %v", len(v.Events), text, len(whole.Events), err)
		}
	})
}

func exportOf(t *testing.T, records []event.Record) string {
	in, err := json.Marshal(map[string]any{"events": records, "now": t0})
	if err != nil {
		t.Fatal(err)
	}
	v, err := New().Call("journal-export", in)
	if err != nil {
		t.Fatal(err)
	}
	return v.(Exported).Text
}

// TestOverlongLineOfAFile: nor is one of a file, and it keeps no other out.
func TestOverlongLineOfAFile(t *testing.T) {
	for name, line := range map[string]string{
		"120,000 keys":          manyKeys(120_000),
		"offered again":         `{"o":"0199f3c0b4000000","raw":` + manyKeys(120_000) + `}`,
		"no JSON at all":        strings.Repeat("\x00{[", 1<<18),
		"an event that is long": strings.Replace(worked, "tip changed", strings.Repeat("x", event.MaxEvent), 1),
	} {
		file, _ := jsonOf(map[string]string{"text": `{"kerfside":1,"count":3}` + "\n" + worked + "\n" + line + "\n" + strings.Replace(worked, "Qk3v", "Qk4v", 1) + "\n"})
		v, err := New().Call("journal-import", json.RawMessage(file))
		if err != nil {
			t.Fatal(err)
		}
		if in := v.(Imported); len(in.Events) != 2 || len(in.Refused) != 1 || in.Refused[0].Error.Kind != problem.TooLarge || in.Refused[0].Line != 3 {
			t.Errorf("%s: of a file %d came in, refused %+v", name, len(in.Events), in.Refused)
		}
	}
}

// TestHungryFiles: nor does a file that somebody chose by mistake; what is good in it
// comes in all the same.
func TestHungryFiles(t *testing.T) {
	for name, c := range map[string]struct {
		filling string
		told    int
	}{"empty lines": {"\n", 0}, "one letter": {"x\n", maxRefused + 1}, "arrays in arrays": {strings.Repeat("[", 9000) + "\n", 116}} {
		in, err := jsonOf(map[string]string{"text": `{"kerfside":1,"count":2}` + "\n" + worked + "\n" + strings.Repeat(c.filling, 1<<20/len(c.filling)) + strings.Replace(worked, "Qk3v", "Qk4v", 1)})
		if err != nil {
			t.Fatal(err)
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		v, err := New().Call("journal-import", json.RawMessage(in))
		runtime.ReadMemStats(&after)
		if err != nil {
			t.Fatal(err)
		}
		got := v.(Imported)
		if len(got.Events) != 2 || len(got.Refused) != c.told {
			t.Errorf("%s: %d came in, %d refused, want 2 and %d", name, len(got.Events), len(got.Refused), c.told)
		}
		out, err := jsonOf(got)
		if held := len(out); err != nil || held > 1<<19 {
			t.Errorf("%s: the answer has %d bytes, %v", name, held, err)
		}
		if took := after.TotalAlloc - before.TotalAlloc; c.told == 0 && took > 16<<20 {
			t.Errorf("%s: it took %d bytes of memory", name, took)
		}
	}
}
