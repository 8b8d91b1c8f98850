package listen

import "math"

// Detector hears arcs in a stream of frames. The zero value is ready; it is
// not safe for several goroutines.
type Detector struct {
	limits           limits
	started          bool
	high, tilt, flat float64 // smoothed
	low, steady      float64 // smoothed, and what it is when nothing else sounds
	floor            float64
	held, heldTilt   float64 // of the arc, while on
	narrow           float64 // share of the last frames with nothing in the rest of the upper band
	air              float64 // level of the air after it, while locked
	fell             float64 // how far the air is below the arc that it followed
	on, locked       bool
	count            int   // evidence for a change, in frames
	rises            int   // evidence that what was taken for an arc was air
	since            int64 // first of those frames
	arc              Heard
	last             int64
	past             past
	mask             mask
}

// Teach sets the limits by a calibration cut.
func (d *Detector) Teach(t Taught) { d.limits = t.limits() }

// Step takes the next frame. It returns what is heard now and, at the frame in
// which an arc turns out to have ended, that arc. Both edges of it are where the
// sound changed, however long it took to be sure.
func (d *Detector) Step(f Frame) (State, *Heard) {
	if !finite(f.High, f.Low, f.Flat, f.Near, f.NearFlat) {
		return d.state(), nil
	}
	if d.last != 0 && f.At-d.last > frameBreak {
		broke := d.last
		d.last, d.past, d.high, d.low = f.At, past{}, d.floor, d.steady
		d.mask.end(broke)
		if d.on {
			arc := d.end(broke, false)
			return d.state(), arc
		}
	}
	if f.High < silence {
		return d.state(), nil
	}
	high, flat := d.band(f)
	if !d.started {
		d.started, d.high, d.tilt, d.flat, d.low, d.steady, d.floor = true, high, high-f.Low, flat, f.Low, f.Low, high
		if d.limits == (limits{}) {
			d.limits = standard()
		}
	}
	d.last = f.At
	d.high += smoothing * (high - d.high)
	d.low += smoothing * (f.Low - d.low)
	d.tilt = d.high - d.added()
	d.flat += smoothing * (flat - d.flat)
	d.past.put(f.At, high)
	if d.on {
		return d.stepOn(f.At)
	}
	d.stepOff(f.At)
	return d.state(), nil
}

// band returns level and flatness of the upper band: the narrow one where there is
// nothing in the rest of it, as when the microphone is sampled at 16 kHz.
func (d *Detector) band(f Frame) (level, flat float64) {
	share := 0.0
	if f.isNarrow() {
		share = 1
	}
	if !d.started {
		d.narrow = share
	}
	d.narrow += 0.1 * (share - d.narrow)
	if d.narrow > 0.5 {
		return f.Near, f.NearFlat
	}
	return f.High, f.Flat
}

func (f Frame) isNarrow() bool { return f.Near != 0 && f.Near-f.High > 3 && f.NearFlat-f.Flat > 8 }

// clean says whether what is heard is a hiss and little else; once arcs were heard, as little as with them.
func (d *Detector) clean() bool { return d.tilt > d.limits.tilt && d.flat > d.limits.flat }

// added is how loud low down is what was added to the steady noise of the place, as a compressor
// makes; it is not told from its wavering below a sixth of it.
func (d *Detector) added() float64 {
	power, steady := math.Pow(10, d.low/10), math.Pow(10, d.steady/10)
	return 10 * math.Log10(math.Max(power-steady, power/6))
}

// stepOff looks for an arc to begin.
func (d *Detector) stepOff(at int64) {
	hiss := d.high > d.limits.level && d.high-d.floor > d.limits.above && d.clean()
	if d.locked {
		switch {
		case hiss && (d.high > d.air+math.Max(leastFall, d.fell/2) || d.high > d.held-again):
			// The arc is back in its own air.
		case d.high-d.floor < offAbove:
			d.locked = false
		default:
			hiss = false
			if d.clean() {
				d.air += heldShare * (d.high - d.air)
			}
		}
	}
	if hiss {
		if d.count == 0 {
			d.since = at
		}
		d.count++
	} else {
		d.count = max(0, d.count-2)
	}
	d.mask.step(at, d.count == 0 && d.couldHide())
	d.learnFloor()
	if d.count < onFrames {
		return
	}
	d.on, d.locked, d.count, d.rises, d.held, d.heldTilt = true, false, 0, 0, d.past.level(), d.tilt
	d.arc = Heard{Start: d.since, Starts: 1}
	if !d.mask.on {
		d.arc.Start = d.past.rise(d.since)
	}
	if d.mask.behind(d.arc.Start) {
		d.arc.Starts = 0
	}
	d.mask.end(d.arc.Start)
}

// learnFloor follows the quiet between the sounds; what may be an arc, air or a mask is none.
func (d *Detector) learnFloor() {
	if d.count == 0 && d.high-d.floor < loud/2 {
		d.steady += heldShare * (d.low - d.steady)
	}
	switch {
	case d.high < d.floor:
		d.floor += floorDown * (d.high - d.floor)
	case d.count == 0 && !d.locked && !d.mask.on:
		d.floor += math.Min(floorUp, d.high-d.floor)
	}
}

// couldHide says whether an arc could burn in what is heard, and not be found.
func (d *Detector) couldHide() bool {
	arc := d.limits.arc
	switch {
	case math.IsNaN(arc) && d.floor > d.limits.level, d.floor > arc-d.limits.above:
		return true // so loud all the time that an arc does not stand out
	case d.clean():
		return false
	case math.IsNaN(arc):
		return d.high > d.limits.level && d.high-d.floor > loud/2 || d.added() > -60
	}
	return d.high > arc-hides || d.added() > arc-d.limits.tilt-1
}

// stepOn looks for the arc to end. Level and colour count together: a grinder that runs on
// makes the drop small, and the colour plain.
func (d *Detector) stepOn(at int64) (State, *Heard) {
	fall, shift := d.held-d.high, (d.heldTilt-d.tilt)/tiltShare
	if d.tilt > plain {
		shift = 0
	}
	gone := fall > d.limits.drop || d.high-d.floor < offAbove
	other := d.flat < d.limits.offFlat || d.tilt < d.limits.offTilt && math.Abs(fall) > near ||
		shift > 1 || shift > 0 && shift+fall/d.limits.drop > 1.2
	if !gone && !other {
		d.count = 0
		d.rise(at, fall)
		return Arc, nil
	}
	if d.count == 0 {
		d.since = at
	}
	d.count++
	blows := fall > leastFall && d.high-d.floor >= offAbove
	switch {
	case gone && !other && d.count >= goneFrames:
		arc := d.end(d.past.fall(d.since, d.held), blows)
		return d.state(), arc
	case d.count < otherFrames:
		return Arc, nil
	}
	if d.couldHide() {
		d.mask.begin(d.since)
	}
	arc := d.end(d.since, blows)
	return d.state(), arc
}

// rise follows the level of the arc; where it goes up at once soon after it began, what
// was before is air that flowed ahead of the arc.
func (d *Detector) rise(at int64, fall float64) {
	if -fall > d.limits.drop && d.clean() && at-d.arc.Start < airFirst {
		if d.rises == 0 {
			d.since = at
		}
		if d.rises++; d.rises >= onFrames {
			d.held = d.past.level()
			d.arc.Start, d.rises = d.past.rise(d.since), 0
		}
		return
	}
	d.rises = 0
	if d.tilt > d.limits.offTilt {
		d.held -= heldShare * fall
		d.heldTilt += heldShare / 4 * (d.tilt - d.heldTilt)
	}
}

// end closes the arc; blows says that air goes on.
func (d *Detector) end(at int64, blows bool) *Heard {
	d.on, d.count, d.locked = false, 0, blows
	d.air, d.fell = d.high, d.held-d.high
	if arc := d.limits.arc; math.IsNaN(arc) {
		d.limits.arc = d.held
	} else {
		d.limits.arc += 0.3 * (d.held - arc)
	}
	d.limits.tilt = math.Max(d.limits.tilt, math.Min(plain, d.heldTilt-tiltShare))
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

// Hidden returns how long it was masked until now, ms.
func (d *Detector) Hidden() int64 { return d.mask.total(d.last) }

// Level is how far the sound stands over the floor, 0 to 1 for a bar.
func (d *Detector) Level() float64 { return between(0, (d.high-d.floor)/40, 1) }

func (d *Detector) state() State {
	switch {
	case d.on:
		return Arc
	case d.mask.on:
		return Masked
	case d.locked:
		return Air
	case d.high-d.floor > loud || d.low > -70:
		return Other
	}
	return Quiet
}
