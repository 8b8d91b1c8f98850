package fold

import (
	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// upkeepTasks are the tasks of upkeep that every rig has. Any other word is the crew's own.
var upkeepTasks = []string{"drain", "filter", "oil", "lead", "blow-out", "extinguisher"}

// limits of upkeep that can be: about a hundred years.
const (
	mostDays  = 36_500
	mostHours = mostDays * 24 * 3600 * 1000 // ms
)

var upkeepFamily = family{kinds: []string{"upkeep.done"}, add: (*index).addUpkeep, drop: (*index).dropUpkeep}

// addUpkeep takes a task that was done. A trap is drained and a filter changed whichever
// kind tells of it.
func (x *index) addUpkeep(e *entry) {
	r := x.rig(x.rigOf(e))
	e.rig, r.cached = r, nil
	r.doneOf(e.body.Text("task")).put(e)
}

// dropUpkeep takes it out again.
func (x *index) dropUpkeep(e *entry) {
	e.rig.cached = nil
	e.rig.doneOf(e.body.Text("task")).remove(e)
}

// doneOf returns the list of the times that a task was done, a new one if need be.
func (r *rig) doneOf(task string) *sortedList[*entry] {
	switch task {
	case "drain":
		return &r.drains
	case "filter":
		return &r.filters
	}
	list := r.upkeep[task]
	if list == nil {
		list = &sortedList[*entry]{compare: byPlace}
		r.upkeep[task] = list
	}
	return list
}

// isLimits reports whether a field says how often a task is due.
func isLimits(kind, field string) bool {
	return kind == "rig.set" && len(field) > len(event.UpkeepField) && field[:len(event.UpkeepField)] == event.UpkeepField
}

// tasks returns the tasks of a rig: those that every rig has, then by name those that
// were ever done or that a field of the rig speaks of.
func (r *rig) tasks() []string {
	own := map[string]bool{}
	for task, list := range r.upkeep {
		if len(visible(list.all())) > 0 {
			own[task] = true
		}
	}
	for field := range r.fields {
		if !isLimits("rig.set", field) {
			continue
		}
		if w, ok := r.fields.winner(field); ok && string(w.value) != "null" {
			own[field[len(event.UpkeepField):]] = true
		}
	}
	all := append([]string{}, upkeepTasks...)
	for _, task := range all {
		delete(own, task)
	}
	return append(all, order.Keys(own)...)
}

// limitsOf returns how often a task of the rig is due.
func (r *rig) limitsOf(task string) UpkeepLimits {
	var v UpkeepLimits
	if w, ok := r.fields.winner(event.UpkeepField + task); ok {
		v.By = w.by.id
		b := event.ReadBody(w.value)
		v.Days = wholeIn(b, "days", mostDays)
		v.Arc = wholeIn(b, "arc", mostHours)
		v.Hours = wholeIn(b, "hours", mostHours)
		v.Name = b.Text("name")
		v.Off = string(b.Get("off")) == "true"
	}
	if task == "drain" && v.Arc == 0 {
		v.Arc = r.every()
	}
	return v
}
