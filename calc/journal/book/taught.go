package book

import (
	"cmp"
	"encoding/json"
	"fmt"
	"math"

	"kerfside/calc/chance"
	"kerfside/calc/job"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/unit"
)

// Taught answers journal-taught: what a job that was done says of the next plan.
type Taught struct {
	Quote   string            `json:"quote"`   // what was quoted for it, in words; "" if nothing was
	Planned string            `json:"planned"` // how long it was to take, in words; "" if no plan says
	Takes   map[string]string `json:"takes"`   // the same of all pieces of a cut
	Cuts    []TaughtCut       `json:"cuts"`
	Times   []TaughtTime      `json:"times"`
}

// TaughtCut is a cut as it was planned and done.
type TaughtCut struct {
	Cut    string `json:"cut"`
	Pieces int64  `json:"pieces"` // told as done, with the arcs that belong to them
	Lots   int    `json:"lots"`   // in how many lots they were told

	Arc     Ranged `json:"arc"`     // ms of a piece
	Planned int64  `json:"planned"` // ms of a piece, 0 if it was not planned
	Ratio   Ranged `json:"ratio"`   // of both; 0 if it was not planned
	Says    string `json:"says"`    // of the ratio, "" if it was not planned

	// A hint for the calibration, never put in by itself: how fast the torch went by the
	// length of the row and the arc time. µm/s; 0 if the length is not known.
	Speed        Ranged  `json:"speed"`
	PlannedSpeed float64 `json:"plannedSpeed"`
}

// Ranged is a value and where it lies with 95 %; known says that there is such a range.
type Ranged struct {
	Value float64 `json:"value"`
	Known bool    `json:"known"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

// TaughtTime is a time of the crew that the job changed. N 0 is none before it.
type TaughtTime struct {
	What   string      `json:"what"`
	Before fold.Spread `json:"before"`
	After  fold.Spread `json:"after"`
}

// plannedTime is how long a plan says that something takes, in whole s.
type plannedTime struct {
	Elapsed float64 `json:"elapsed"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
}

// says is that in words; "" of what is no plan's: what another phone wrote may be anything.
func (p plannedTime) says() string {
	low, high := cmp.Or(p.Low, p.Elapsed), cmp.Or(p.High, p.Elapsed)
	if !(p.Elapsed > 0 && 0 < low && low <= high && high < 1e7) {
		return ""
	}
	return job.SayRange(unit.Duration(low)*unit.Second, unit.Duration(high)*unit.Second)
}

// plannedCut is what a plan says of a cut.
type plannedCut struct {
	plannedTime
	N   float64 `json:"n"`
	Arc float64 `json:"arc"`
}

// arc of a piece, in ms; 0 if it is no plan's.
func (p plannedCut) arc() int64 {
	if p.N >= 1 && p.Arc > 0 && p.Arc < 1e6 {
		return int64(math.Round(p.Arc * 1000 / p.N))
	}
	return 0
}

// TaughtBy returns what a job says of the next. Its error is a problem.
func TaughtBy(f *fold.Fold, id string) (Taught, error) {
	v := Taught{Takes: map[string]string{}, Cuts: []TaughtCut{}, Times: []TaughtTime{}}
	view, err := f.Job(id)
	if err != nil {
		return v, err
	}
	v.Quote = saysQuote(view)
	lots := map[string][]fold.Lot{}
	for _, l := range f.Lots(id) {
		lots[l.Cut] = append(lots[l.Cut], l)
	}
	for _, c := range view.Cuts {
		if list := lots[c.Cut]; len(list) > 0 {
			v.Cuts = append(v.Cuts, cutOf(c, list, plannedOf(view, c.Cut).arc()))
		}
		if says := plannedOf(view, c.Cut).says(); says != "" {
			v.Takes[c.Cut] = says
		}
	}
	for _, s := range view.Work {
		var p plannedTime
		if v.Planned == "" && json.Unmarshal(s.Planned, &p) == nil {
			v.Planned = p.says()
		}
	}
	v.Times = changedTimes(f, view)
	return v, nil
}

// plannedOf returns what the first plan that has the cut says of it.
func plannedOf(view fold.JobView, cut string) plannedCut {
	for _, s := range view.Work {
		var planned struct {
			Cuts map[string]json.RawMessage `json:"cuts"`
		}
		var p plannedCut
		if json.Unmarshal(s.Planned, &planned) == nil && json.Unmarshal(planned.Cuts[cut], &p) == nil && p.arc() > 0 {
			return p
		}
	}
	return plannedCut{}
}

// cutOf compares a cut with its plan. The arc of a piece is the mean over the pieces. With
// x the arc of a piece of a lot of n pieces, of k lots and N pieces in all,
//
//	s² = Σ n(x−mean)² / (k−1)    mean ± t(0.975; k−1)·s/√N
//
// is its range with 95 %: what differs from piece to piece is taken for normal. One lot
// has no range.
func cutOf(c fold.JobCut, lots []fold.Lot, planned int64) TaughtCut {
	v := TaughtCut{Cut: c.Cut, Lots: len(lots), Planned: planned}
	ms := int64(0)
	for _, l := range lots {
		v.Pieces, ms = v.Pieces+l.Pieces, ms+l.Ms
	}
	n := float64(v.Pieces)
	v.Arc.Value = float64(ms) / n
	if free := float64(len(lots) - 1); free > 0 {
		sum := 0.0
		for _, l := range lots {
			off := float64(l.Ms)/float64(l.Pieces) - v.Arc.Value
			sum += float64(l.Pieces) * off * off
		}
		reach := chance.StudentQuantile(0.975, free) * math.Sqrt(sum/free/n)
		v.Arc.Known, v.Arc.Low, v.Arc.High = true, max(0, v.Arc.Value-reach), v.Arc.Value+reach
	}
	if planned > 0 {
		p := float64(planned)
		v.Ratio = Ranged{Value: v.Arc.Value / p, Known: v.Arc.Known, Low: v.Arc.Low / p, High: v.Arc.High / p}
		v.Says = saysOf(v.Ratio, v.Pieces)
	}
	if length, err := job.LengthOf(textsOf(c.Row)); err == nil && length > 0 && ms > 0 {
		speed := func(ms float64) float64 { return float64(length/unit.Micrometre) * 1000 / ms }
		v.Speed.Value = speed(v.Arc.Value)
		if v.Arc.Known && v.Arc.Low > 0 {
			v.Speed.Known, v.Speed.Low, v.Speed.High = true, speed(v.Arc.High), speed(v.Arc.Low)
		}
		if planned > 0 {
			v.PlannedSpeed = speed(float64(planned))
		}
	}
	return v
}

// textsOf returns the texts of a row.
func textsOf(row json.RawMessage) map[string]string {
	texts := map[string]string{}
	for _, m := range event.ReadBody(row).Members() {
		if text, err := event.Unquote(m.Value); err == nil && text != "" {
			texts[m.Key] = text
		}
	}
	return texts
}

// saysOf says in words what an arc did beside its plan, no finer than a tenth: what it
// concludes follows from the figures that it tells.
func saysOf(r Ranged, pieces int64) string {
	of := fmt.Sprintf("from %d pieces", pieces)
	if pieces == 1 {
		of = "from one piece"
	}
	head := fmt.Sprintf("The arc burned about %s times as long as planned, %s.", told(r.Value), of)
	if told(r.Value) == "1.0" {
		head = fmt.Sprintf("The arc burned about as long as planned, %s.", of)
	}
	low, high := told(r.Low), told(r.High)
	switch {
	case r.Value < 0.3: // no torch is three times as fast as planned
		return fmt.Sprintf("The arc burned less than a third as long as planned, %s. Look whether all of it was timed.", of)
	case !r.Known:
		return head + " That is too little to tell how much it varies."
	case low == high:
		return head
	case tenth(r.Low) <= 1 && tenth(r.High) >= 1:
		return head + fmt.Sprintf(" It may be %s to %s times, so the plan may be right.", low, high)
	case r.Low > 1:
		return head + fmt.Sprintf(" It may be %s to %s times: slower than planned.", low, high)
	}
	return head + fmt.Sprintf(" It may be %s to %s times: faster than planned.", low, high)
}

func tenth(x float64) float64 { return math.Round(x*10) / 10 }

// told writes a ratio to a tenth, a large one to a whole number.
func told(x float64) string {
	if x >= 9.95 {
		return fmt.Sprintf("%.0f", x)
	}
	return fmt.Sprintf("%.1f", tenth(x))
}

// changedTimes returns the crew's times that would be others without a job.
func changedTimes(f *fold.Fold, view fold.JobView) []TaughtTime {
	rig := ""
	if n := len(view.Work); n > 0 {
		rig = view.Work[n-1].Rig
	}
	before := map[string]fold.Spread{}
	for _, t := range f.TimesWithout(rig, view.ID).Times {
		before[t.What] = t.Spread
	}
	list := []TaughtTime{}
	for _, t := range f.Times(rig).Times {
		if t.N > 0 && t.Spread != before[t.What] {
			list = append(list, TaughtTime{What: t.What, Before: before[t.What], After: t.Spread})
		}
	}
	return list
}
