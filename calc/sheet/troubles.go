package sheet

import (
	"strconv"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// MaxTold is how many bad lines are told one by one.
const MaxTold = 50

// Troubles collects what is wrong with the lines of a file, in the order in which it is
// told. Whoever looks at the cells of what was read adds troubles of its own.
type Troubles struct {
	first *problem.Error
	more  int // beyond those that are told
}

// Add takes in what is wrong on a line of the file.
func (t *Troubles) Add(line int, p *problem.Error) {
	p.Msg = "Line " + strconv.Itoa(line) + ": " + p.Msg
	switch {
	case t.first == nil:
		t.first = p
	case len(t.first.Also) < MaxTold-1:
		t.first.Also = append(t.first.Also, p)
	default:
		t.more++
	}
}

// Err returns all of it as one problem, nil if there is none: the first, with the others
// in Also, and at last how many more there are.
func (t *Troubles) Err() error {
	if t.first == nil {
		return nil
	}
	if t.more > 0 {
		t.first.Also = append(t.first.Also[:MaxTold-1], problem.New(problem.Malformed, "",
			unit.Count(t.more, "more trouble is", "more troubles are")+" not told one by one", "Mend these lines first and read the file again."))
	}
	return t.first
}
