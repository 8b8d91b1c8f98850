package book

import (
	"encoding/json"
	"math"
	"slices"
	"strconv"

	"kerfside/calc/form"
	"kerfside/calc/journal/fold"
	"kerfside/calc/life"
	"kerfside/calc/order"
)

// History answers journal-history: what the crew's journal says to the calculators that
// ask for it, as values of their fields by key. A key is missing where it says nothing.
type History struct {
	Values map[string]string `json:"values"`
}

// livesKeys are the fields that hold the lives of a slot's parts, FittedKeys how those
// begin that hold what the part in it has done.
var (
	livesKeys  = map[string]string{"tip": "tip_lives", "electrode": "electrode_lives", "diffuser": "diffuser_lives", "cup": "cup_lives"}
	FittedKeys = []string{"tip", "electrode"}
)

// MostLives is how many lives of a slot are handed on, the newest: more tell little more
// of the next, and each costs whoever learns from them. mostRigs leaves room for the
// part that is in the rig, which other rigs' newer ones stand in front of.
const (
	MostLives = 100
	mostRigs  = 20
)

// leastTimes is how many of the crew's own times stand in for an assumed one.
const leastTimes = 3

// timeKeys say which field a time of the crew fills, and which says how many it rests on.
// Of several times for one field the one that rests on most is taken.
var timeKeys = []struct{ what, key, own string }{
	{what: "pause-marking", key: "mark_out", own: "mark_own"},
	{what: "piece", key: "move_piece", own: "move_own"},
	{what: "row", key: "move_row", own: "row_own"},
	{what: "pause-moving", key: "move_row", own: "row_own"},
	{what: "again", key: "between_runs"},
	{what: "part", key: "part_change", own: "change_own"},
	{what: "pause-parts", key: "part_change", own: "change_own"},
	{what: "drain", key: "drain_stop", own: "drain_own"},
	{what: "pause-drain", key: "drain_stop", own: "drain_own"},
	{what: "gate", key: "gate"},
	{what: "guide-torch-inspection", key: "inspect"},
}

// HistoryOf makes the history of what a rig is worked with.
func HistoryOf(f *fold.Fold, rig string) (History, error) {
	v := History{Values: map[string]string{}}
	if err := addLives(f, rig, v.Values, order.Keys(livesKeys)...); err != nil {
		return v, err
	}
	addTimes(f, rig, v.Values)
	return v, nil
}

// addLives adds the lives of those slots' parts.
func addLives(f *fold.Fold, rig string, values map[string]string, slots ...string) error {
	lives := f.NewestLives(MostLives+mostRigs, slots...)
	for _, slot := range slots {
		rows, err := rowsOf(lives[slot], slot, rig, values)
		if err != nil {
			return err
		}
		if rows != "" {
			values[livesKeys[slot]] = rows
		}
	}
	return nil
}

// rowsOf returns the lives of a slot's parts as a list, "" for none. The part that is in
// the rig counts by what it has done, which goes into values.
func rowsOf(lives []fold.Life, slot, rig string, values map[string]string) (string, error) {
	fields := life.LivesField(livesKeys[slot], slot).Takes.List.Row.Fields
	var rows []map[string]string
	for _, l := range lives {
		if l.To == 0 && rig != "" && l.Rigs[len(l.Rigs)-1] == rig {
			if slices.Contains(FittedKeys, slot) && values[slot+"_minutes"] == "" {
				values[slot+"_minutes"], values[slot+"_starts"] = minutes(l.Ms), strconv.FormatInt(l.Starts, 10)
			}
			continue
		}
		if l.Ms == 0 && l.Starts == 0 || len(rows) == MostLives {
			continue
		}
		rows = append(rows, rowOf(l, fields))
	}
	if rows == nil {
		return "", nil
	}
	text, err := json.Marshal(rows) // sorts the keys
	return string(text), err
}

// rowOf returns the row of a life. A word that its field does not know is left out: an
// entry may come from a newer version.
func rowOf(l fold.Life, fields []form.Field) map[string]string {
	m := l.Mostly
	said := map[string]string{"minutes": minutes(l.Ms), "starts": strconv.FormatInt(l.Starts, 10), "failed": "no", "metal": m.Metal, "surface": m.Surface,
		"rig": m.Rig, "position": m.Position, "start": m.Start, "air": m.Air, "partner": m.Partner}
	if l.Failed {
		said["failed"] = "yes"
	}
	row := map[string]string{}
	for _, f := range fields {
		text := said[f.Key]
		if f.Takes.Kind == form.KindChoice {
			text, _ = f.Takes.Word(text)
		}
		if text != "" {
			row[f.Key] = text
		}
	}
	return row
}

// addTimes adds the crew's own times, where enough are known.
func addTimes(f *fold.Fold, rig string, values map[string]string) {
	times := map[string]fold.TimeOf{}
	for _, t := range f.Times(rig).Times {
		times[t.What] = t
	}
	most := map[string]int{}
	for _, k := range timeKeys {
		t := times[k.what]
		if t.N < leastTimes || t.N <= most[k.key] {
			continue
		}
		most[k.key] = t.N
		values[k.key] = minutes(t.Median)
		if k.own != "" {
			values[k.own] = strconv.Itoa(t.N)
		}
	}
}

// minutes returns ms as minutes, no finer than a tenth of a second tells.
func minutes(ms int64) string {
	return strconv.FormatFloat(math.Round(float64(ms)/600)/100, 'f', -1, 64) + "min"
}
