package listen

import "math"

// The limits, in dB, and in frames of 21 ms.
const (
	smoothing   = 0.4    // share of a new frame in the smoothed features
	silence     = -140.0 // below the noise of any microphone: none is running
	offAbove    = 9.0    // level over the floor under which nothing is left of an arc
	leastFall   = 2.5    // less is no change of what sounds
	again       = 3.0    // so near the arc before, it is back
	tiltShare   = 5.5    // lower than the arc's own tilt by that, something has joined it
	plain       = 3.0    // with a tilt like that no noise is in it that could hide an arc
	near        = 2.0    // this close to its level a hiss is still the same one
	onFrames    = 9      // 190 ms, longer than a hiss in speech
	goneFrames  = 8      // 170 ms; shorter gaps are lost buffers
	otherFrames = 14     // 300 ms; blows of a hammer are shorter
	maskFrames  = 15     // 320 ms
	floorDown   = 0.2
	floorUp     = 0.02 // dB a frame
	loud        = 12.0 // over the floor: something is there
	heldShare   = 0.05 // how fast the level of an arc, or of air, follows
	frameBreak  = 500  // ms without a frame: the microphone was away
	airFirst    = 6000 // ms in which what rises was air before
	behind      = 3000 // ms in which an arc that comes back out of noise is the same one
	hides       = 7.0  // noise that far below an arc hides none
)

// limits are what a calibration cut may set.
type limits struct {
	level         float64 // an arc is louder than that
	above         float64 // and that far over the floor
	tilt, offTilt float64 // high minus low
	flat, offFlat float64
	drop          float64 // below the level of an arc: it is out, the air blows on
	arc           float64 // usual level of an arc, NaN if it is not known
}

// standard are the limits without a calibration cut. A jet of 98 dB(A) or more stands
// above the level on a phone ten paces away.
func standard() limits {
	return limits{level: -80, above: 15, tilt: -3, offTilt: -6, flat: -6, offFlat: -7.5, drop: 4.5, arc: math.NaN()}
}

// Taught is what a calibration cut says of one torch, heard by one phone: a few
// figures and no sound. The zero value is none.
type Taught struct {
	Level float64 `json:"level"` // of the arc, dB
	Tilt  float64 `json:"tilt"`  // high minus low
	Flat  float64 `json:"flat"`
	Drop  float64 `json:"drop"`  // of the air that blew on, below the arc; 0 if none was heard
	Floor float64 `json:"floor"` // of the place
}

// limits are what follows from a calibration cut. The phone will lie elsewhere the next
// time, so its level is worth little and its colour much.
func (t Taught) limits() limits {
	l := standard()
	if t == (Taught{}) || !finite(t.Level, t.Tilt, t.Flat, t.Drop, t.Floor) {
		return l
	}
	l.level = between(-95, t.Level-25, -60)
	l.above = between(8, (t.Level-t.Floor)/2, 15)
	l.tilt = between(-6, t.Tilt-4, 2)
	l.offTilt = l.tilt - 3
	l.flat = between(-8, t.Flat-2.5, -4)
	l.offFlat = l.flat - 1.5
	if t.Drop > 0 {
		l.drop = between(2.5, t.Drop/2, 8)
	}
	return l
}

func between(low, v, high float64) float64 { return math.Max(low, math.Min(v, high)) }

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
