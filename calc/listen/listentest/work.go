package listentest

import "math"

// Arc lets the arc burn: a jet of air that is louder high up, trembling a little. It is
// noted in Arcs.
func (s *Scene) Arc(at Span, level float64) {
	s.Arcs = append(s.Arcs, at)
	s.Add(at, level, Through(s.White, HighPass(300, 0.7), HighShelf(3500, 4)), Tremble(6, 0.12))
}

// Pierce lets the arc burn from a pierce: louder until it is through, with spatter.
func (s *Scene) Pierce(at Span, level, through float64) {
	s.Arcs = append(s.Arcs, at)
	s.Add(at, level, Through(s.White, HighPass(300, 0.7), HighShelf(3500, 4)), func(t float64) float64 {
		if t < through {
			return 1.35 + 0.1*math.Sin(60*t)
		}
		return 1
	})
}

// PostFlow lets the air blow on alone.
func (s *Scene) PostFlow(at Span, level float64) {
	s.Add(at, level, Through(s.White, HighPass(1500, 0.7), HighShelf(5000, 4)), nil)
}

// Grinder runs a grinder: a whine with its overtones and the rasp of the disc.
func (s *Scene) Grinder(at Span, level, hertz float64) {
	rasp := Through(s.White, LowPass(6000, 0.7))
	s.Add(at, level, Mix(Saw(hertz), Saw(9*hertz), rasp), Tremble(2.3, 0.2))
}

// Compressor runs a compressor.
func (s *Scene) Compressor(at Span, level float64) {
	s.Add(at, level, Through(Mix(Square(24), s.Brown()), LowPass(900, 0.7)), nil)
}

// Hammer strikes every so many seconds.
func (s *Scene) Hammer(at Span, level, every float64) {
	n, ring := 0, int(every*Rate)
	s.Add(at, level, func() float64 {
		t := float64(n%ring) / Rate
		n++
		tones := math.Sin(2*math.Pi*620*t) + 0.7*math.Sin(2*math.Pi*1730*t) + 0.4*math.Sin(2*math.Pi*3900*t)
		return tones*math.Exp(-t/0.04) + s.random.NormFloat64()*math.Exp(-t/0.006)
	}, nil)
}

// Speech is somebody talking: voice in syllables, and every fourth one hisses.
func (s *Scene) Speech(at Span, level float64) {
	voice := Through(Saw(120), LowPass(700, 2), LowPass(2600, 1))
	hiss := Through(s.White, HighPass(4500, 0.7), LowPass(9000, 0.7))
	n := 0
	s.Add(at, level, func() float64 {
		t := float64(n) / Rate
		n++
		syllable := int(t / 0.22)
		loud := math.Max(0, math.Sin(math.Pi*math.Mod(t, 0.22)/0.22))
		v, h := voice(), hiss()
		switch {
		case syllable%11 == 10:
			return 0
		case syllable%4 == 3:
			return 0.25 * h * loud
		}
		return v * loud
	}, nil)
}

// Wind blows over the microphone in gusts.
func (s *Scene) Wind(at Span, level float64) {
	s.Add(at, level, Through(s.Brown(), LowPass(500, 0.7)), func(t float64) float64 { return 0.55 + 0.45*math.Sin(0.9*t)*math.Sin(2.3*t+1) })
}
