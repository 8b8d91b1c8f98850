package life

import (
	"math"
	"testing"
)

// pulled are failures of shape 2.5 around 80 min, as many pulled at 50 min.
func pulled(failures int) []Part {
	var parts []Part
	for i := range failures {
		t := 80 * math.Pow(-math.Log1p(-(float64(i)+0.5)/float64(failures)), 1/2.5)
		parts = append(parts, Part{Use: Use{Minutes: t}, Failed: true}, Part{Use: Use{Minutes: 50}})
	}
	return parts
}

// What is shown follows from how many have failed.
func TestWhatIsShown(t *testing.T) {
	for _, test := range []struct {
		failures   int
		how, shape string
	}{
		{failures: 1, how: ShapeOnly, shape: "too few failures to tell a shape"},
		{failures: 2, how: ShapeOnly, shape: "too few failures to tell a shape"},
		{failures: 3, how: Weak, shape: "too few failures to tell a shape"},
		{failures: 4, how: Weak, shape: "too few failures to tell a shape"},
		{failures: 5, how: Few, shape: "they seem to wear out, by few failures"},
		{failures: 9, how: Few, shape: "they seem to wear out, by few failures"},
		{failures: 10, how: Enough, shape: "they wear out: the longer used, the likelier to go"},
	} {
		res, err := ComputePartLife(PartLifeInput{Slot: "tip", Lives: pulled(test.failures)})
		if err != nil || res.How != test.how || res.ShapeSays() != test.shape {
			t.Errorf("%d failures: %s, %q, %v, want %s, %q", test.failures, res.How, res.ShapeSays(), err, test.how, test.shape)
		}
		if told := res.Fit != nil; told != (test.failures >= 3) {
			t.Errorf("%d failures: a fit is told: %v", test.failures, told)
		}
		if !(res.Typical.Low < res.Typical.At && res.Typical.At < res.Typical.High) {
			t.Errorf("%d failures: half are gone by %+v", test.failures, res.Typical)
		}
	}
	res, err := ComputePartLife(PartLifeInput{Slot: "tip", Lives: minutes(-50, -60)})
	if err != nil || res.How != Assumed || res.Fit != nil || !(res.Least > 0) {
		t.Errorf("none failed: %+v, %v", res, err)
	}
	res, err = ComputePartLife(PartLifeInput{Slot: "tip", Lives: minutes(60, 60, 60, 60, 60, 60)})
	if err != nil || res.How != ShapeOnly || res.Fit != nil || res.ShapeSays() != "too few failures to tell a shape" {
		t.Errorf("all at the longest: %+v, %v", res, err)
	}
}

func TestShapeSays(t *testing.T) {
	for _, test := range []struct {
		shape       Interval
		enough, few string
	}{
		{shape: Interval{Low: 1.01, High: 3}, enough: "they wear out: the longer used, the likelier to go", few: "they seem to wear out, by few failures"},
		{shape: Interval{Low: 0.4, High: 0.99}, enough: "most go early: look at how they are fitted and at the air", few: "most seem to go early, by few failures: look at how they are fitted"},
		{shape: Interval{Low: 0.9, High: 3}, enough: "not enough to say whether they wear out or go by chance", few: "not enough to say whether they wear out or go by chance"},
	} {
		for how, want := range map[string]string{Enough: test.enough, Few: test.few, Weak: "too few failures to tell a shape"} {
			r := PartLifeResult{How: how, Fit: &Weibull{}, Shape: test.shape}
			if got := r.ShapeSays(); got != want {
				t.Errorf("%s, shape %v: %q, want %q", how, test.shape, got, want)
			}
		}
	}
}

func TestChanceWords(t *testing.T) {
	for _, test := range []struct {
		chance         Chance
		words, verdict string
	}{
		{chance: Chance{P: 0.72, Low: 0.43, High: 0.88}, words: "about 7 in 10 (4 to 9 in 10)", verdict: "may not last the job: carry a spare"},
		{chance: Chance{P: 0.97, Low: 0.91, High: 0.999}, words: "more than 9 in 10", verdict: "likely lasts the job"},
		{chance: Chance{P: 0.93, Low: 0.75, High: 0.99}, words: "about 9 in 10 (7 to 10 in 10)", verdict: "likely lasts the job"},
		{chance: Chance{P: 0.93, Low: 0.55, High: 1}, words: "about 9 in 10 (5 to 10 in 10)", verdict: "may not last the job: carry a spare"},
		{chance: Chance{P: 0.02, Low: 0, High: 0.08}, words: "less than 1 in 10", verdict: "likely does not last the job"},
		{chance: Chance{P: 0.2, Low: 0.05, High: 0.5}, words: "about 2 in 10 (0 to 5 in 10)", verdict: "likely does not last the job"},
		{chance: Chance{P: 0.6, Low: 0.02, High: 0.97}, words: "about 6 in 10 (nobody can tell yet)", verdict: "too little is known: carry a spare"},
	} {
		r := PartLifeResult{Lasts: test.chance}
		if got := test.chance.Words(); got != test.words {
			t.Errorf("%+v: %q, want %q", test.chance, got, test.words)
		}
		if got := r.Verdict(); got != test.verdict {
			t.Errorf("%+v: %q, want %q", test.chance, got, test.verdict)
		}
	}
}

// What wears parts is named only where it is sure, worst first.
func TestWears(t *testing.T) {
	rust := Effect{Factor: "surface", Level: "rusty", Base: "clean", Failures: 14, Ratio: 0.6, Range: Interval{Low: 0.43, High: 0.81}, Sure: true}
	wet := Effect{Factor: "air", Level: "wet", Base: "dry", Failures: 9, Ratio: 0.8, Range: Interval{Low: 0.55, High: 1.2}}
	long := Effect{Factor: "metal", Level: "stainless", Base: "mild-steel", Ratio: 1.7, Range: Interval{Low: 1.2, High: 2.4}, Sure: true}
	m := &Model{Failures: 23}
	for _, test := range []struct {
		effects []Effect
		want    string
	}{
		{effects: []Effect{rust, wet}, want: "Rusty metal wears them fastest: they last 0.4 to 0.8 times as long"},
		{effects: []Effect{long, wet}, want: "not enough to say: 23 parts are worn out so far"},
		{effects: []Effect{wet}, want: "not enough to say: 23 parts are worn out so far"},
		{want: "not enough to say: note with each part what it cut, and some that cut otherwise"},
	} {
		if got := (PartLifeResult{Model: m, Effects: test.effects}).Wears("tip"); got != test.want {
			t.Errorf("%+v: %q, want %q", test.effects, got, test.want)
		}
	}
	if got := wet.Says(); got != "not enough to say (0.6 to 1.2 times as long)" {
		t.Errorf("wet air: %q", got)
	}
	if got := long.Says(); got != "1.2 to 2 times as long" {
		t.Errorf("stainless: %q", got)
	}
	for want, e := range map[string]Effect{"Rusty metal": rust, "Wet air": wet, "A worn electrode beside it": {Factor: "partner", Level: "worn"}, "Rig two": {Factor: "rig", Level: "two"}, "tin": {Factor: "metal", Level: "tin"}} {
		if got := e.Cause("tip"); got != want {
			t.Errorf("%+v: %q, want %q", e, got, want)
		}
	}
}

// The mean of what is left, against the sum of what lasts: ∫ S(t) dt / S(age).
func TestMeanLeft(t *testing.T) {
	for _, shape := range []float64{0.7, 1, 2, 5} {
		w := &Weibull{Shape: shape, Scale: 80}
		for _, age := range []float64{0, 30, 100, 150} {
			sum, h := 0.0, 0.01
			for x := age + h/2; x < age+3000; x += h {
				sum += h * w.Survival(x)
			}
			if got, want := w.MeanLeft(age), sum/w.Survival(max(age, 1e-300)); !near(got, want, 2e-3) {
				t.Errorf("shape %v at %v: %v left on average, want %v", shape, age, got, want)
			}
		}
	}
	if got, want := (&Weibull{Shape: 1, Scale: 80}).MeanLeft(1e6), 80.0; !near(got, want, 1e-3) {
		t.Errorf("shape 1 at a great age: %v left, want %v", got, want)
	}
}

// The worth of a start is learnt where parts tell it, and not where they cannot.
func TestStartIsLearnt(t *testing.T) {
	const perStart = 0.6
	var told, together []Part
	for i := range 40 {
		life := 80 * math.Pow(-math.Log1p(-(float64(i*13%40)+0.5)/40), 1.0/4)
		rate := []float64{0.2, 6}[i%2]
		m := life / (1 + perStart*rate)
		told = append(told, Part{Use: Use{Minutes: m, Starts: m * rate}, Failed: true})
		together = append(together, Part{Use: Use{Minutes: life / 2, Starts: life}, Failed: true})
	}
	res, err := ComputePartLife(PartLifeInput{Slot: "tip", Lives: told})
	if start := res.Model.PerStart(); err != nil || !res.StartTold || !near(start, perStart, 0.15) {
		t.Errorf("starts that tell: %v min a start, told %v, %v", start, res.StartTold, err)
	}
	res, err = ComputePartLife(PartLifeInput{Slot: "tip", Lives: together})
	if err != nil || res.StartTold {
		t.Errorf("starts that always go with the minutes tell %+v, %v", res.Model.PerStartRange(), err)
	}
}

// The work that is asked about moves the chance towards its group's.
func TestOnWork(t *testing.T) {
	var parts []Part
	for i := range 60 {
		seen, longer := Seen{Surface: "clean"}, 1.0
		if i%2 == 0 {
			seen, longer = Seen{Surface: "rusty"}, 0.5
		}
		parts = append(parts, Part{Use: Use{Minutes: 80 * longer * math.Pow(-math.Log1p(-(float64(i/2)+0.5)/30), 1.0/3)}, Seen: seen, Failed: true})
	}
	m := Learn(parts, PriorOf("tip"))
	more := Use{Minutes: 40}
	rusty, average, clean := m.On(Seen{Surface: "rusty"}).Lasts(Use{}, more), m.Lasts(Use{}, more), m.On(Seen{Surface: "clean"}).Lasts(Use{}, more)
	if !(rusty.P < average.P && average.P < clean.P) || math.Abs(rusty.P-math.Exp(-1)) > 0.1 || math.Abs(clean.P-math.Exp(-1.0/8)) > 0.1 {
		t.Errorf("rusty %+v, average %+v, clean %+v", rusty, average, clean)
	}
	if other := m.On(Seen{Surface: "painted"}).Lasts(Use{}, more); !(other.High-other.Low > clean.High-clean.Low) {
		t.Errorf("a surface that was never seen is known better: %+v than %+v", other, clean)
	}
}

// TestLeftIsNotGuessed: how long a part still lasts is told once one of the crew's own has
// worn out; what is assumed alone would say "0 to 3000 min".
func TestLeftIsNotGuessed(t *testing.T) {
	for lives, want := range map[string]bool{"": false, "80 40 failed=no; 60 20 failed=no": false, "80 40 failed=yes; 60 20 failed=no": true} {
		a, err := PartLife.Calculator().CalculateValues(map[string]any{"minutes": "100min", "starts": "150", "job_minutes": "25min", "lives": lives})
		if err != nil {
			t.Fatal(err)
		}
		if _, got := a.Results().Get("left"); got != want {
			t.Errorf("lives %q: left told is %v, want %v", lives, got, want)
		}
	}
}
