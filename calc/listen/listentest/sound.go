package listentest

import "math"

// White is noise with all frequencies alike.
func (s *Scene) White() float64 { return s.random.NormFloat64() }

// Through is a sound through filters, one after the other.
func Through(sound func() float64, filters ...func(float64) float64) func() float64 {
	return func() float64 {
		v := sound()
		for _, f := range filters {
			v = f(v)
		}
		return v
	}
}

// Mix is the sum of sounds.
func Mix(sounds ...func() float64) func() float64 {
	return func() float64 {
		v := 0.0
		for _, sound := range sounds {
			v += sound()
		}
		return v
	}
}

// Times is a sound so many times as strong.
func Times(factor float64, sound func() float64) func() float64 {
	return func() float64 { return factor * sound() }
}

// Brown is noise that falls by 6 dB an octave.
func (s *Scene) Brown() func() float64 {
	v := 0.0
	return func() float64 {
		v += 0.01 * (s.random.NormFloat64() - v)
		return 10 * v
	}
}

// Saw is a saw of that pitch with all its overtones.
func Saw(hertz float64) func() float64 {
	phase := 0.0
	return func() float64 {
		phase = math.Mod(phase+hertz/Rate, 1)
		return 2*phase - 1
	}
}

// Square is a square wave of that pitch.
func Square(hertz float64) func() float64 {
	saw := Saw(hertz)
	return func() float64 { return math.Copysign(1, saw()) }
}

// Tremble is a gain that goes up and down by a share, so many times a second.
func Tremble(hertz, share float64) func(t float64) float64 {
	return func(t float64) float64 { return 1 + share*math.Sin(2*math.Pi*hertz*t) }
}

// LowPass lets what is below pass. This filter and the two after it are of the second order, by
// the formulas of R. Bristow-Johnson's cookbook for audio filters, from memory.
func LowPass(hertz, q float64) func(float64) float64 {
	cos, alpha := turn(hertz, q)
	return biquad((1-cos)/2, 1-cos, (1-cos)/2, 1+alpha, -2*cos, 1-alpha)
}

// HighPass lets what is above pass.
func HighPass(hertz, q float64) func(float64) float64 {
	cos, alpha := turn(hertz, q)
	return biquad((1+cos)/2, -1-cos, (1+cos)/2, 1+alpha, -2*cos, 1-alpha)
}

// HighShelf lifts what is above by so many dB.
func HighShelf(hertz, db float64) func(float64) float64 {
	cos, alpha := turn(hertz, math.Sqrt2/2)
	a := math.Pow(10, db/40)
	r := 2 * math.Sqrt(a) * alpha
	return biquad(a*((a+1)+(a-1)*cos+r), -2*a*((a-1)+(a+1)*cos), a*((a+1)+(a-1)*cos-r),
		(a+1)-(a-1)*cos+r, 2*((a-1)-(a+1)*cos), (a+1)-(a-1)*cos-r)
}

func turn(hertz, q float64) (cos, alpha float64) {
	sin, cos := math.Sincos(2 * math.Pi * hertz / Rate)
	return cos, sin / (2 * q)
}

func biquad(b0, b1, b2, a0, a1, a2 float64) func(float64) float64 {
	var x1, x2, y1, y2 float64
	return func(x float64) float64 {
		y := (b0*x + b1*x1 + b2*x2 - a1*y1 - a2*y2) / a0
		x2, x1, y2, y1 = x1, x, y1, y
		return y
	}
}
