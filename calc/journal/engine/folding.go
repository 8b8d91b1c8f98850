package engine

import (
	"encoding/json"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/problem"
)

// Restored answers journal-restore.
type Restored struct {
	Fold  int      `json:"fold"`
	L     int64    `json:"l"`
	Stale []string `json:"stale"`
}

func (e *Engine) restore(in struct {
	Segments []fold.Segment `json:"rungs"`
}) (Restored, error) {
	var err error
	e.fold, e.l, err = fold.Restore(in.Segments)
	v := Restored{Fold: fold.FoldVersion, L: e.l, Stale: []string{}}
	if err != nil { // the events are all there; only the short cut is lost
		for _, r := range in.Segments {
			v.Stale = append(v.Stale, r.Name)
		}
	}
	return v, nil
}

// Folded answers journal-fold.
type Folded struct {
	Fold     int                        `json:"fold"`
	L        int64                      `json:"l"`
	Views    map[string]json.RawMessage `json:"views,omitempty"`
	Arc      map[string]fold.RunningArc `json:"arc"`
	Segments []fold.Segment             `json:"rungs"`
	Refused  []Unfolded                 `json:"refused"`
}

// Unfolded is a record that cannot be read as an event.
type Unfolded struct {
	L     int64          `json:"l"`
	Error *problem.Error `json:"error"`
}

func (e *Engine) foldRecords(in struct {
	Events []event.Record `json:"events"`
	More   bool           `json:"more"`
	Keep   bool           `json:"keep"`
	Device string         `json:"device"`
}) (Folded, error) {
	v := Folded{Fold: fold.FoldVersion, Refused: []Unfolded{}}
	for _, r := range in.Events {
		e.l = max(e.l, r.L)
		read, err := event.Decode([]byte(r.Raw))
		if err != nil {
			v.Refused = append(v.Refused, Unfolded{r.L, problem.From(err)})
			continue
		}
		e.fold.Add(read, r.O, r.N)
	}
	v.L = e.l
	if in.More {
		return v, nil
	}
	v.Arc = e.fold.Arcs(in.Device)
	v.Segments = e.fold.ChangedSegments(e.l, in.Keep)
	var err error
	v.Views, err = e.fold.ChangedViews()
	return v, err
}
