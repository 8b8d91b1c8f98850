// Package listen hears from a phone's microphone whether the arc burns. What
// dominates the sound of plasma cutting is its jet of air (HSE, Noise in
// welding), a broad hiss that is stronger high up than low down; after the arc
// the air blows on alone, alike in colour and quieter. The detector follows
// the pattern of voice-activity detectors (running noise floor, several
// features, hang-over), with features for a hiss in place of those for speech.
//
// The phone sends frames; nothing is recorded. The limits below were set on
// synthetic scenes; they are the authors' judgement and no proof for the field,
// so the screen offers a correction by hand.
package listen

import "math"

// Frame is what one stretch of sound of about 21 ms holds (2048 samples at
// 48 kHz, half overlapping): mean power of its spectrum in dB, where a tone at
// full scale has 0 dB in its own bin, as Web Audio's analyser reckons.
type Frame struct {
	At   int64   `json:"at"`   // ms since 1970, its middle
	High float64 `json:"high"` // 4 to 14 kHz
	Low  float64 `json:"low"`  // 0.1 to 2 kHz
	Flat float64 `json:"flat"` // geometric over arithmetic mean of power in 4 to 14 kHz, dB, at most 0
}

// State is what is heard.
type State string

const (
	Quiet  State = "quiet"
	Arc    State = "arc"
	Other  State = "other"  // loud, but no hiss
	Masked State = "masked" // loud with too much else in it: an arc could hide there
)

// Heard is one finished arc.
type Heard struct {
	Start int64 `json:"start"` // ms since 1970
	Stop  int64 `json:"stop"`
}

// The limits, in dB and frames.
const (
	smoothing  = 0.4    // share of a new frame in the smoothed features
	onLevel    = -75.0  // a jet of 98 dB(A) or more stands above this on a phone ten paces away
	silence    = -140.0 // below the noise of any microphone: none is running
	onAbove    = 15.0   // level over the floor at which an arc may begin
	onTilt     = -3.0   // high minus low
	onFlat     = -6.0
	offAbove   = 10.0
	offTilt    = -6.0
	offFlat    = -7.5
	offDrop    = 6.0 // below the level held while on: the arc is out, the air blows on
	again      = 5.0 // within this of the held level, the arc is back
	onFrames   = 7   // 150 ms
	offFrames  = 14  // 300 ms
	floorDown  = 0.2
	floorUp    = 0.02 // dB a frame
	loud       = 15.0 // over the floor: something is there
	heldShare  = 0.05 // how fast the held level follows
	frameBreak = 500  // ms without a frame: the microphone was away
)

// Detector hears arcs in a stream of frames. The zero value is ready; it is
// not safe for several goroutines.
type Detector struct {
	started          bool
	high, tilt, flat float64 // smoothed
	floor            float64
	held             float64 // level while on
	on, locked       bool
	count            int // frames in a row that speak for a change
	byDrop           bool
	arc              Heard
	since, last      int64
}

// Step takes the next frame. It returns what is heard now and, at the frame in
// which an arc turns out to have ended, that arc. Both edges of it are dated
// back by the frames that it took to be sure.
func (d *Detector) Step(f Frame) (State, *Heard) {
	if !finite(f.High, f.Low, f.Flat) || f.High < silence {
		return d.state(), nil
	}
	if !d.started {
		d.started, d.high, d.tilt, d.flat, d.floor = true, f.High, f.High-f.Low, f.Flat, f.High
	}
	if d.last != 0 && f.At-d.last > frameBreak && d.on {
		broke := d.last
		d.last = f.At
		return d.state(), d.end(broke)
	}
	d.last = f.At
	d.high += smoothing * (f.High - d.high)
	d.tilt += smoothing * (f.High - f.Low - d.tilt)
	d.flat += smoothing * (f.Flat - d.flat)
	if d.on {
		return d.stepOn(f)
	}
	return d.stepOff(f), nil
}

// stepOff looks for an arc to begin.
func (d *Detector) stepOff(f Frame) State {
	if d.high < d.floor {
		d.floor += floorDown * (d.high - d.floor)
	} else {
		d.floor += math.Min(floorUp, d.high-d.floor)
	}
	hiss := d.high > onLevel && d.high-d.floor > onAbove && d.tilt > onTilt && d.flat > onFlat
	if d.locked {
		// Air alone after an arc: wait until it stops or the arc is back.
		if d.high > d.held-again && hiss {
			d.locked = false
		} else if d.high-d.floor < offAbove {
			d.locked = false
		}
	}
	if !hiss || d.locked {
		d.count = 0
		return d.state()
	}
	if d.count == 0 {
		d.since = f.At
	}
	d.count++
	if d.count >= onFrames {
		d.on, d.count, d.held = true, 0, d.high
		d.arc = Heard{Start: d.since}
	}
	return d.state()
}

// stepOn looks for the arc to end.
func (d *Detector) stepOn(f Frame) (State, *Heard) {
	drop := d.high < d.held-offDrop
	out := drop || d.high-d.floor < offAbove || d.tilt < offTilt || d.flat < offFlat
	if !out {
		d.held += heldShare * (d.high - d.held)
		d.count = 0
		return Arc, nil
	}
	if d.count == 0 {
		d.since, d.byDrop = f.At, drop
	}
	d.count++
	if d.count < offFrames {
		return Arc, nil
	}
	return d.state(), d.end(d.since)
}

// end closes the arc at that time.
func (d *Detector) end(at int64) *Heard {
	d.on, d.count, d.locked = false, 0, d.byDrop && d.high-d.floor >= offAbove
	d.byDrop = false
	arc := d.arc
	arc.Stop = max(at, arc.Start)
	return &arc
}

// Running returns the start of the arc that is heard now, 0 for none.
func (d *Detector) Running() int64 {
	if d.on {
		return d.arc.Start
	}
	return 0
}

// Level is how far the sound stands over the floor, 0 to 1 for a bar.
func (d *Detector) Level() float64 { return math.Min(1, math.Max(0, (d.high-d.floor)/40)) }

func (d *Detector) state() State {
	switch {
	case d.on:
		return Arc
	case d.high-d.floor <= loud:
		return Quiet
	case d.flat > onFlat && !d.locked:
		return Masked // hissing high up, but too much lies beneath it
	}
	return Other
}

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
