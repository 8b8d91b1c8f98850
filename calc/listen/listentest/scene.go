// Package listentest makes sound to try the arc detector on. All of it is synthetic:
// seeded noise, shaped and mixed at levels of HSE's table of welding noise (hand-held
// plasma cutting 98 to 105 dB(A), grinding 95 to 105, chipping 105) for a phone whose
// full scale is 130 dB. It is no recording, and proves nothing for the field.
package listentest

import (
	"math"
	"math/rand/v2"
)

// Rate is the sampling rate of all scenes, in hertz.
const Rate = 48000

// Span is a stretch of a scene, in seconds.
type Span struct{ From, To float64 }

// Scene is some seconds of sound, and when the arc burns in it.
type Scene struct {
	Samples []float64 // 1 is full scale
	Arcs    []Span    // in order
	random  *rand.Rand
}

// New returns a scene of silence. The same seed makes the same sounds.
func New(seconds float64, seed uint64) *Scene {
	return &Scene{Samples: make([]float64, int(seconds*Rate)), random: rand.New(rand.NewPCG(seed, 2024))}
}

// Random is the scene's own source of chance.
func (s *Scene) Random() *rand.Rand { return s.random }

// Seconds is how long the scene lasts.
func (s *Scene) Seconds() float64 { return float64(len(s.Samples)) / Rate }

// ArcTime is how long the arc burns, in seconds.
func (s *Scene) ArcTime() float64 {
	sum := 0.0
	for _, a := range s.Arcs {
		sum += a.To - a.From
	}
	return sum
}

// Add mixes a sound in, so loud that its root mean square is that many dB below full
// scale before its gain; gain, which may be nil, is asked with the seconds since its beginning.
func (s *Scene) Add(at Span, level float64, sound func() float64, gain func(t float64) float64) {
	from, to := max(0, int(at.From*Rate)), min(len(s.Samples), int(at.To*Rate))
	if from >= to {
		return
	}
	raw, sum := make([]float64, to-from), 0.0
	for i := range raw {
		raw[i] = sound()
		sum += raw[i] * raw[i]
	}
	scale := math.Pow(10, level/20) / math.Sqrt(sum/float64(len(raw))+1e-30)
	const edge = 0.002 // seconds in which a sound comes and goes, so that it does not click
	for i, v := range raw {
		t := float64(i) / Rate
		g := scale * math.Min(1, math.Min(t, at.To-at.From-t)/edge)
		if gain != nil {
			g *= gain(t)
		}
		s.Samples[from+i] += g * v
	}
}

// Each changes every sample by its time in seconds.
func (s *Scene) Each(change func(t, v float64) float64) {
	for i, v := range s.Samples {
		s.Samples[i] = change(float64(i)/Rate, v)
	}
}

// Clip cuts all that is louder than the microphone takes.
func (s *Scene) Clip() {
	s.Each(func(_, v float64) float64 { return math.Max(-1, math.Min(1, v)) })
}

// Drift lets the gain wander by up to that many dB each way over a period in seconds,
// as a phone does that sets its own level.
func (s *Scene) Drift(db, period float64) {
	s.Each(func(t, v float64) float64 { return v * decibel(db*math.Sin(2*math.Pi*t/period)) })
}

// Narrow leaves what a microphone hears that is sampled at 16 kHz: nothing above 8.
func (s *Scene) Narrow() {
	var stages []func(float64) float64
	for _, q := range []float64{0.51, 0.6, 0.9, 2.56} { // Butterworth of the eighth order, twice
		stages = append(stages, LowPass(7600, q), LowPass(7600, q))
	}
	s.Each(func(_, v float64) float64 {
		for _, stage := range stages {
			v = stage(v)
		}
		return v
	})
}

// Drop loses stretches of that many seconds, one in each period on average.
func (s *Scene) Drop(seconds, period float64) {
	for at := s.random.Float64() * period; at < s.Seconds(); at += period * (0.5 + s.random.Float64()) {
		for i := int(at * Rate); i < min(len(s.Samples), int((at+seconds)*Rate)); i++ {
			s.Samples[i] = 0
		}
	}
}

// Faint is the noise of the place and the microphone.
func (s *Scene) Faint(level float64) { s.Add(Span{To: s.Seconds()}, level, s.White, nil) }

// decibel is the factor of an amplitude.
func decibel(db float64) float64 { return math.Pow(10, db/20) }
