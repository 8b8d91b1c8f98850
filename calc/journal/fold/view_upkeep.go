package fold

import (
	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// Upkeep is what each rig wants doing from time to time, and when it was done. What is due
// is for others to judge: it depends on what time it is.
type Upkeep struct {
	Rigs []RigUpkeep `json:"rigs"`
}

// RigUpkeep is the upkeep of a rig.
type RigUpkeep struct {
	Rig   string       `json:"rig"`
	Name  string       `json:"name"`
	Ms    int64        `json:"ms"`    // its arc time
	Hours int64        `json:"hours"` // ms at work
	Tasks []UpkeepTask `json:"tasks"` // those that the app knows first, then the crew's own by name
}

// UpkeepTask is a task of upkeep of a rig.
type UpkeepTask struct {
	Task   string       `json:"task"`
	At     int64        `json:"at"`     // last done; 0 if never
	ID     string       `json:"id"`     // the event that told so
	Device string       `json:"device"` // and its phone
	Ms     int64        `json:"ms"`     // arc time of the rig since; all of it if it was never done
	Hours  int64        `json:"hours"`  // ms at work since, likewise
	Next   int64        `json:"next"`   // the date that stands on the thing, by the last time; 0 if that said none
	Limits UpkeepLimits `json:"limits"`
	Times  []UpkeepTime `json:"times"` // the last of them, the newest first
}

// UpkeepLimits are how often a task is due; 0 is no limit.
type UpkeepLimits struct {
	Days  int64  `json:"days"`
	Arc   int64  `json:"arc"`   // ms of arc
	Hours int64  `json:"hours"` // ms at work
	Off   bool   `json:"off"`   // not kept for this rig
	Name  string `json:"name"`  // what the crew calls the task
	By    string `json:"by"`    // the event that set it, "" if none did
}

// UpkeepTime is one time that a task was done.
type UpkeepTime struct {
	ID     string `json:"id"`
	At     int64  `json:"at"`
	Kind   string `json:"kind"`
	In     string `json:"in"`
	Device string `json:"device"`
	Next   int64  `json:"next"`
	Note   string `json:"note"`
}

// upkeepTimes is how many times of a task are shown.
const upkeepTimes = 5

// Upkeep returns the upkeep of all rigs, at the time now: a session that is open goes on
// until then.
func (f *Fold) Upkeep(now int64) Upkeep {
	x := f.settled()
	v := Upkeep{Rigs: []RigUpkeep{}}
	at := x.atWork(now)
	for _, id := range order.Keys(x.rigs) {
		r := x.rigs[id]
		if id == "" || r.isNothing() {
			continue
		}
		one := RigUpkeep{Rig: id, Name: r.fields.text("name"), Hours: since(at[id], always), Tasks: []UpkeepTask{}}
		one.Ms, _ = r.timeline.total()
		for _, task := range r.tasks() {
			one.Tasks = append(one.Tasks, r.task(x, task, at[id]))
		}
		v.Rigs = append(v.Rigs, one)
	}
	return v
}

// task returns a task of the rig.
func (r *rig) task(x *index, task string, work []span) UpkeepTask {
	v := UpkeepTask{Task: task, Limits: r.limitsOf(task), Times: []UpkeepTime{}}
	done := r.doneOf(task).all()
	v.At, v.Ms = r.timeline.since(done)
	from := int64(always)
	for i := len(done) - 1; i >= 0 && len(v.Times) < upkeepTimes; i-- {
		e := done[i]
		if e.hidden {
			continue
		}
		one := UpkeepTime{ID: e.id, At: e.when(), Kind: e.kind, In: x.sessionOf(e), Device: e.device, Note: e.body.Text("note")}
		if e.kind == "upkeep.done" {
			one.Next = wholeIn(e.body, "next", event.MaxMillis)
		}
		if len(v.Times) == 0 {
			v.ID, v.Device, v.Next, from = one.ID, one.Device, one.Next, one.At
		}
		v.Times = append(v.Times, one)
	}
	v.Hours = since(work, from)
	return v
}

// isNothing reports whether nothing of the rig stands.
func (r *rig) isNothing() bool {
	if !r.fields.empty() || len(r.timeline.union()) > 0 || len(r.inside) > 0 {
		return false
	}
	for _, task := range append(order.Keys(r.upkeep), "drain", "filter") {
		if len(visible(r.doneOf(task).all())) > 0 {
			return false
		}
	}
	return true
}
