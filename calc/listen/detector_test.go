package listen

import (
	"encoding/json"
	"math"
	"testing"

	"kerfside/calc/listen/listentest"
)

// burn is a scene in a quiet yard with one arc.
func burn(seconds float64, arc span, seed uint64) *listentest.Scene {
	s := listentest.New(seconds, seed)
	s.Faint(-75)
	s.Arc(arc, -30)
	return s
}

// TestTheTimeToBeSureIsNotLost: edges lie where the sound changed.
func TestTheTimeToBeSureIsNotLost(t *testing.T) {
	h := hear(framesOf(burn(12, span{From: 4, To: 8}, 3)), Taught{})
	if len(h.arcs) != 1 || math.Abs(h.arcs[0].From-4) > 0.03 || math.Abs(h.arcs[0].To-8) > 0.03 {
		t.Errorf("arcs = %v, want one from 4 to 8 s", h.arcs)
	}
}

// TestSoundThatBreaksOff: a microphone that goes away ends the arc where it was last heard.
func TestSoundThatBreaksOff(t *testing.T) {
	frames := framesOf(burn(10, span{From: 2, To: 10}, 4))
	var d Detector
	for _, f := range frames {
		d.Step(f)
	}
	if d.Running() == 0 {
		t.Fatal("no arc is heard")
	}
	last := frames[len(frames)-1].At
	_, arc := d.Step(Frame{At: last + 60_000, High: -40, Low: -60, Flat: -1})
	if arc == nil || arc.Stop != last || d.Running() != 0 {
		t.Errorf("arc = %v, running %d, want it ended at %d", arc, d.Running(), last)
	}
}

// TestTheMicrophoneWakesUp: digital silence before the first sound is no floor.
func TestTheMicrophoneWakesUp(t *testing.T) {
	s := listentest.New(10, 5)
	s.Faint(-75)
	var d Detector
	for i := range int64(20) {
		d.Step(Frame{At: i * 21, High: -160, Low: -160, Flat: 0})
	}
	for _, f := range framesOf(s) {
		if state, _ := d.Step(f); state != Quiet {
			t.Fatalf("a quiet yard is heard as %s", state)
		}
	}
}

// TestNonsenseIsPassedOver: frames that are no numbers change nothing.
func TestNonsenseIsPassedOver(t *testing.T) {
	var d Detector
	d.Step(Frame{At: 1, High: -60, Low: -60, Flat: -2})
	before := d.high
	for _, f := range []Frame{{At: 2, High: math.NaN()}, {At: 2, High: -60, Low: math.Inf(1)}, {At: 2, High: -60, Flat: math.NaN()}, {At: 2, High: -60, NearFlat: math.NaN()}} {
		d.Step(f)
	}
	if d.high != before || d.last != 1 {
		t.Error("a frame without numbers changed the detector")
	}
}

// TestGrinderOverAnArcIsSaid: what cannot be heard is not counted, and the time of it is told.
func TestGrinderOverAnArcIsSaid(t *testing.T) {
	s := burn(40, span{From: 12, To: 25}, 7)
	s.Grinder(span{From: 8, To: 30}, -22, 210)
	h := hear(framesOf(s), Taught{})
	if h.time() > 0.5 || math.Abs(length(h.masked)-22) > 1 {
		t.Errorf("heard %.1f s, masked for %.1f s; want nothing counted and 22 s masked", h.time(), length(h.masked))
	}
}

// TestLouderByAnything: laws. What the gain of the phone is, within reason, and what time of
// day it is changes nothing.
func TestLouderByAnything(t *testing.T) {
	frames := framesOf(cuts(9, -35, -11, 4, usual...))
	want := hear(frames, Taught{})
	for _, db := range []float64{-8, 6} {
		louder := make([]Frame, len(frames))
		for i, f := range frames {
			f.High, f.Low, f.Near = f.High+db, f.Low+db, f.Near+db
			louder[i] = f
		}
		if got := hear(louder, Taught{}); math.Abs(got.time()-want.time()) > 0.05 || len(got.arcs) != len(want.arcs) {
			t.Errorf("%+.0f dB: %.2f s in %d arcs, want %.2f s in %d", db, got.time(), len(got.arcs), want.time(), len(want.arcs))
		}
	}
	for i := range frames {
		frames[i].At += 1_760_000_000_000
	}
	if got := hear(frames, Taught{}); math.Abs(got.time()-want.time()) > 0.001 {
		t.Errorf("%.3f s at another time, want %.3f s", got.time(), want.time())
	}
}

// TestCallInBatches: how frames are packed changes nothing, and a reset begins anew.
func TestCallInBatches(t *testing.T) {
	frames := framesOf(burn(9, span{From: 2, To: 6}, 11))
	var ear Ear
	for _, size := range []int{1, 7, 400} {
		var arcs []Heard
		for from := 0; from < len(frames); from += size {
			report, err := ear.Call(batch(t, map[string]any{"frames": frames[from:min(len(frames), from+size)], "reset": from == 0}))
			if err != nil {
				t.Fatal(err)
			}
			arcs = append(arcs, report.Arcs...)
		}
		if len(arcs) != 1 || math.Abs(float64(arcs[0].Stop-arcs[0].Start)-4000) > 30 || arcs[0].Starts != 1 {
			t.Errorf("batches of %d: arcs %v, want one of 4 s", size, arcs)
		}
	}
	if _, err := ear.Call([]byte(`{"frames": 3}`)); err == nil {
		t.Error("frames that are none were taken")
	}
}

func batch(t *testing.T, in any) []byte {
	t.Helper()
	text, err := json.Marshal(in)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func BenchmarkStep(b *testing.B) {
	frames := framesOf(burn(10, span{From: 2, To: 6}, 11))
	var d Detector
	for i := range b.N {
		f := frames[i%len(frames)]
		f.At = int64(i) * 21
		d.Step(f)
	}
}
