package listen

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/dsp/fourier"
)

// The scenes below are synthetic: seeded noise, shaped and mixed at levels of
// HSE's table of welding noise (plasma cutting 98 to 105 dB(A), grinding 95 to
// 105). They are no recordings and prove nothing for the field.

const (
	rate   = 48000
	window = 2048
	hop    = 1024
)

// scene is some seconds of sound.
type scene struct {
	samples []float64
	random  *rand.Rand
}

func newScene(seconds float64, seed uint64) *scene {
	return &scene{make([]float64, int(seconds*rate)), rand.New(rand.NewPCG(seed, 2024))}
}

// hiss adds a jet: white noise, differentiated so that it rises with frequency.
func (s *scene) hiss(from, to, level float64) {
	gain, last := math.Pow(10, level/20), 0.0
	for i := int(from * rate); i < int(to*rate); i++ {
		white := s.random.NormFloat64()
		s.samples[i] += gain * (white - 0.7*last)
		last = white
	}
}

// rumble adds noise below about a kilohertz: a compressor, speech, wind.
func (s *scene) rumble(from, to, level float64) {
	gain, low := math.Pow(10, level/20), 0.0
	for i := int(from * rate); i < int(to*rate); i++ {
		low += 0.08 * (s.random.NormFloat64() - low)
		s.samples[i] += gain * 5 * low
	}
}

// whine adds a saw of that pitch with all its overtones: a grinder.
func (s *scene) whine(from, to, level, hertz float64) {
	gain := math.Pow(10, level/20)
	for i := int(from * rate); i < int(to*rate); i++ {
		_, phase := math.Modf(float64(i) * hertz / rate)
		s.samples[i] += gain * 1.7 * (2*phase - 1)
	}
}

// knocks adds short bursts: a hammer.
func (s *scene) knocks(from, to, level float64) {
	for t := from; t < to; t += 0.4 {
		gain := math.Pow(10, level/20) * 3
		for i := 0; i < rate/12; i++ {
			at := int(t*rate) + i
			s.samples[at] += gain * math.Exp(-float64(i)/900) * math.Sin(float64(i)*2*math.Pi*620/rate)
		}
	}
}

// frames is what the phone would send of the scene.
func (s *scene) frames() []Frame {
	fft := fourier.NewFFT(window)
	var frames []Frame
	buffer := make([]float64, window)
	for at := 0; at+window <= len(s.samples); at += hop {
		for i := range buffer {
			hann := 0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/window)
			buffer[i] = s.samples[at+i] * hann
		}
		bins := fft.Coefficients(nil, buffer)
		high, flat := band(bins, 4000, 14000)
		low, _ := band(bins, 100, 2000)
		frames = append(frames, Frame{At: int64(float64(at+hop) / rate * 1000), High: high, Low: low, Flat: flat})
	}
	return frames
}

// band returns mean power and flatness of the bins from low to high Hz, in dB.
func band(bins []complex128, low, high float64) (level, flat float64) {
	sum, logs, n := 0.0, 0.0, 0.0
	for i := int(low * window / rate); i <= int(high*window/rate); i++ {
		p := math.Pow(cmplx.Abs(bins[i]), 2) + 1e-12
		sum, logs, n = sum+p, logs+math.Log(p), n+1
	}
	level = 10 * math.Log10(sum/n)
	// A tone at full scale has (window/4)² in its bin under a Hann window.
	return level - 20*math.Log10(window/4), 10*logs/n/math.Ln10 - level
}

// hear runs the detector and returns the arcs and the states heard.
func hear(s *scene) (arcs []Heard, states map[State]int) {
	var d Detector
	states = map[State]int{}
	for _, f := range s.frames() {
		state, arc := d.Step(f)
		states[state]++
		if arc != nil {
			arcs = append(arcs, *arc)
		}
	}
	return arcs, states
}

func total(arcs []Heard) float64 {
	ms := int64(0)
	for _, a := range arcs {
		ms += a.Stop - a.Start
	}
	return float64(ms) / 1000
}

// TestScenes: arc time within 5 % where nothing hides it, nothing counted where
// no arc burns, and "masked" rather than a number where a grinder drowns it.
func TestScenes(t *testing.T) {
	const quiet = -70.0
	tests := []struct {
		name    string
		arcs    [][2]float64
		arc     float64 // level of the arcs
		add     func(s *scene)
		within  float64 // of the true arc time
		nothing bool
	}{
		{name: "a quiet yard", arcs: [][2]float64{{5, 15}, {20, 22}, {30, 50}}, arc: -20, within: 0.05},
		{name: "a compressor", arcs: [][2]float64{{5, 15}, {30, 50}}, arc: -20, add: func(s *scene) { s.rumble(0, 60, -42) }, within: 0.05},
		{name: "a hammer between the cuts", arcs: [][2]float64{{5, 15}, {30, 50}}, arc: -20, add: func(s *scene) { s.knocks(16, 28, -30) }, within: 0.05},
		{name: "air that blows on for ten seconds", arcs: [][2]float64{{5, 15}, {30, 45}}, arc: -20, add: func(s *scene) {
			s.hiss(15, 25, -31)
			s.hiss(45, 55, -31)
		}, within: 0.06},
		{name: "a hammer alone", add: func(s *scene) { s.knocks(5, 50, -20) }, nothing: true},
		{name: "a grinder alone", add: func(s *scene) { s.whine(10, 40, -15, 180) }, nothing: true},
		{name: "a compressor alone", add: func(s *scene) { s.rumble(5, 50, -25) }, nothing: true},
	}
	for _, test := range tests {
		for seed := uint64(1); seed <= 2; seed++ {
			s := newScene(60, seed)
			s.hiss(0, 60, quiet)
			want := 0.0
			for _, a := range test.arcs {
				s.hiss(a[0], a[1], test.arc)
				want += a[1] - a[0]
			}
			if test.add != nil {
				test.add(s)
			}
			arcs, states := hear(s)
			got := total(arcs)
			t.Logf("%s, seed %d: %.2f s of %.2f s, %d arcs, %v", test.name, seed, got, want, len(arcs), states)
			if test.nothing && len(arcs) > 0 {
				t.Errorf("%s: counted %.2f s where no arc burns", test.name, got)
			}
			if !test.nothing && (math.Abs(got-want) > test.within*want || len(arcs) != len(test.arcs)) {
				t.Errorf("%s: %.2f s in %d arcs, want %.2f s in %d", test.name, got, len(arcs), want, len(test.arcs))
			}
		}
	}
}

// TestGrinderOverAnArcIsSaid: what cannot be heard is not counted and is said.
func TestGrinderOverAnArcIsSaid(t *testing.T) {
	s := newScene(40, 7)
	s.hiss(0, 40, -70)
	s.rumble(5, 35, -8)
	s.hiss(10, 30, -22)
	arcs, states := hear(s)
	if total(arcs) > 1 || states[Masked] == 0 {
		t.Errorf("heard %.1f s and %v, want nothing counted and some of it masked", total(arcs), states)
	}
}

// TestEdgesAreDatedBack: the time that it takes to be sure is not lost.
func TestEdgesAreDatedBack(t *testing.T) {
	s := newScene(12, 3)
	s.hiss(0, 12, -70)
	s.hiss(4, 8, -20)
	arcs, _ := hear(s)
	if len(arcs) != 1 || math.Abs(float64(arcs[0].Start)-4000) > 60 || math.Abs(float64(arcs[0].Stop)-8000) > 120 {
		t.Errorf("arcs = %v, want one from 4000 to 8000 ms", arcs)
	}
}

// TestSoundThatBreaksOff: a microphone that goes away ends the arc where it was
// last heard.
func TestSoundThatBreaksOff(t *testing.T) {
	s := newScene(10, 4)
	s.hiss(0, 10, -70)
	s.hiss(2, 10, -20)
	var d Detector
	for _, f := range s.frames() {
		d.Step(f)
	}
	if d.Running() == 0 {
		t.Fatal("no arc is heard")
	}
	_, arc := d.Step(Frame{At: 60_000, High: -40, Low: -60, Flat: -1})
	if arc == nil || arc.Stop > 60_000 || d.Running() != 0 {
		t.Errorf("arc = %v, running %d, want it ended", arc, d.Running())
	}
}

// TestTheMicrophoneWakesUp: digital silence before the first sound is no floor.
func TestTheMicrophoneWakesUp(t *testing.T) {
	s := newScene(10, 5)
	s.hiss(0, 10, -70)
	var d Detector
	for i := range int64(20) {
		d.Step(Frame{At: i * 21, High: -160, Low: -160, Flat: 0})
	}
	for _, f := range s.frames() {
		f.At += 500
		if state, _ := d.Step(f); state != Quiet {
			t.Fatalf("a quiet yard is heard as %s", state)
		}
	}
}

// TestNonsenseIsPassedOver: frames that are no numbers change nothing.
func TestNonsenseIsPassedOver(t *testing.T) {
	var d Detector
	d.Step(Frame{At: 1, High: -60, Low: -60, Flat: -2})
	before := d
	d.Step(Frame{At: 2, High: math.NaN(), Low: math.Inf(1), Flat: 0})
	if d != before {
		t.Error("a frame without numbers changed the detector")
	}
}
