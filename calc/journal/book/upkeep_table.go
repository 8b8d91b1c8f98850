package book

import (
	"cmp"
	"strconv"

	"kerfside/calc/order"
)

// upkeepTable is when each task was done the last few times, the newest first.
func (b *book) upkeepTable() Table {
	t := Table{Columns: []Column{{Key: "task", Title: "Task"}, {Key: "rig", Title: "Rig"}, {Key: "done", Title: "Done", Number: true}, {Key: "date_on_it", Title: "Date on it", Number: true}, {Key: "note", Title: "Note"}}}
	for _, r := range b.rigUpkeep() {
		for _, task := range r.Tasks {
			for _, one := range task.Times {
				next := Cell{}
				if one.Next > 0 {
					next = Cell{Text: b.date(one.Next), Value: float64(one.Next), Plain: b.stamp(one.Next)}
				}
				t.Rows = append(t.Rows, []Cell{{Text: taskOf(task).name}, {Text: b.rig(r.Rig)}, {Text: b.when(one.At), Value: float64(one.At), Plain: b.stamp(one.At)}, next, {Text: one.Note}})
			}
		}
	}
	order.Stable(t.Rows, func(x, y []Cell) int { return cmp.Compare(y[2].Value, x[2].Value) })
	return t
}

// minutesCell is a time of arc: as people count it, and in minutes in a file.
func minutesCell(ms int64) Cell {
	return Cell{Text: span(ms), Value: float64(ms), Plain: strconv.FormatFloat(float64(ms)/minuteMs, 'f', 1, 64)}
}
