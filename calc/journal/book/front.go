package book

import (
	"strconv"

	"kerfside/calc/unit"
)

// front says in a line each what the reports of the Book say, for its first screen: a row
// has the report's name for a title. A tag marks what wants doing.
func (b *book) front() (Report, error) {
	rows := []Row{b.partsLine(), b.stockLine(), b.upkeepLine(), b.jobsLine()}
	return Report{Title: "Book", Sections: []Section{{Rows: rows}}, lines: true}, nil
}

// partsLine is what is most worn by its last reading.
func (b *book) partsLine() Row {
	row := Row{Title: "parts"}
	var worst unit.Ratio
	said := ""
	change, fitted, read := 0, 0, 0
	for _, rig := range b.fold.Now().Rigs {
		for _, p := range rig.Parts {
			fitted++
			used, ok := b.used(rig.Rig, p)
			if !ok {
				continue
			}
			read++
			if used >= 1-1e-9 {
				change++
			}
			if used > worst {
				worst, said = used, capital(slot(p.Slot))+", "+b.rig(rig.Rig)
			}
		}
	}
	switch {
	case change > 1:
		row.Says, row.Tag = []string{strconv.Itoa(change) + " to change"}, "due"
	case change == 1:
		row.Says, row.Tag = []string{"Change: " + lower(said)}, "due"
	case worst >= 0.5:
		row.Says = []string{"Most worn: " + lower(said)}
	case fitted == 0:
		row.Says = []string{"None is said to be fitted"}
	case read == 0:
		row.Says = []string{"None was read yet"}
	default:
		row.Says = []string{"None read past half"}
	}
	return row
}

func (b *book) upkeepLine() Row {
	all := b.upkeepOf()
	row := Row{Title: "upkeep", Says: []string{b.dueLine(all)}}
	for _, d := range all {
		if d.isDue() {
			row.Tag = "due"
		}
	}
	return row
}

// stockLine is what the shopping list comes to.
func (b *book) stockLine() Row {
	n := 0
	for _, l := range b.fold.Stocks().Lines {
		if l.N < l.Least {
			n++
		}
	}
	row := Row{Title: "stock"}
	switch lines := len(b.fold.Stocks().Lines); {
	case lines == 0:
		row.Says = []string{"Nothing is counted yet"}
	case n > 0:
		row.Says, row.Tag = []string{unit.Count(n, "line is", "lines are") + " below the lowest count"}, "due"
	default:
		row.Says = []string{unit.Count(lines, "line", "lines")}
	}
	return row
}

// jobsLine is how many jobs are left to do.
func (b *book) jobsLine() Row {
	left := 0
	for _, j := range b.fold.Jobs("", mostRows).Jobs {
		if j.Done < j.Pieces {
			left++
		}
	}
	row := Row{Title: "jobs", Says: []string{"None is open"}}
	if left > 0 {
		row.Says = []string{unit.Count(left, "job", "jobs") + " not done"}
	}
	return row
}
