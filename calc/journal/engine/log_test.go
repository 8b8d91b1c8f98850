package engine

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

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
)

var (
	updateLogs = flag.Bool("update", false, "write what the fold makes of the released logs")
	release    = flag.String("release", "", "write the log of this version, like v0.2")
)

const logs = "../../../testdata/journal/logs"

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
	v, err := New().Call("journal-import", []byte(in))
	if err != nil {
		t.Fatal(err)
	}
	read := v.(Imported)
	if len(read.Refused) > 0 || len(read.Events) == 0 {
		t.Fatalf("%d events are read, refused are %+v", len(read.Events), read.Refused)
	}
	f := fold.NewFold()
	for _, r := range read.Events {
		e, err := event.Decode([]byte(r.Raw))
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
	out, err := json.MarshalIndent(folded{Fold: fold.FoldVersion, Events: f.Len(), Hash: hash, State: state}, "", " ")
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
	var records []event.Record
	for i, e := range s.Events {
		r := event.Record{ID: e.ID, Raw: string(e.Raw), T: e.T}
		if i%7 != 6 { // the others were not at a server yet
			o := event.Clamp(e.T, event.LastStampOf(t0+40*24*60*minute))
			r.O = &o
		}
		records = append(records, r)
	}
	in, err := jsonOf(map[string]any{"events": records, "crew": id("osier-ford"), "device": "phone-a", "now": t0 + 41*24*60*minute})
	if err != nil {
		t.Fatal(err)
	}
	v, err := New().Call("journal-export", []byte(in))
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
	for _, e := range osierFord(t).Events {
		there[e.Kind] = true
	}
	for _, kind := range event.Kinds() {
		if !there[kind] {
			t.Errorf("osierFord writes no %s", kind)
		}
	}
}
