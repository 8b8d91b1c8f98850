package fold

// Now is what stands at this moment, without asking what time it is.
type Now struct {
	Session *Session    `json:"session"`
	Open    []string    `json:"open"` // open sessions, newest first
	Rigs    []RigNow    `json:"rigs"`
	Watch   []FireWatch `json:"watch"`
	Fails   []OpenFail  `json:"fails"`
	Gate    Gate        `json:"gate"`
	Faults  []OpenFault `json:"faults"`

	// Found counts the crew's confirmed faults by cause, the last word on each.
	Found map[string]int `json:"found"`
	Check []Warning      `json:"check"`
}

// OpenFail is a failed check that nothing has cleared.
type OpenFail struct {
	ID     string `json:"id"`
	Guide  string `json:"guide"`
	Step   string `json:"step"`
	Result string `json:"result"`
	Slot   string `json:"slot"`
	In     string `json:"in"`
	At     int64  `json:"at"`
}

// Now returns the view now.
func (f *Fold) Now() Now {
	x := f.settled()
	faults := x.faultsNow()
	v := Now{Open: []string{}, Rigs: x.rigsNow(), Watch: x.watchesNow(), Fails: x.failsNow(), Gate: x.gateNow(), Faults: faults.open, Found: faults.found, Check: []Warning{}}
	for _, s := range x.open.all() {
		if v.Session == nil {
			v.Session = s.bookRow
		}
		v.Open = append(v.Open, s.id)
	}
	for _, r := range v.Rigs {
		for _, p := range r.Parts {
			v.Check = append(v.Check, p.Check...)
		}
	}
	return v
}
