package journal

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var (
	updateLogs = flag.Bool("update", false, "write what the fold makes of the released logs")
	release    = flag.String("release", "", "write the log of this version, like v0.2")
)

const logs = "../../testdata/journal/logs"

// folded is what a log is expected to come to.
type folded struct {
	Fold   int             `json:"fold"`
	Events int             `json:"events"`
	Hash   string          `json:"hash"`
	State  json.RawMessage `json:"state"`
}

// TestReleasedLogs: whatever a released version wrote is read to the last event
// and comes to the state that is written beside it. testdata/journal/logs/README.md
// says what to do when that is to change.
func TestReleasedLogs(t *testing.T) {
	if *release != "" {
		writeRelease(t, *release)
	}
	paths, err := filepath.Glob(filepath.Join(logs, "*.jsonl"))
	if err != nil || len(paths) == 0 {
		t.Fatalf("no log of a released version: %v", err)
	}
	for _, path := range paths {
		t.Run(filepath.Base(path), func(t *testing.T) {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			got := foldLog(t, string(text))
			beside := strings.TrimSuffix(path, ".jsonl") + ".json"
			if *updateLogs || *release != "" && strings.Contains(path, *release) {
				if err := os.WriteFile(beside, got, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(beside)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(got, want) {
				t.Errorf("%s comes to another state than %s. If that is meant, raise FoldVersion, run this test with -update and read the difference.", path, beside)
			}
		})
	}
}

// foldLog returns what the text of an export comes to.
func foldLog(t *testing.T, text string) []byte {
	in, err := jsonOf(map[string]string{"text": text})
	if err != nil {
		t.Fatal(err)
	}
	v, err := NewDesk().Call("journal-import", []byte(in))
	if err != nil {
		t.Fatal(err)
	}
	read := v.(Imported)
	if len(read.Refused) > 0 || len(read.Events) == 0 {
		t.Fatalf("%d events are read, refused are %+v", len(read.Events), read.Refused)
	}
	f := NewFold()
	for _, r := range read.Events {
		e, err := Decode([]byte(r.Raw))
		if err != nil {
			t.Fatal(err)
		}
		f.Add(e, r.O, 0)
	}
	state, err := f.State()
	if err != nil {
		t.Fatal(err)
	}
	hash, err := f.Hash()
	if err != nil {
		t.Fatal(err)
	}
	out, err := json.MarshalIndent(folded{FoldVersion, f.Len(), hash, state}, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return append(out, '\n')
}

// writeRelease writes the log of a version that has none yet.
func writeRelease(t *testing.T, version string) {
	path := filepath.Join(logs, version+".jsonl")
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		t.Fatalf("%s is there, and never written again: %v", path, err)
	}
	s := osierFord(t)
	var records []Record
	for i, e := range s.events {
		r := Record{ID: e.ID, Raw: string(e.Raw), T: e.T}
		if i%7 != 6 { // the others were not at a server yet
			o := Clamp(e.T, LastStampOf(t0+40*24*60*minute))
			r.O = &o
		}
		records = append(records, r)
	}
	in, err := jsonOf(map[string]any{"events": records, "crew": id("osier-ford"), "device": "phone-a", "now": t0 + 41*24*60*minute})
	if err != nil {
		t.Fatal(err)
	}
	v, err := NewDesk().Call("journal-export", []byte(in))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(v.(Exported).Text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// TestTheNextLogHoldsEveryKind: what a release will write has all kinds in it.
func TestTheNextLogHoldsEveryKind(t *testing.T) {
	there := map[string]bool{}
	for _, e := range osierFord(t).events {
		there[e.Kind] = true
	}
	for _, kind := range Kinds() {
		if !there[kind] {
			t.Errorf("osierFord writes no %s", kind)
		}
	}
}

// osierFord is a month of Osier Ford Repair, which does not exist: two trucks,
// two phones, one of them with a clock a year ahead for a day.
func osierFord(t *testing.T) *script {
	const day = 24 * 60 * minute
	s := &script{t: t}
	b, one, two := device("phone-b"), about("truck-1"), about("truck-2")
	s.add("rig-1", 0, "rig.set", `{'name':'Truck 1','min_current':'20A','max_current':'40A','drainEvery':1500000}`, one)
	s.add("rig-2", 0, "rig.set", `{'name':'Truck 2','max_current':'60A'}`, two, b)
	s.add("rig-2b", 9000, "rig.set", `{'name':'Lorry 2'}`, two)
	s.add("rig-2c", 60_000, "rig.set", `{'name':'Truck 2','min_current':null}`, two, b, over(id("rig-2b")))
	s.add("site-1", 2000, "site.set", `{'name':'Heron Croft','ground':'dry grass'}`, about("heron-croft"))
	s.add("job-1", 3000, "job.set", `{'name':'Gate and hopper'}`, about("gate"))
	s.add("units", 4000, "setting.set", `{'units':'metric','look':'night'}`, about("phone-a"))
	s.add("tips", 5000, "line.set", `{'name':'Tips 40 A','price':'3.10'}`, about("tip-line"))
	s.add("tips-in", 6000, "stock.moved", `{'n':10,'why':'bought'}`, about("tip-line"))
	s.add("late-amend", 6500, "amend", `{'of':'`+id("arc-2")+`','set':{'starts':3},'why':'heard three'}`, in("s1"))
	for i, slot := range []string{"cup", "tip", "diffuser", "electrode"} {
		s.add("fit-"+slot, 7000+int64(i), "part.fitted", `{'slot':'`+slot+`','rig':'truck-1','line':'tip-line'}`, about("p-"+slot))
	}
	s.add("open-1", day, "session.opened", `{'rig':'truck-1','title':'Field gate, hinge side','site':'heron-croft','job':'gate'}`, about("s1"))
	s.add("title", day+1000, "session.set", `{'title':'Field gate'}`, about("s1"), b)
	s.add("bring-up", day+2000, "guide.opened", `{'guide':'bring-up'}`, in("s1"))
	s.add("clamp", day+3000, "check.answered", `{'guide':'bring-up','step':'clamp','result':'fail'}`, in("s1"))
	s.add("clamp-ok", day+4000, "check.answered", `{'guide':'bring-up','step':'clamp','result':'good'}`, in("s1"))
	s.add("cleared", day+5000, "check.cleared", `{'of':'`+id("clamp")+`','why':'paint ground off'}`, in("s1"))
	s.add("hose", day+6000, "check.answered", `{'guide':'bring-up','step':'hose','result':'change'}`, in("s1"), b)
	s.add("watch", day+7000, "watch.started", `{'ms':3600000}`, in("s1"))
	s.add("arc-1", day+minute, "arc.started", `{'rig':'truck-1'}`, in("s1"), wall(day+minute))
	s.add("arc-1b", day+minute+5000, "arc.started", `{'rig':'truck-1'}`, in("s1"), b, wall(day+minute+4000))
	s.add("stop-1b", day+minute+50_000, "arc.stopped", `{'of':'`+id("arc-1b")+`','starts':2}`, in("s1"), b, wall(day+minute+49_000))
	s.add("stop-1", day+minute+80_000, "arc.stopped", `{'of':'`+id("arc-1")+`'}`, in("s1"), wall(day+minute+80_000))
	s.add("arc-2", day+5*minute, "arc.run", `{'rig':'truck-1','start':1760817800000,'stop':1760817890000,'starts':2}`, in("s1"))
	s.add("arc-lost", day+9*minute, "arc.started", `{}`, in("s1"))
	s.add("drain", day+10*minute, "trap.drained", `{'rig':'truck-1'}`, in("s1"), at(day+8*minute))
	s.add("filter", day+11*minute, "filter.changed", `{}`, in("s1"))
	s.add("tried", day+12*minute, "cut.tried", `{'rig':'truck-1','metal':'mild-steel','thickness':6000,'amps':40,'pressure':500000,'speed':15000,'verdict':'good'}`, in("s1"))
	s.add("note", day+13*minute, "note.added", `{'text':'Zinc ground back: ½ \\u00e9 \\ud83d\\udd25 <b>'}`, in("s1"))
	s.add("photo", day+14*minute, "photo.added", `{'sha256':'`+strings.Repeat("ab", 32)+`','bytes':1234,'w':640,'h':480,'thumb':'data:image/jpeg;base64,AA=='}`, in("s1"))
	s.add("read-1", day+15*minute, "part.reading", `{'dmin':1010,'dmax':1060,'pit':300}`, about("p-tip"), in("s1"))
	s.add("no-arc", day+16*minute, "fault.seen", `{'symptom':'no arc at all','signs':['no pilot','click'],'rig':'truck-1'}`, about("fault-1"), in("s1"))
	s.add("cause", day+17*minute, "fault.found", `{'cause':'worn-electrode'}`, about("fault-1"), in("s1"))
	s.add("mended", day+18*minute, "fault.mended", `{'how':'new electrode'}`, about("fault-1"), in("s1"))
	s.add("pull", day+19*minute, "part.pulled", `{'why':'pit','rig':'truck-1'}`, about("p-electrode"), in("s1"))
	s.add("refit", day+20*minute, "part.fitted", `{'slot':'electrode','rig':'truck-1'}`, about("p-electrode-2"), in("s1"))
	s.add("same", day+21*minute, "same", `{'as':'p-electrode-2'}`, about("p-electrode-b"), b)
	s.add("refit-b", day+20*minute+500, "part.fitted", `{'slot':'electrode','rig':'truck-1'}`, about("p-electrode-b"), b)
	s.add("watch-end", day+90*minute, "watch.ended", `{'of':'`+id("watch")+`'}`, in("s1"))
	s.add("close-1", day+91*minute, "session.closed", `{'left':'clean'}`, about("s1"))
	s.add("open-2", 380*day, "session.opened", `{'rig':'truck-2','title':'Hopper patch'}`, about("s2"), b)
	s.add("slip", 380*day+minute, "note.added", `{'text':'wrong truck'}`, in("s2"), b)
	s.add("hide", 380*day+2*minute, "void", `{'of':'`+id("slip")+`','on':true,'why':'slip'}`, in("s2"), b)
	s.add("hide-fit", 9*day, "void", `{'of':'`+id("fit-cup")+`','on':true}`)
	s.add("show-fit", 9*day+1000, "void", `{'of':'`+id("fit-cup")+`','on':false}`, b)
	s.add("count", 10*day, "stock.counted", `{'n':4}`, about("tip-line"), at(9*day))
	s.add("count-fix", 11*day, "amend", `{'of':'`+id("count")+`','set':{'n':5,'at':1761500000000},'why':'one in the drawer'}`, b)
	s.add("taken", 12*day, "stock.moved", `{'n':-7}`, about("tip-line"), b)
	s.add("tomorrow", 13*day, "drone.flown", `{'over':'weir'}`, in("s2"), func(m map[string]any) { m["mood"] = []any{1, map[string]any{"deep": nil}} })
	s.add("tomorrow-2", 14*day, "note.added", `{'text':{'rich':true}}`, in("s2"), func(m map[string]any) { m["v"] = 2 })
	return s
}
