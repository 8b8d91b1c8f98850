package fold

import (
	"encoding/json"
	"slices"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
	"kerfside/calc/problem"
)

// SessionView is a session with all that was entered in it.
type SessionView struct {
	Session
	Fields
	Lines []SessionLine `json:"entries"`
	Check []Warning     `json:"check"`
}

// SessionLine is one entry of a session.
type SessionLine struct {
	ID      string          `json:"id"`
	Kind    string          `json:"kind"`
	V       int64           `json:"v"` // above 1: of a newer version, listed and not counted
	About   string          `json:"about"`
	At      int64           `json:"at"`
	T       event.Stamp     `json:"t"`
	O       event.Stamp     `json:"o"`
	N       int64           `json:"n"` // 0 while it is on this phone alone
	Wall    json.RawMessage `json:"wall"`
	Device  string          `json:"device"`
	Body    json.RawMessage `json:"body"`
	Void    bool            `json:"void"`
	History []Correction    `json:"history"`
	Arc     *ArcTimes       `json:"arc,omitempty"`
	Cleared string          `json:"cleared,omitempty"` // what cleared this failed check
	How     string          `json:"how,omitempty"`     // what was done to clear it
	Check   []Warning       `json:"check"`
}

// ArcTimes is when the arc of an entry burnt.
type ArcTimes struct {
	Start   int64  `json:"start"`
	Stop    int64  `json:"stop"`
	Ms      int64  `json:"ms"`
	Starts  int64  `json:"starts"`
	Running bool   `json:"running"`
	By      string `json:"by,omitempty"` // the entry that stopped it
}

// Session returns the view of a session. Its error is a problem.
func (f *Fold) Session(id string) (SessionView, error) {
	x := f.settled()
	s := x.sessions[x.same.of(id)]
	if s == nil || id == "" {
		return SessionView{}, problem.New(problem.NotFound, "id", "there is no such session on this phone", "It may come with the next sync.")
	}
	return s.view(x), nil
}

func (s *session) view(x *index) SessionView {
	v := SessionView{Session: *s.summary(x), Fields: s.fields.view(), Lines: []SessionLine{}, Check: []Warning{}}
	list := order.Sorted(s.all(), byPlace)
	for _, e := range list {
		if !x.hasOwnLine(e) {
			continue
		}
		l := x.sessionLine(e)
		v.Check = append(v.Check, l.Check...)
		v.Lines = append(v.Lines, l)
	}
	return v
}

// sessionLine returns the line of an entry.
func (x *index) sessionLine(e *entry) SessionLine {
	l := SessionLine{ID: e.id, Kind: e.kind, V: e.v, About: x.same.of(e.about), At: e.when(), T: e.t, O: e.o, N: e.n, Wall: e.wall, Device: e.device,
		Body: e.raw(), Void: e.hidden, History: e.history, Check: e.warnings}
	if l.History == nil {
		l.History = []Correction{}
	}
	if l.Check == nil {
		l.Check = []Warning{}
	}
	if a := x.arcs[e.id]; a != nil && a.start == e {
		if s, ok := a.span(); ok {
			l.Arc = &ArcTimes{Start: s.start, Stop: s.stop, Ms: s.stop - s.start, Starts: s.starts, Running: s.running}
			if stop := a.firstStop(); stop != nil {
				l.Arc.By = stop.id
			}
		}
		if len(visible(a.stops)) > 1 {
			l.Check = append(slices.Clip(l.Check), Warning{What: "stopped-twice", ID: e.id, Msg: "this arc was stopped more than once; the first stop counts"})
		}
	}
	if e.counts("check.answered") {
		if c := x.clearing(e); c != nil {
			l.Cleared, l.How = c.id, c.body.Text("why")
		}
	}
	if e.counts("arc.stopped") {
		l.Check = append(slices.Clip(l.Check), Warning{What: "no-start", ID: e.id, Msg: "the start of this arc is not here yet"})
	}
	return l
}
