package layout

import (
	"math"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Pipe is a round pipe by its outside diameter and wall, with what it is called:
// "2 in pipe", or "pipe as measured".
type Pipe struct {
	Name     string
	OD, Wall unit.Length
	Measured bool // the outside diameter was, and wins over the size's
	source   source.ID
}

// Bore is the inside diameter.
func (p Pipe) Bore() unit.Length { return p.OD - 2*p.Wall }

// Say is the pipe in words, with the diameter that is reckoned with.
func (p Pipe) Say(a *form.Answer) string {
	if a.System() == unit.US {
		return p.Name + ", " + form.SayAs(a, p.OD, unit.Marking) + " outside"
	}
	return p.Name + ", " + form.Worked(a, p.OD, "mm", "in") + " outside"
}

// workedLength is a length in a step of the working, in decimals in both systems.
func workedLength(a *form.Answer, l unit.Length) string {
	if a.System() == unit.US {
		return unit.Figures(float64(l/unit.Inch), 3) + " in"
	}
	return form.Worked(a, l, "mm", "in")
}

// cite names the source of the size that the pipe was chosen by.
func (p Pipe) cite(a *form.Answer) {
	if p.source != "" {
		a.Cite(p.source)
	}
}

// measuredPipe is the choice of a pipe that is measured.
const measuredPipe = "measured"

// pipeKey is a key of a pipe's fields: "header_size", or "size" without a prefix.
func pipeKey(prefix, key string) string {
	if prefix == "" {
		return key
	}
	return prefix + "_" + key
}

// pipeFields ask for one pipe; readPipe reads it. A form has tapeField once besides.
func pipeFields(prefix, label string) []form.Field {
	choices := []string{measuredPipe, "Measured: diameter or girth"}
	var listed []string
	for _, s := range inchPipes {
		od := hundredth(s.od)
		choices = append(choices, s.name+"in", s.name+" in pipe · "+od.Quantity().Say(float64(od), "mm", unit.Doubt{Sort: unit.Entered})+" · "+
			od.Quantity().Say(float64(od), "in", unit.Doubt{Sort: unit.Marking}))
	}
	for _, s := range dnTubes {
		od := hundredth(s.od)
		choices = append(choices, "dn"+strings.ReplaceAll(s.name, " ", "-"), "DN "+s.name+" · "+od.Quantity().Say(float64(od), "mm", unit.Doubt{Sort: unit.Entered}))
	}
	for i := 2; i < len(choices); i += 2 {
		listed = append(listed, choices[i])
	}
	key := func(k string) string { return pipeKey(prefix, k) }
	length := func(sort unit.Sort) *form.Type { return form.Number[unit.Length]("mm", "in").As(sort) }
	return []form.Field{
		{Key: key("size"), Label: label, Help: "By name, not by its measure: 2 in pipe is 60 mm (2-3/8 in) across. DN 65, 125 and threaded 150 are no inch sizes",
			Format: "A size such as 2in, 1-1/2in or dn50, up to 24in and dn400; or measured.", Takes: form.OneOf(choices...)},
		{Key: key("schedule"), Label: label + ": wall", Help: "Stencilled on the pipe. A wrong wall shifts only what is reckoned from the bore",
			Takes:   form.OneOf("std", "Standard (STD, medium)", "xs", "Heavy (XS)", "5", "Schedule 5", "10", "Schedule 10", "40", "Schedule 40", "80", "Schedule 80", "160", "Schedule 160", "xxs", "Double heavy (XXS)"),
			Default: "std", Basis: source.CommonPractice, Only: form.When(key("size"), listed...)},
		{Key: key("od"), Label: label + ": outside diameter", Help: "Calipers, at the cut, rust and paint off. Or give the girth", Takes: length(unit.Bore), Optional: true, Only: form.When(key("size"), measuredPipe), Limits: form.Within(10*unit.Millimetre, 3*unit.Metre)},
		{Key: key("girth"), Label: label + ": girth", Help: "Tape round the pipe, square to it", Takes: length(unit.Marking), Optional: true, Only: form.When(key("size"), measuredPipe), Limits: form.Within(32*unit.Millimetre, 9.5*unit.Metre)},
		{Key: key("wall"), Label: label + ": wall thickness", Help: "At a clean end, or from the drawing", Takes: length(unit.Plate), Only: form.When(key("size"), measuredPipe), Limits: form.Within(0.5*unit.Millimetre, 100*unit.Millimetre)},
	}
}

// tapeField asks how thick the tape is that went round a pipe: it lies on the pipe and
// reads π times its own thickness too much.
func tapeField() form.Field {
	return form.Field{Key: "tape_thickness", Label: "The tape's own thickness", Help: "It adds 3.14 times itself to a girth", Takes: form.Number[unit.Length]("mm", "in").As(unit.Kerf), Default: "0.1mm", Basis: source.CommonPractice, Fine: true,
		Limits: form.Within(0, 2*unit.Millimetre)}
}

// readPipe reads what pipeFields ask. What was measured wins over the size. Troubles
// are the reader's; the pipe then has no diameter.
func readPipe(r *form.Reader, prefix string) Pipe {
	key := func(k string) string { return pipeKey(prefix, k) }
	chosen, schedule := form.GetWord(r, key("size")), form.GetWord(r, key("schedule"))
	wall, tape := form.Get[unit.Length](r, key("wall")), form.Get[unit.Length](r, "tape_thickness")
	p := Pipe{Name: "pipe as measured"}
	if chosen != measuredPipe && chosen != "" {
		p = listedPipe(r, prefix, chosen, schedule)
	}
	od, girth := form.Get[unit.Length](r, key("od")), form.Get[unit.Length](r, key("girth"))
	if girth > 0 {
		od = girthDiameter(girth, tape)
	}
	switch {
	case r.Given(key("od")) && r.Given(key("girth")):
		r.Fail(key("girth"), problem.New(problem.Conflict, "", "a diameter and a girth are two ways to say the same", "Give one of them: the girth by tape is the surer on a pipe that is not quite round."))
	case od > 0:
		p.OD, p.Measured = od, true
		if chosen != measuredPipe && chosen != "" {
			p.Name += " as measured"
		}
	case chosen == measuredPipe:
		r.Fail(key("od"), problem.New(problem.Missing, "", "the pipe is measured, but neither its diameter nor its girth is given", "Put calipers on it, or a tape round it."))
	}
	if chosen == measuredPipe || r.Given(key("wall")) {
		p.Wall = wall
		if p.OD > 0 && 2*p.Wall >= p.OD {
			r.Fail(key("wall"), problem.New(problem.Conflict, "", "the walls meet in the middle: no bore is left", "The wall is less than half the outside diameter."))
		}
	}
	return p
}

// girthDiameter is the outside diameter of a pipe by a tape round it. The tape bends
// about its middle, so it reads π·(D + t).
func girthDiameter(girth, tape unit.Length) unit.Length {
	return unit.Length(float64(girth)/math.Pi) - tape
}

// listedPipe is a pipe of the tables, with a wall unless that was measured.
func listedPipe(r *form.Reader, prefix, word, schedule string) Pipe {
	p := Pipe{source: "b36-10"}
	row, ok := sizeOf(word)
	if !ok {
		return Pipe{} // the reader has said so
	}
	p.OD = hundredth(row.od)
	if name, isTube := strings.CutPrefix(word, "dn"); isTube {
		p.Name, p.source = "DN "+strings.ReplaceAll(name, "-", " ")+" tube", "en-10220"
	} else {
		p.Name = row.name + " in pipe"
	}
	for i, s := range schedules {
		if s == schedule {
			p.Wall = hundredth(row.wall[i])
		}
	}
	if p.Wall == 0 && schedule != "" && !r.Given(pipeKey(prefix, "wall")) {
		r.Fail(pipeKey(prefix, "schedule"), problem.Newf(problem.Refused, "", "no wall is listed for %s in %s", p.Name, strings.ToUpper(schedule)).
			WithHint("Pick another wall, or pick “measured” and measure diameter and wall."))
	}
	return p
}
