package cutting

import (
	"math"

	"kerfside/calc/material"
	"kerfside/calc/unit"
)

// LimitBand is the limits with how far off they may be, two times in three.
type LimitBand struct{ Least, About, Most Limits }

// What a plan's figures are in doubt by: factors up or down, each of which holds
// about two times in three.
const (
	// offAsBuilt is the typical factor by which the balance is off on the
	// handbook rows that state volts or kilowatts; TestOffAsBuilt holds it to them.
	// Together with offVolts it gives the factor of the rows that state none.
	offAsBuilt = 1.48

	// offCalibrated is what is left once the crew's own cuts have set the
	// balance: about the step between trial strips, the authors' judgement. The
	// rig's own volts and bores were in those cuts and count no more.
	offCalibrated = 1.15

	// offVolts is how far real arcs lie from the line of RatedVolts, from memory.
	offVolts = 1.3

	// offBore is how far a tip's bore lies from its size before anybody calls it
	// worn, offGuess how far from OrificeFor where no bore was entered: both the
	// authors' judgement. The latter is about half of the way, by ratio, to the
	// ends of densityLow and densityHigh.
	offBore  = 1.05
	offGuess = 1.2
)

// TipLimits are the limits of one tip at its rating, cut freehand at an edge by the
// usual bounds; volts 0 stands for RatedVolts.
func TipLimits(m material.Metal, t Tip, volts unit.Voltage) LimitBand {
	return PlanInput{Metal: m, Layers: 1, Scatter: scatter["freehand"], Bounds: UsualBounds,
		Rig: Rig{Min: t.Rated, Max: t.Rated, Volts: volts, Tips: []Tip{t}}, Balance: Balance{Efficiency: DefaultEfficiency, Calibration: 1}}.LimitBand()
}

// severBand returns between which speeds the setting just severs the path, about
// most; 0 for the first if it may not sever it at all.
func (in PlanInput) severBand(rated, i unit.Current, path unit.Length, most unit.Speed) (least, high unit.Speed) {
	var s spread
	at := func(p PlanInput) float64 {
		for _, t := range p.Rig.Tips {
			if t.Rated == rated {
				return float64(p.sever(t, i, path))
			}
		}
		return 0
	}
	in.varied(func(up, down PlanInput) { s.add(float64(most), at(up), at(down)) })
	l, m := s.band(float64(most))
	return unit.Speed(l), unit.Speed(m)
}

// varied calls f with the input changed by each doubt in turn, up and down. The
// power of the arc takes the doubt of its volts.
func (in PlanInput) varied(f func(up, down PlanInput)) {
	twice := func(factor float64, change func(*PlanInput, float64)) {
		up, down := in, in
		change(&up, factor)
		change(&down, 1/factor)
		f(up, down)
	}
	scatter := func(p *PlanInput, k float64) { p.Balance.Calibration *= unit.Ratio(k) }
	if in.Calibrated {
		twice(offCalibrated, scatter)
		return
	}
	twice(offAsBuilt, scatter)
	if in.Rig.Volts == 0 {
		twice(offVolts, func(p *PlanInput, k float64) { p.Balance.Efficiency *= unit.Ratio(k) })
	}
	bore, guessed := offBore, false
	for _, t := range in.Rig.Tips {
		guessed = guessed || !t.Known()
	}
	if guessed {
		bore = offGuess
	}
	twice(bore, func(p *PlanInput, k float64) {
		tips := make([]Tip, len(p.Rig.Tips))
		for i, t := range p.Rig.Tips {
			tips[i] = Tip{t.Rated, t.Orifice / unit.Length(k)} // a wide bore cuts less
		}
		p.Rig.Tips = tips
	})
}

// spread gathers what several doubts do to one figure: their logarithms are
// added as squares, as those of independent errors.
type spread struct{ up, down float64 }

func (s *spread) add(about, high, low float64) {
	up, down := math.Log(high/about), math.Log(low/about)
	s.up, s.down = math.Hypot(s.up, up), math.Hypot(s.down, down)
}

func (s spread) band(about float64) (least, most float64) {
	return about * math.Exp(-s.down), about * math.Exp(s.up)
}

// LimitBand returns the rig's limits for the metal at its strongest setting, and
// how far off they may be. Each doubt is carried through the same balance as the
// limits themselves; Least never lies above About, nor About above Most.
func (in PlanInput) LimitBand() LimitBand {
	b := LimitBand{About: in.limits()}
	about := b.About.list()
	var s [3]spread
	in.varied(func(up, down PlanInput) {
		high, low := up.limits(), down.limits()
		for i, at := range high.list() {
			s[i].add(float64(*about[i]), float64(*at), float64(*low.list()[i]))
		}
	})
	least, most := b.Least.list(), b.Most.list()
	for i := range s {
		l, m := s[i].band(float64(*about[i]))
		*least[i], *most[i] = unit.Length(l), unit.Length(m)
	}
	b.Least.Sever, b.Most.Clean = max(b.Least.Sever, b.Least.Clean), min(b.Most.Clean, b.Most.Sever)
	return b
}

func (l *Limits) list() [3]*unit.Length { return [...]*unit.Length{&l.Clean, &l.Sever, &l.Pierce} }
