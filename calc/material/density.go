package material

import (
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// densities at 20 °C. Alloys differ by one or two in a hundred: stainless from
// 7900 to 8000, aluminium 5052 is 2680, yellow brass from 8400 to 8600.
var densities = map[Metal]struct {
	density unit.Density
	source  source.ID
}{
	MildSteel:  {7850, "en1991-density"},
	Galvanised: {7850, "en1991-density"}, // the zinc is counted apart
	Stainless:  {8000, "from-memory"},    // 304 and 316, the heavier end: it is for lifting
	Aluminium:  {2700, "from-memory"},    // 6061 and 1100
	Copper:     {8960, "crc-density"},
	Brass:      {8530, "from-memory"}, // 70/30
	CastIron:   {7150, "from-memory"}, // grey iron
}

// Density returns what the metal weighs per volume and the source of that
// figure; false for a metal that is not listed.
func (m Metal) Density() (unit.Density, source.ID, bool) {
	d, ok := densities[m]
	return d.density, d.source, ok
}
