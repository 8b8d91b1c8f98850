package wear

import (
	"kerfside/calc/life"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// ElectrodeInput is an electrode in the torch, the crew's readings and the job
// ahead.
type ElectrodeInput struct {
	Depth     unit.Length // of the pit now
	DepthRead bool        // Depth was read; else it is reckoned, where it can be
	Limit     unit.Length // change at this depth
	Insert    unit.Length // depth of the insert; 0 if not known
	OffCentre bool
	Now       Reading   // starts and minutes of this electrode; 0 if not counted
	Readings  []Reading // of this rig's electrodes, this one aside

	JobStarts, JobMinutes float64 // what is asked of it still; 0 if not known
	Confidence            unit.Ratio
}

// ElectrodeResult is the verdict on the pit and how long it lasts.
type ElectrodeResult struct {
	Verdict string // "change", "look often" or "good"
	Why     string
	Limit   unit.Length // the nearer of limit and insert
	Used    unit.Ratio  // depth / Limit

	Wear *WearFit // nil without readings
	Outlook
}

// ComputeElectrode judges the pit and forecasts it. Wear has two parts, starts
// and steady arc, added (Q. J. Japan Weld. Soc. 28(3), 311–318, 2010;
// Nemchinsky, IEEE Trans. Plasma Sci. 42(1), 199–215, 2014):
//
//	depth = k_start·starts + k_time·minutes        both k ≥ 0
//
// fitted by non-negative least squares to the crew's readings. The range of the
// forecast is that of one later reading (ahead.outlook), and is given only where no
// k is held at nothing, a reading is to spare and the point lies no further out than
// the readings do. Without a range a job that would use more than half of what is
// left is called doubtful. With one reading, or starts and minutes that always went
// together, only the wear at that mix is known, and only that mix (within a tenth) is
// forecast by it. What no reading tells is guessed, in a wide range, from what is
// taken for granted of electrodes (life.PriorOf).
func ComputeElectrode(in ElectrodeInput) (ElectrodeResult, error) {
	res := ElectrodeResult{Limit: in.Limit}
	if in.Insert > 0 && in.Insert < in.Limit {
		res.Limit = in.Insert
	}
	readings := in.Readings
	counted := in.Now.Starts > 0 || in.Now.Minutes > 0
	if counted && in.DepthRead {
		readings = append(readings[:len(readings):len(readings)], Reading{Starts: in.Now.Starts, Minutes: in.Now.Minutes, Depth: float64(in.Depth)})
	}
	if !in.DepthRead && !in.OffCentre && (len(readings) == 0 || !counted) {
		return ElectrodeResult{}, problem.New(problem.Missing, "depth", "there is nothing to judge yet", "Read the pit with a depth gauge. Or enter this electrode's starts and minutes, and readings of others.")
	}
	for i, r := range readings {
		if r.Starts <= 0 && r.Minutes <= 0 {
			return ElectrodeResult{}, problem.Newf(problem.Malformed, "readings", "reading %d has neither starts nor minutes", i+1).WithHint("Write starts:minutes:depth, such as 120:25min:0.4mm.")
		}
	}
	if len(readings) > 0 {
		res.Wear = learn(readings)
	}
	depth := float64(in.Depth)
	if !in.DepthRead && counted && res.Wear != nil {
		depth = res.Wear.depth(in.Now.Starts, in.Now.Minutes)
	}
	res.Used = unit.Ratio(depth / float64(res.Limit))
	res.Verdict, res.Why = in.verdict(res)
	if !in.OffCentre || in.DepthRead {
		res.Outlook = ahead{limit: float64(res.Limit), now: depth, read: in.DepthRead, own: counted && in.DepthRead,
			so: life.Use{Minutes: in.Now.Minutes, Starts: in.Now.Starts}, job: life.Use{Minutes: in.JobMinutes, Starts: in.JobStarts},
			confidence: in.Confidence, slot: "electrode", usual: usualPit}.outlook(res.Wear)
	}
	return res, nil
}

// usualPit is the pit at which the lives end that are taken for granted. Common practice.
const usualPit = 1.5e-3

func (in ElectrodeInput) verdict(res ElectrodeResult) (verdict, why string) {
	switch {
	case in.OffCentre:
		return "change", "the pit is off centre"
	case in.Insert > 0 && in.Depth >= in.Insert:
		return "change", "the insert is gone"
	case res.Used >= 1-1e-12:
		return "change", "the pit is at its limit"
	case res.Used >= 0.5:
		return "look often", "the pit is past half its limit"
	}
	return "good", "the pit is under half its limit"
}
