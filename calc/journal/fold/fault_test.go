package fold

import (
	"reflect"
	"testing"

	"kerfside/calc/journal/event"
)

// TestFoundCountsTheLastWord: a fault counts once, for what it was found to be
// last; a voided finding does not count.
func TestFoundCountsTheLastWord(t *testing.T) {
	f := NewFold()
	events := []string{
		`{"id":"AAAAAAAAAAAAAAAAAAAAA1","t":"0199f3c0b4000001","device":"a","kind":"fault.found","v":1,"about":"FFFFFFFFFFFFFFFFFFFFF1","body":{"cause":"tip-worn"}}`,
		`{"id":"AAAAAAAAAAAAAAAAAAAAA2","t":"0199f3c0b4000002","device":"a","kind":"fault.found","v":1,"about":"FFFFFFFFFFFFFFFFFFFFF1","body":{"cause":"air-wet"}}`,
		`{"id":"AAAAAAAAAAAAAAAAAAAAA3","t":"0199f3c0b4000003","device":"a","kind":"fault.found","v":1,"about":"FFFFFFFFFFFFFFFFFFFFF2","body":{"cause":"air-wet"}}`,
		`{"id":"AAAAAAAAAAAAAAAAAAAAA4","t":"0199f3c0b4000004","device":"a","kind":"fault.found","v":1,"about":"FFFFFFFFFFFFFFFFFFFFF3","body":{"cause":"tip-worn"}}`,
		`{"id":"AAAAAAAAAAAAAAAAAAAAA5","t":"0199f3c0b4000005","device":"a","kind":"void","v":1,"body":{"of":"AAAAAAAAAAAAAAAAAAAAA4","on":true}}`,
	}
	for _, raw := range events {
		e, err := event.Decode([]byte(raw))
		if err != nil {
			t.Fatal(err)
		}
		f.Add(e, nil, 0)
	}
	if got := f.Now().Found; len(got) != 1 || got["air-wet"] != 2 {
		t.Errorf("found = %v, want air-wet twice and nothing else", got)
	}
}

func TestFaults(t *testing.T) {
	s := (&script{T: t}).
		Add("open", 0, "session.opened", `{'rig':'rig-1'}`, about("s1")).
		Add("f", minute, "fault.seen", `{'symptom':'will not transfer','signs':['will not transfer','cuts out']}`, about("fault-1"), in("s1")).
		Add("g", 2*minute, "fault.found", `{'cause':'clamp on paint'}`, about("fault-1"), in("s1"))
	want := OpenFault{ID: "fault-1", Seen: id("f"), Symptom: "will not transfer", Signs: []string{"will not transfer", "cuts out"}, Cause: "clamp on paint", In: "s1", Rig: "rig-1", At: t0 + minute}
	if got := foldOf(s).Now().Faults; len(got) != 1 || !reflect.DeepEqual(got[0], want) {
		t.Errorf("faults = %+v, want %+v", got, want)
	}
	s.Add("n", 2*minute+1, "amend", `{'of':'`+id("f")+`','set':{'symptom':'cuts out','signs':['cuts out']}}`, in("s1"))
	want.Symptom, want.Signs = "cuts out", []string{"cuts out"}
	if got := foldOf(s).Now().Faults; len(got) != 1 || !reflect.DeepEqual(got[0], want) {
		t.Errorf("with its signs amended: %+v, want %+v", got, want)
	}
	if got := foldOf(s.Add("m", 3*minute, "fault.mended", `{}`, about("fault-1"), in("s1"))).Now().Faults; len(got) != 0 {
		t.Errorf("after mending: %+v", got)
	}
}

// TestFaultSigns: an entry that lists no signs, or no texts, has none.
func TestFaultSigns(t *testing.T) {
	for _, signs := range []string{"", `,'signs':null`, `,'signs':'spits'`, `,'signs':[1]`, `,'signs':[]`} {
		s := (&script{T: t}).Add("f", 0, "fault.seen", `{'symptom':'spits'`+signs+`}`, about("fault-1"))
		got := foldOf(s).Now().Faults
		if len(got) != 1 || got[0].Symptom != "spits" || got[0].Signs == nil || len(got[0].Signs) != 0 {
			t.Errorf("with %q: faults = %+v, want one without signs", signs, got)
		}
	}
}
