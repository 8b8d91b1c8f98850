package fold

import (
	"cmp"
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// jobCut is a cut of a job's list.
type jobCut struct {
	key     string
	at      int64 // its place on the list
	row     json.RawMessage
	by      string // the event that set it, or took it off
	removed bool
}

// cuts returns the cuts of the list in their order, with those that were taken off it.
func (j *job) cuts() []jobCut {
	var list []jobCut
	for field, writes := range j.fields {
		if !isCut("job.set", field) {
			continue
		}
		w, ok := j.fields.winner(field)
		if !ok || w.odd {
			continue
		}
		c := jobCut{key: field[len(event.CutField):], row: w.value, by: w.by.id, removed: string(w.value) == "null"}
		if c.removed {
			c.row = lastRow(writes)
		}
		c.at = placeOf(c.row, writes)
		list = append(list, c)
	}
	order.Sort(list, func(a, b jobCut) int { return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.key, b.key)) })
	return list
}

// lastRow returns what a cut that was taken off the list was last, null if it never was
// anything.
func lastRow(writes []write) json.RawMessage {
	var last *write
	for i, w := range writes {
		if w.by.hidden || string(w.value) == "null" {
			continue
		}
		if last == nil || w.by.place.Written(last.by.place) > 0 {
			last = &writes[i]
		}
	}
	if last == nil {
		return json.RawMessage("null")
	}
	return last.value
}

// placeOf returns the place of a cut on the list: its own "at", else when it was first
// entered, in ms.
func placeOf(row json.RawMessage, writes []write) int64 {
	if at, ok := event.ReadBody(row).Int("at"); ok {
		return at
	}
	stand := slices.DeleteFunc(slices.Clone(writes), func(w write) bool { return w.by.hidden })
	return slices.MinFunc(stand, func(a, b write) int { return a.by.place.Written(b.by.place) }).by.place.O.Ms()
}

// count is how many pieces the cut is of, as it was typed or as a number; one where
// that says nothing that can be.
func (c *jobCut) count() int64 {
	b := event.ReadBody(c.row)
	n, ok := b.Int("count")
	if !ok {
		var err error
		n, err = strconv.ParseInt(strings.TrimSpace(b.Text("count")), 10, 64)
		ok = err == nil
	}
	if !ok || n < 1 || n > maxDone {
		return 1
	}
	return n
}

// metal is what is cut, "" if that is not said.
func (c *jobCut) metal() string { return event.ReadBody(c.row).Text("metal") }
