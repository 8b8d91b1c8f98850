package listen

import (
	"math"
	"math/cmplx"
	"testing"

	"gonum.org/v1/gonum/dsp/fourier"

	"kerfside/calc/listen/listentest"
)

const (
	window = 2048
	hop    = 1024
)

// framesOf is what the phone would send of a scene, in sixteen bits.
func framesOf(s *listentest.Scene) []Frame {
	fft := fourier.NewFFT(window)
	hann, buffer := make([]float64, window), make([]float64, window)
	for i := range hann {
		hann[i] = 0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/window)
	}
	var frames []Frame
	var bins []complex128
	for at := 0; at+window <= len(s.Samples); at += hop {
		for i := range buffer {
			buffer[i] = math.Round(32767*math.Max(-1, math.Min(1, s.Samples[at+i]))) / 32767 * hann[i]
		}
		bins = fft.Coefficients(bins, buffer)
		f := Frame{At: 1_000_000 + int64(float64(at+hop)/listentest.Rate*1000)}
		f.High, f.Flat = band(bins, 4000, 14000)
		f.Near, f.NearFlat = band(bins, 4000, 7500)
		f.Low, _ = band(bins, 1000, 3000)
		frames = append(frames, f)
	}
	return frames
}

// band returns mean power and flatness of the bins from low to high Hz, in dB.
func band(bins []complex128, low, high float64) (level, flat float64) {
	sum, logs, n := 0.0, 0.0, 0.0
	for i := int(math.Ceil(low * window / listentest.Rate)); i <= int(high*window/listentest.Rate); i++ {
		p := math.Max(1e-16, math.Pow(cmplx.Abs(bins[i])/(window/4), 2)) // a tone at full scale has window/4 in its bin under a Hann window
		sum, logs, n = sum+p, logs+math.Log(p), n+1
	}
	level = 10 * math.Log10(sum/n)
	return level, 10*logs/n/math.Ln10 - level
}

// heard is what a detector made of a scene, in seconds.
type heard struct {
	arcs   []listentest.Span
	masked []listentest.Span
	starts int
	states map[State]int
}

func (h heard) time() float64 { return length(h.arcs) }

func length(spans []listentest.Span) float64 {
	sum := 0.0
	for _, s := range spans {
		sum += s.To - s.From
	}
	return sum
}

// without is how much of the spans lies in none of the others, in seconds.
func without(spans, others []listentest.Span) float64 {
	sum := length(spans)
	for _, s := range spans {
		for _, o := range others {
			sum -= math.Max(0, math.Min(s.To, o.To)-math.Max(s.From, o.From))
		}
	}
	return sum
}

// hear runs a detector over frames. What is masked is taken from what it says of its sum.
func hear(frames []Frame, taught Taught) heard {
	var d Detector
	d.Teach(taught)
	h := heard{states: map[State]int{}}
	seconds := func(at int64) float64 { return float64(at-1_000_000) / 1000 }
	hidden, since := int64(0), int64(0)
	add := func(arc *Heard) {
		h.arcs = append(h.arcs, listentest.Span{From: seconds(arc.Start), To: seconds(arc.Stop)})
		h.starts += arc.Starts
	}
	for _, f := range frames {
		state, arc := d.Step(f)
		h.states[state]++
		if arc != nil {
			add(arc)
		}
		if d.mask.on && since == 0 {
			since = d.mask.since
		}
		if !d.mask.on && since != 0 {
			h.masked = append(h.masked, listentest.Span{From: seconds(since), To: seconds(since + d.mask.sum - hidden)})
			since, hidden = 0, d.mask.sum
		}
	}
	if since != 0 {
		h.masked = append(h.masked, listentest.Span{From: seconds(since), To: seconds(d.last)})
	}
	if d.on { // as the phone does when it stops listening
		add(d.end(d.last, false))
	}
	return h
}

// score is how well the arcs of a scene were heard.
type score struct {
	name                string
	hit, noArc          float64 // shares of the time with and without arc
	truth, told         float64 // arc time outside what was masked, s
	masked, maskedArc   float64 // s, and that of the arc in it
	onset               float64 // mean of the absolute error of the onsets that were heard, ms
	arcs, heard, starts int
}

func (r score) off() float64 {
	if r.truth == 0 {
		return math.Inf(1)
	}
	return r.told/r.truth - 1
}

func judge(name string, s *listentest.Scene, h heard) score {
	r := score{name: name, arcs: len(s.Arcs), heard: len(h.arcs), starts: h.starts, masked: length(h.masked)}
	r.truth, r.told = without(s.Arcs, h.masked), h.time()
	r.maskedArc = s.ArcTime() - r.truth
	both := length(h.arcs) - without(h.arcs, s.Arcs)
	if r.truth > 0 {
		r.hit = both / r.truth
	}
	if rest := s.Seconds() - s.ArcTime(); rest > 0 {
		r.noArc = without(h.arcs, s.Arcs) / rest
	}
	n := 0
	for _, a := range s.Arcs {
		best := math.Inf(1)
		for _, b := range h.arcs {
			best = math.Min(best, math.Abs(a.From-b.From))
		}
		if best < 0.5 {
			r.onset += 1000 * best
			n++
		}
	}
	r.onset /= math.Max(1, float64(n))
	return r
}

func (r score) log(t *testing.T) {
	t.Helper()
	t.Logf("%-34s hit %.3f false %.3f onset %3.0f ms  %6.2f s of %6.2f s (%+.1f %%)  masked %5.1f s (%.1f of arc)  %d of %d arcs, %d starts",
		r.name, r.hit, r.noArc, r.onset, r.told, r.truth, 100*r.off(), r.masked, r.maskedArc, r.heard, r.arcs, r.starts)
}
