// Package listen hears from a phone's microphone whether the arc burns. What
// dominates the sound of plasma cutting is its jet of air (HSE, Noise in
// welding), a broad hiss that is stronger high up than low down; after the arc
// the air blows on alone, alike in colour and quieter. The detector follows
// the pattern of voice-activity detectors (running noise floor, several
// features, hang-over), with features for a hiss in place of those for speech:
//
//   - An arc begins with a hiss that stands out for a fifth of a second.
//   - It is out when the hiss is gone, or drops to a lower level at once. What
//     blows on from there is air, until it stops or rises again as far.
//   - A hiss that rises at once soon after it began was air before.
//   - Noise in which an arc could hide is masked, and its time is told. What
//     burns in there is not counted; the person says what there was.
//
// The phone sends frames; nothing is recorded. The limits were set on synthetic
// scenes; they are the authors' judgement and no proof for the field: no real
// torch has been heard yet. So the screen says that, and offers a correction by
// hand, and a cut by which the limits are set to one torch, rig and phone (Taught).
// Air that is blown by hand, without an arc before it, sounds alike and is counted.
package listen

// Frame is what one stretch of sound of about 21 ms holds (2048 samples at
// 48 kHz, half overlapping): mean power of its spectrum in dB, where a tone at
// full scale has 0 dB in its own bin, as Web Audio's analyser reckons.
type Frame struct {
	At       int64   `json:"at"`       // ms since 1970, its middle
	High     float64 `json:"high"`     // 4 to 14 kHz
	Low      float64 `json:"low"`      // 1 to 3 kHz, where voices, hammers and grinders are strong, and wind and compressors are not
	Flat     float64 `json:"flat"`     // geometric over arithmetic mean of power in 4 to 14 kHz, dB, at most 0
	Near     float64 `json:"near"`     // as High, 4 to 7.5 kHz: all that a microphone hears that is sampled at 16 kHz. 0 for not told
	NearFlat float64 `json:"nearFlat"` // as Flat, there
}

// State is what is heard.
type State string

const (
	Quiet  State = "quiet"
	Arc    State = "arc"
	Air    State = "air"    // what blows on after an arc
	Other  State = "other"  // loud, but no arc could hide in it
	Masked State = "masked" // an arc could hide in it
)

// Heard is one finished arc, or a stretch that was masked.
type Heard struct {
	Start  int64 `json:"start"`  // ms since 1970
	Stop   int64 `json:"stop"`   // ms since 1970
	Starts int   `json:"starts"` // 0 for an arc that goes on behind a masked stretch, else 1
}
