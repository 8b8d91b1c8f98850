package layout

import (
	"strings"

	"kerfside/calc/unit"
)

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
	{name: "1/2", od: 2130, wall: [...]uint16{277, 373, 165, 211, 277, 373, 478, 747}},
	{name: "3/4", od: 2670, wall: [...]uint16{287, 391, 165, 211, 287, 391, 556, 782}},
	{name: "1", od: 3340, wall: [...]uint16{338, 455, 165, 277, 338, 455, 635, 909}},
	{name: "1-1/4", od: 4220, wall: [...]uint16{356, 485, 165, 277, 356, 485, 635, 970}},
	{name: "1-1/2", od: 4830, wall: [...]uint16{368, 508, 165, 277, 368, 508, 714, 1015}},
	{name: "2", od: 6030, wall: [...]uint16{391, 554, 165, 277, 391, 554, 874, 1107}},
	{name: "2-1/2", od: 7300, wall: [...]uint16{516, 701, 211, 305, 516, 701, 953, 1402}},
	{name: "3", od: 8890, wall: [...]uint16{549, 762, 211, 305, 549, 762, 1113, 1524}},
	{name: "3-1/2", od: 10160, wall: [...]uint16{574, 808, 211, 305, 574, 808, 0, 0}},
	{name: "4", od: 11430, wall: [...]uint16{602, 856, 211, 305, 602, 856, 1349, 1712}},
	{name: "5", od: 14130, wall: [...]uint16{655, 953, 277, 340, 655, 953, 1588, 1905}},
	{name: "6", od: 16830, wall: [...]uint16{711, 1097, 277, 340, 711, 1097, 1826, 2195}},
	{name: "8", od: 21910, wall: [...]uint16{818, 1270, 277, 376, 818, 1270, 2301, 2223}},
	{name: "10", od: 27300, wall: [...]uint16{927, 1270, 340, 419, 927, 1509, 2858, 2540}},
	{name: "12", od: 32380, wall: [...]uint16{953, 1270, 396, 457, 1031, 1748, 3332, 2540}},
	{name: "14", od: 35560, wall: [...]uint16{953, 1270, 396, 635, 1113, 1905, 3571, 0}},
	{name: "16", od: 40640, wall: [...]uint16{953, 1270, 419, 635, 1270, 2144, 4049, 0}},
	{name: "18", od: 45700, wall: [...]uint16{953, 1270, 419, 635, 1427, 2383, 4524, 0}},
	{name: "20", od: 50800, wall: [...]uint16{953, 1270, 478, 635, 1509, 2619, 5001, 0}},
	{name: "24", od: 61000, wall: [...]uint16{953, 1270, 554, 635, 1748, 3096, 5954, 0}},
}

// dnThreaded is the DN tube whose size is not that of EN 10220: EN 10255 has it thinner.
const dnThreaded = "150 threaded"

// dnTubes are tubes by DN: the outside diameters of EN 10220, series 1. Up to DN 125,
// and of DN 150 for threads, the walls are the medium and the heavy series of EN 10255.
// The others have the wall that such tubes often have: EN 10220 has many for each.
var dnTubes = [...]pipeSize{
	{name: "15", od: 2130, wall: [...]uint16{260, 320, 7: 0}},
	{name: "20", od: 2690, wall: [...]uint16{260, 320, 7: 0}},
	{name: "25", od: 3370, wall: [...]uint16{320, 400, 7: 0}},
	{name: "32", od: 4240, wall: [...]uint16{320, 400, 7: 0}},
	{name: "40", od: 4830, wall: [...]uint16{320, 400, 7: 0}},
	{name: "50", od: 6030, wall: [...]uint16{360, 450, 7: 0}},
	{name: "65", od: 7610, wall: [...]uint16{360, 450, 7: 0}},
	{name: "80", od: 8890, wall: [...]uint16{400, 500, 7: 0}},
	{name: "100", od: 11430, wall: [...]uint16{450, 540, 7: 0}},
	{name: "125", od: 13970, wall: [...]uint16{500, 540, 7: 0}},
	{name: dnThreaded, od: 16510, wall: [...]uint16{500, 540, 7: 0}},
	{name: "150", od: 16830, wall: [...]uint16{400, 7: 0}},
	{name: "200", od: 21910, wall: [...]uint16{450, 7: 0}},
	{name: "250", od: 27300, wall: [...]uint16{500, 7: 0}},
	{name: "300", od: 32390, wall: [...]uint16{560, 7: 0}},
	{name: "350", od: 35560, wall: [...]uint16{560, 7: 0}},
	{name: "400", od: 40640, wall: [...]uint16{630, 7: 0}},
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

func hundredth(n uint16) unit.Length { return unit.Length(n) * unit.Millimetre / 100 }
