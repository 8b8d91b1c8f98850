package fold

// RunningArc is a running arc as meta keeps it.
type RunningArc struct {
	ID    string `json:"id"`
	Start int64  `json:"start"`
	In    string `json:"in"`
}

// Arcs returns the running arc of each rig that has one and whose session is
// open: one that this device started before one that another did, the newest
// first.
func (f *Fold) Arcs(device string) map[string]RunningArc {
	arcs := map[string]RunningArc{}
	own := map[string]bool{}
	x := f.settled()
	for _, a := range x.burning.all() { // oldest first
		mine := a.start.device == device
		if a.in != "" && !x.session(a.in).summary(x).Open || own[a.rig] && !mine {
			continue // forgotten: its session is closed
		}
		own[a.rig] = mine
		arcs[a.rig] = RunningArc{ID: a.start.id, Start: a.start.when(), In: a.in}
	}
	return arcs
}
