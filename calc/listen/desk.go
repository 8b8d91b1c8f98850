package listen

import (
	"encoding/json"

	"kerfside/calc/problem"
)

// Ear is the detector behind the phone's call "listen":
//
//	in  {"frames": [Frame, …], "reset": true?}
//	out {"state": "arc", "level": 0.7, "running": ms or 0, "arcs": [{"start", "stop"}, …]}
//
// Frames come in batches of a few tenths of a second; reset begins anew.
type Ear struct{ detector Detector }

// Report is the answer to one batch.
type Report struct {
	State   State   `json:"state"`
	Level   float64 `json:"level"`
	Running int64   `json:"running"`
	Arcs    []Heard `json:"arcs"`
}

// maxFrames bounds a batch: ten seconds of sound.
const maxFrames = 500

// Call takes a batch of frames.
func (e *Ear) Call(input []byte) (Report, error) {
	var in struct {
		Frames []Frame `json:"frames"`
		Reset  bool    `json:"reset"`
	}
	if err := json.Unmarshal(input, &in); err != nil || len(in.Frames) > maxFrames {
		return Report{}, problem.New(problem.Malformed, "frames", "the frames cannot be read", "Send at most ten seconds of frames at once.")
	}
	if in.Reset {
		e.detector = Detector{}
	}
	r := Report{State: Quiet, Arcs: []Heard{}}
	for _, f := range in.Frames {
		state, arc := e.detector.Step(f)
		r.State = state
		if arc != nil {
			r.Arcs = append(r.Arcs, *arc)
		}
	}
	r.Level, r.Running = e.detector.Level(), e.detector.Running()
	return r, nil
}
