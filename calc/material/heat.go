package material

import (
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Heat is what it takes to melt a metal out of a kerf.
//
// Melt is the enthalpy from 20 °C to liquid at Liquidus, Hotter what the melt
// carries beyond that when the jet has thrown it out. Conductivity is the mean
// from 20 °C to Liquidus; Low and High are how far alloys and sources of the
// metal differ. Liquidus is where most of it runs.
type Heat struct {
	Liquidus     unit.Temperature
	Melt, Hotter unit.SpecificEnergy
	Conductivity unit.Conductivity
	Low, High    unit.Conductivity
	Sources      []source.ID
}

// Room is the temperature that enthalpies are counted from.
var Room = unit.Celsius(20)

// Rise is how far the metal is heated before it runs, in kelvins.
func (h Heat) Rise() unit.Temperature { return h.Liquidus - Room }

// Alloy is an aluminium alloy by its number, or "" if it is not known.
type Alloy string

// How the figures were made:
//
// Mild steel. NASA's polynomials for iron, integrated from 20 °C: 1056 kJ/kg
// solid, 247 latent. Conductivity is the mean of 54 − 0.0333·θ to 800 °C and
// 27.3 above it, 34 W/(m·K); the law spans 27 to 53.
//
// Stainless. Kim's lines for 316 integrated to 1700 K: (459.3 + 0.1329·T) over
// 1407 K is 833 kJ/kg, 268 latent; the mean of 9.248 + 0.01571·T is 24.9.
//
// Aluminium. NASA's polynomials: 677 solid, 397 latent. Its oxide skin melts
// only at 2327 K, and until it does the skin holds the melt together. So the
// melt is taken to leave at that heat: 1.177 kJ/(kg·K) × 1394 K = 1640 kJ/kg
// beyond melting. This is the authors' reading, not a measured figure; see
// cutting.Balance for what it explains. An alloy that is not known counts as
// 1100, which carries off the most heat.
//
// The melt of every other metal is taken 100 K above its liquidus, the authors'
// assumption: iron 83 kJ/kg (NASA), stainless 77, copper 50, brass 45, grey
// iron 85 (the last four from memory). Copper melts after 469 kJ/kg solid, by the
// Shomate line of NIST's WebBook (from memory), and 209 latent, 13.26 kJ/mol of
// the CRC Handbook; the 675 in all that the Handbook gives is from memory too.
// Brass melts after 540 in all, grey iron after 1000 in all.
var heats = map[Metal]Heat{
	MildSteel: {Liquidus: unit.Celsius(1525), Melt: 1303e3, Hotter: 83e3, Conductivity: 34, Low: 27.3, High: 53.3, Sources: []source.ID{"nasa-tm4513", "en1993-1-2"}},
	Stainless: {Liquidus: 1700, Melt: 1101e3, Hotter: 77e3, Conductivity: 24.9, Low: 24, High: 26, Sources: []source.ID{"anl-75-55", "en1993-1-2"}},
	Aluminium: {Liquidus: unit.Celsius(657), Melt: 1074e3, Hotter: 1640e3, Conductivity: 222, Low: 120, High: 235, Sources: []source.ID{"nasa-tm4513", "from-memory"}},
	Copper:    {Liquidus: unit.Celsius(1084.6), Melt: 677e3, Hotter: 50e3, Conductivity: 390, Low: 340, High: 400, Sources: []source.ID{"from-memory"}},
	Brass:     {Liquidus: unit.Celsius(955), Melt: 540e3, Hotter: 45e3, Conductivity: 120, Low: 110, High: 160, Sources: []source.ID{"from-memory"}},
	CastIron:  {Liquidus: unit.Celsius(1200), Melt: 1000e3, Hotter: 85e3, Conductivity: 50, Low: 27, High: 55, Sources: []source.ID{"from-memory"}},
}

// alloys differ in how they carry heat away, and by a few in a hundred in what
// melts them. From memory.
var alloys = map[Alloy]struct {
	liquidus     unit.Temperature
	melt         unit.SpecificEnergy
	conductivity unit.Conductivity
}{
	"1100": {liquidus: unit.Celsius(657), melt: 1074e3, conductivity: 222},
	"5052": {liquidus: unit.Celsius(649), melt: 1040e3, conductivity: 138},
	"6061": {liquidus: unit.Celsius(652), melt: 1040e3, conductivity: 167},
}

// Heat returns the figures of the metal; alloy matters for aluminium only.
// Galvanised sheet melts as the steel that it is.
func (m Metal) Heat(alloy Alloy) (Heat, bool) {
	if m == Galvanised {
		m = MildSteel
	}
	h, ok := heats[m]
	if m == Aluminium {
		if a, known := alloys[alloy]; known {
			h.Liquidus, h.Melt, h.Conductivity = a.liquidus, a.melt, a.conductivity
		}
	}
	return h, ok
}
