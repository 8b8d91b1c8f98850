package listen

import (
	"encoding/json"

	"kerfside/calc/problem"
)

// Ear is the detector behind the phone's call "listen":
//
//	in  {"frames": [Frame, …], "reset": true?, "taught": Taught?, "teach": "begin" or "end"?}
//	out {"state": "arc", "level": 0.7, "running": ms or 0, "arcs": [{"start", "stop", "starts"}, …], "hidden": ms, "taught": Taught?}
//
// Frames come in batches of a few tenths of a second; reset begins anew, with the limits that
// taught gives or with the standard ones. Between "begin" and "end" lies a calibration cut: it is
// told at the end, and so are its arcs, heard with what it taught; one that teaches nothing is
// refused with what to do, and the limits stay.
type Ear struct {
	detector Detector
	lesson   *lesson
}

// Report is the answer to one batch.
type Report struct {
	State   State   `json:"state"`
	Level   float64 `json:"level"`
	Running int64   `json:"running"`
	Arcs    []Heard `json:"arcs"`
	Hidden  int64   `json:"hidden"`           // ms that were masked since the reset
	Taught  *Taught `json:"taught,omitempty"` // at the end of a calibration cut
}

// maxFrames bounds a batch: ten seconds of sound.
const maxFrames = 500

// Call takes a batch of frames.
func (e *Ear) Call(input []byte) (Report, error) {
	var in struct {
		Frames []Frame `json:"frames"`
		Reset  bool    `json:"reset"`
		Taught Taught  `json:"taught,omitzero"`
		Teach  string  `json:"teach,omitempty"` // "begin" or "end"
	}
	if err := json.Unmarshal(input, &in); err != nil || len(in.Frames) > maxFrames {
		return Report{}, problem.New(problem.Malformed, "frames", "the frames cannot be read", "Send at most ten seconds of frames at once.")
	}
	if in.Reset {
		*e = Ear{}
		e.detector.Teach(in.Taught)
	}
	if in.Teach == "begin" {
		e.lesson = &lesson{}
	}
	r := Report{State: e.detector.state(), Arcs: []Heard{}}
	for _, f := range in.Frames {
		if e.lesson != nil {
			e.lesson.take(f)
		}
		state, arc := e.detector.Step(f)
		r.State = state
		if arc != nil && e.lesson == nil {
			r.Arcs = append(r.Arcs, *arc)
		}
	}
	if in.Teach == "end" && e.lesson != nil {
		lesson := e.lesson
		e.lesson = nil
		taught, err := lesson.teach()
		if err != nil {
			return Report{}, err
		}
		r.Taught = &taught
		e.detector = Detector{}
		e.detector.Teach(taught)
		for _, f := range lesson.frames {
			if _, arc := e.detector.Step(f); arc != nil {
				r.Arcs = append(r.Arcs, *arc)
			}
		}
		r.State = e.detector.state()
	}
	r.Level, r.Hidden = e.detector.Level(), e.detector.Hidden()
	if e.lesson == nil {
		r.Running = e.detector.Running()
	}
	return r, nil
}
