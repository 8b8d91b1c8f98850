package listen

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/listen/listentest"
	"kerfside/calc/problem"
)

// taughtBy hands a scene over as a calibration cut, in batches as a phone does.
func taughtBy(t *testing.T, s *listentest.Scene) (Report, error) {
	t.Helper()
	var ear Ear
	frames := framesOf(s)
	for from := 0; from < len(frames); from += 400 {
		in := map[string]any{"frames": frames[from:min(len(frames), from+400)]}
		if from == 0 {
			in["reset"], in["teach"] = true, "begin"
		}
		report, err := ear.Call(batch(t, in))
		if err != nil {
			t.Fatal(err)
		}
		if report.Running != 0 || len(report.Arcs) > 0 {
			t.Fatal("an arc was told while the cut was still taught")
		}
	}
	return ear.Call(batch(t, map[string]any{"teach": "end"}))
}

// lessonOf is a calibration cut of ten seconds, with air after it.
func lessonOf(level, air, faint float64) *listentest.Scene {
	s := listentest.New(20, 21)
	s.Faint(faint)
	s.Arc(span{From: 4, To: 14}, level)
	s.PostFlow(span{From: 14, To: 18}, level+air)
	return s
}

// TestTeach: what a cut teaches is what was put into it, and its own time is told within 3 %.
func TestTeach(t *testing.T) {
	for _, test := range []struct{ level, air, faint float64 }{
		{level: -30, air: -10, faint: -75},
		{level: -45, air: -6, faint: -80},
		{level: -25, air: -18, faint: -60},
	} {
		report, err := taughtBy(t, lessonOf(test.level, test.air, test.faint))
		if err != nil || report.Taught == nil {
			t.Errorf("%v: %v, %v", test, report, err)
			continue
		}
		got := *report.Taught
		// White noise of a root mean square r has 10·lg(6/2048) + r in each bin (Hann window, energy 3/8).
		white := 10 * math.Log10(6.0/window)
		if math.Abs(got.Level-(test.level+white+0.5)) > 1 || math.Abs(got.Floor-(test.faint+white)) > 1 {
			t.Errorf("%v: %+v, want a level of %.1f and a floor of %.1f dB", test, got, test.level+white+0.5, test.faint+white)
		}
		if math.Abs(got.Drop+test.air) > 1.5 || got.Tilt < 1 || got.Tilt > 5 || math.Abs(got.Flat+2.5) > 0.5 {
			t.Errorf("%v: %+v, want a drop of %.0f dB, the tilt of the arc and the flatness of noise, −2.5 dB", test, got, -test.air)
		}
		if len(report.Arcs) != 1 || math.Abs(float64(report.Arcs[0].Stop-report.Arcs[0].Start)-10_000) > 300 {
			t.Errorf("%v: the cut itself is told as %v, want 10 s", test, report.Arcs)
		}
	}
}

// TestNoLesson: a cut that teaches nothing is refused, each with what to do.
func TestNoLesson(t *testing.T) {
	quiet := func(add func(s *listentest.Scene)) *listentest.Scene {
		s := listentest.New(20, 31)
		s.Faint(-75)
		add(s)
		return s
	}
	for _, test := range []struct {
		name, says string
		scene      *listentest.Scene
	}{
		{name: "nothing", says: "no arc stood out", scene: quiet(func(*listentest.Scene) {})},
		{name: "three seconds", says: "too short", scene: listentest.New(3, 1)},
		{name: "a short cut", says: "five seconds", scene: quiet(func(s *listentest.Scene) { s.Arc(span{From: 4, To: 7.5}, -30) })},
		{name: "a grinder in its place", says: "grinder", scene: quiet(func(s *listentest.Scene) { s.Grinder(span{From: 4, To: 14}, -25, 180) })},
		{name: "a grinder all the time", says: "no arc stood out", scene: quiet(func(s *listentest.Scene) {
			s.Arc(span{From: 4, To: 14}, -32)
			s.Grinder(span{To: 20}, -28, 180)
		})},
		{name: "a hammer", says: "no arc stood out", scene: quiet(func(s *listentest.Scene) { s.Hammer(span{To: 20}, -28, 0.5) })},
		{name: "air all the time", says: "no arc stood out", scene: quiet(func(s *listentest.Scene) { s.PostFlow(span{To: 20}, -35) })},
	} {
		report, err := taughtBy(t, test.scene)
		var p *problem.Error
		if !errors.As(err, &p) || !strings.Contains(p.Msg+" "+p.Hint, test.says) || p.Hint == "" {
			t.Errorf("%s: %+v, %v; want a refusal that says %q", test.name, report, err, test.says)
		}
	}
}

// TestAfterALesson: set to a torch whose air is only 5 dB below its arc, the detector holds its time to 3 %,
// and without it it does not: that is what the lesson is for. After one that was refused it hears as before.
func TestAfterALesson(t *testing.T) {
	report, err := taughtBy(t, lessonOf(-30, -4.5, -75))
	if err != nil {
		t.Fatal(err)
	}
	s := cuts(41, -36, -4.5, 6, usual...)
	frames := framesOf(s)
	before, after := hear(frames, Taught{}).time()/s.ArcTime()-1, hear(frames, *report.Taught).time()/s.ArcTime()-1
	t.Logf("loud air: %+.1f %% without a lesson, %+.1f %% after it (%+v)", 100*before, 100*after, *report.Taught)
	if math.Abs(after) > 0.03 || before < 0.03 {
		t.Errorf("%+.1f %% without a lesson, %+.1f %% after it", 100*before, 100*after)
	}
	var ear Ear
	ear.Call(batch(t, map[string]any{"reset": true, "teach": "begin", "taught": *report.Taught}))
	limits := ear.detector.limits
	limits.arc = 0 // not a number, which is like none
	_, err = ear.Call(batch(t, map[string]any{"teach": "end"}))
	ear.detector.limits.arc = 0
	if err == nil || ear.detector.limits != limits {
		t.Errorf("refused with %v, limits %+v, want them as before: %+v", err, ear.detector.limits, limits)
	}
}

// TestLessonsDoNoHarm: whatever a lesson says within what one may say, the scenes of
// that torch are heard within 3 %; figures that are none leave the standard limits.
func TestLessonsDoNoHarm(t *testing.T) {
	lesson, err := taughtBy(t, lessonOf(-38, -10, -75))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range families {
		if !slices.Contains([]string{"hammer all the time", "16 kHz", "far phone"}, f.name) {
			continue
		}
		s := f.draw(51)
		if r := judge(f.name, s, hear(framesOf(s), *lesson.Taught)); math.Abs(r.off()) > 0.03 {
			t.Errorf("%s, after a lesson from elsewhere: %+.1f %%", f.name, 100*r.off())
		}
	}
	for _, bad := range []Taught{{}, {Level: math.NaN()}, {Level: -40, Tilt: math.Inf(1)}} {
		if got := bad.limits(); got.level != standard().level || got.tilt != standard().tilt || got.drop != standard().drop {
			t.Errorf("%+v gives %+v, want the standard limits", bad, got)
		}
	}
}
