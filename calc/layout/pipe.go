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

// cite names the source of the size that the pipe was chosen by.
func (p Pipe) cite(a *form.Answer) {
	if p.source != "" {
		a.Cite(p.source)
	}
}

// pipeSize is one row of a standard, in hundredths of a millimetre: a wall of 0 is not in it.
type pipeSize struct {
	name string
	od   uint16
	wall [len(schedules)]uint16
}

// schedules are the columns of a size's walls. STD is Schedule 40 up to 10 in, and XS
// is Schedule 80 up to 8 in; above, they part. Of a DN tube the first is the usual
// wall and the second the heavy one.
var schedules = [...]string{"std", "xs", "5", "10", "40", "80", "160", "xxs"}

// inchPipes are steel pipes of ASME B36.10M, second-hand from an open library. Their
// outside diameter is the standard's in millimetres, which rounds that in inches.
var inchPipes = [...]pipeSize{
	{"1/2", 2130, [...]uint16{277, 373, 165, 211, 277, 373, 478, 747}},
	{"3/4", 2670, [...]uint16{287, 391, 165, 211, 287, 391, 556, 782}},
	{"1", 3340, [...]uint16{338, 455, 165, 277, 338, 455, 635, 909}},
	{"1-1/4", 4220, [...]uint16{356, 485, 165, 277, 356, 485, 635, 970}},
	{"1-1/2", 4830, [...]uint16{368, 508, 165, 277, 368, 508, 714, 1015}},
	{"2", 6030, [...]uint16{391, 554, 165, 277, 391, 554, 874, 1107}},
	{"2-1/2", 7300, [...]uint16{516, 701, 211, 305, 516, 701, 953, 1402}},
	{"3", 8890, [...]uint16{549, 762, 211, 305, 549, 762, 1113, 1524}},
	{"3-1/2", 10160, [...]uint16{574, 808, 211, 305, 574, 808, 0, 0}},
	{"4", 11430, [...]uint16{602, 856, 211, 305, 602, 856, 1349, 1712}},
	{"5", 14130, [...]uint16{655, 953, 277, 340, 655, 953, 1588, 1905}},
	{"6", 16830, [...]uint16{711, 1097, 277, 340, 711, 1097, 1826, 2195}},
	{"8", 21910, [...]uint16{818, 1270, 277, 376, 818, 1270, 2301, 2223}},
	{"10", 27300, [...]uint16{927, 1270, 340, 419, 927, 1509, 2858, 2540}},
	{"12", 32380, [...]uint16{953, 1270, 396, 457, 1031, 1748, 3332, 2540}},
	{"14", 35560, [...]uint16{953, 1270, 396, 635, 1113, 1905, 3571, 0}},
	{"16", 40640, [...]uint16{953, 1270, 419, 635, 1270, 2144, 4049, 0}},
	{"18", 45700, [...]uint16{953, 1270, 419, 635, 1427, 2383, 4524, 0}},
	{"20", 50800, [...]uint16{953, 1270, 478, 635, 1509, 2619, 5001, 0}},
	{"24", 61000, [...]uint16{953, 1270, 554, 635, 1748, 3096, 5954, 0}},
}

// dnThreaded is the DN tube whose size is not that of EN 10220: EN 10255 has it thinner.
const dnThreaded = "150 threaded"

// dnTubes are tubes by DN: the outside diameters of EN 10220, series 1. Up to DN 125,
// and of DN 150 for threads, the walls are the medium and the heavy series of EN 10255.
// The others have the wall that such tubes often have: EN 10220 has many for each.
var dnTubes = [...]pipeSize{
	{"15", 2130, [...]uint16{260, 320, 7: 0}}, {"20", 2690, [...]uint16{260, 320, 7: 0}}, {"25", 3370, [...]uint16{320, 400, 7: 0}},
	{"32", 4240, [...]uint16{320, 400, 7: 0}}, {"40", 4830, [...]uint16{320, 400, 7: 0}}, {"50", 6030, [...]uint16{360, 450, 7: 0}},
	{"65", 7610, [...]uint16{360, 450, 7: 0}}, {"80", 8890, [...]uint16{400, 500, 7: 0}}, {"100", 11430, [...]uint16{450, 540, 7: 0}},
	{"125", 13970, [...]uint16{500, 540, 7: 0}}, {dnThreaded, 16510, [...]uint16{500, 540, 7: 0}}, {"150", 16830, [...]uint16{400, 7: 0}},
	{"200", 21910, [...]uint16{450, 7: 0}}, {"250", 27300, [...]uint16{500, 7: 0}}, {"300", 32390, [...]uint16{560, 7: 0}},
	{"350", 35560, [...]uint16{560, 7: 0}}, {"400", 40640, [...]uint16{630, 7: 0}},
}

// measuredPipe is the choice of a pipe that is measured.
const measuredPipe = "measured"

func hundredth(n uint16) unit.Length { return unit.Length(n) * unit.Millimetre / 100 }

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
		choices = append(choices, s.name+"in", strings.ReplaceAll(s.name, "-", " ")+" in pipe · "+od.Quantity().Say(float64(od), "mm", unit.Doubt{Sort: unit.Entered})+" · "+
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
		{Key: key("size"), Label: label, Help: "By name, not by its measure: 2 in pipe is 60.3 mm (2 3/8 in) across. DN 65, 125 and threaded 150 are no inch sizes", Takes: form.OneOf(choices...)},
		{Key: key("schedule"), Label: label + ": wall", Help: "Stencilled on the pipe. A wrong wall shifts only what is reckoned from the bore",
			Takes:   form.OneOf("std", "Standard (STD, medium)", "xs", "Heavy (XS)", "5", "Schedule 5", "10", "Schedule 10", "40", "Schedule 40", "80", "Schedule 80", "160", "Schedule 160", "xxs", "Double heavy (XXS)"),
			Default: "std", Basis: source.CommonPractice, Only: form.When(key("size"), listed...)},
		{Key: key("od"), Label: label + ": outside diameter", Help: "Calipers, at the cut, rust and paint off. Or give the girth", Takes: length(unit.Bore), Optional: true, Only: form.When(key("size"), measuredPipe), Limits: form.Within(10*unit.Millimetre, 2*unit.Metre)},
		{Key: key("girth"), Label: label + ": girth", Help: "Tape round the pipe, square to it", Takes: length(unit.Marking), Optional: true, Only: form.When(key("size"), measuredPipe), Limits: form.Within(32*unit.Millimetre, 6.3*unit.Metre)},
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
	chosen := form.GetWord(r, key("size"))
	p := Pipe{Name: "pipe as measured"}
	if chosen != measuredPipe && chosen != "" {
		p = listedPipe(r, prefix, chosen)
	}
	od, girth := form.Get[unit.Length](r, key("od")), form.Get[unit.Length](r, key("girth"))
	if girth > 0 {
		od = girthDiameter(girth, form.Get[unit.Length](r, "tape_thickness"))
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
		p.Wall = form.Get[unit.Length](r, key("wall"))
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
func listedPipe(r *form.Reader, prefix, word string) Pipe {
	p := Pipe{source: "b36-10"}
	row, ok := sizeOf(word)
	if !ok {
		return Pipe{} // the reader has said so
	}
	p.OD = hundredth(row.od)
	if name, isTube := strings.CutPrefix(word, "dn"); isTube {
		p.Name, p.source = "DN "+strings.ReplaceAll(name, "-", " ")+" tube", "en-10220"
	} else {
		p.Name = strings.ReplaceAll(row.name, "-", " ") + " in pipe"
	}
	key := pipeKey(prefix, "schedule")
	schedule := form.GetWord(r, key)
	for i, s := range schedules {
		if s == schedule {
			p.Wall = hundredth(row.wall[i])
		}
	}
	if p.Wall == 0 && schedule != "" && !r.Given(pipeKey(prefix, "wall")) {
		r.Fail(key, problem.Newf(problem.Refused, "", "no wall is listed for %s in %s", p.Name, strings.ToUpper(schedule)).
			WithHint("Pick another wall, or pick “measured” and measure diameter and wall."))
	}
	return p
}

// sizeOf finds the row of a size's word.
func sizeOf(word string) (pipeSize, bool) {
	for _, s := range inchPipes {
		if s.name+"in" == word {
			return s, true
		}
	}
	for _, s := range dnTubes {
		if "dn"+strings.ReplaceAll(s.name, " ", "-") == word {
			return s, true
		}
	}
	return pipeSize{}, false
}
