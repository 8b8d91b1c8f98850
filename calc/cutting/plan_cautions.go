package cutting

import (
	"math"

	"kerfside/calc/form"
	"kerfside/calc/material"
	"kerfside/calc/safety"
	"kerfside/calc/unit"
)

// cautionPlan says what the metal, its surface and the plan ask of the hand.
func cautionPlan(a *form.Answer, in PlanInput, res PlanResult) {
	cautionReach(a, in.Rig)
	if res.Change {
		a.Caution("Change the tip: the %s one does not suit this cut. "+safety.MadeDead, unit.In(in.Rig.Fitted, "A"))
	} else if small, ok := smallerTip(in, res); ok {
		a.Caution("For much of this, the %s tip does it with less current and a narrower kerf.", unit.In(small.Rated, "A"))
	}
	cautionBores(a, in.Rig)
	cautionGrade(a, res)
	if res.Capped {
		a.Caution("Thin sheet outruns the hand: move as steadily as you can at this pace, along a guide if you have one.")
	}
	if in.Layers > 1 {
		a.Caution("Clamp the layers tight: a gap stops the cut at the second plate.")
	}
	for _, text := range metalCautions[in.Metal] {
		a.Caution("%s", text)
	}
	if text := surfaceCautions[in.Surface]; text != "" && !(in.Metal == material.Galvanised && (in.Surface == "galvanised" || in.Surface == "")) {
		a.Caution("%s", text)
	}
	if in.Overhead {
		a.Caution("Overhead, melt falls on you and into the tip: stand aside, cover up, look at the parts more often.")
	}
	if in.Rig.Volts == 0 {
		a.Caution("The arc voltage is not measured; the arc's power may be %.0f %% off for that alone.", 100*(offVolts-1))
	}
	a.Caution("Try it on scrap of the same metal. Your torch's manual wins over every figure here.")
	a.Caution(safety.ArcOn)
}

// cautionGrade says what a cut that is not surely clean comes to.
func cautionGrade(a *form.Answer, res PlanResult) {
	settle := ""
	if !res.Settled {
		settle = " A trial strip settles it."
	}
	switch res.Grade {
	case SeversRough:
		a.Caution("This severs rough, with dross and a rough face: clean cutting ends at %s.%s", Between(a, res.Band, CleanLimit), settle)
	case WillNotCut:
		a.Caution("This will not cut, as far as Kerfside knows: severing ends at %s.%s", Between(a, res.Band, SeverLimit), settle)
	}
}

// Current over the area of the bore that cutting tips run at: 23 to 38 A/mm² in the
// handbook rows, more in hand torches. The ends are from memory.
const (
	densityLow  = 20e6 // A/m²
	densityHigh = 100e6
)

// cautionBores says which tip's bore does not go with its rating.
func cautionBores(a *form.Answer, rig Rig) {
	for _, t := range rig.Tips {
		j := unit.CurrentDensity(4 * float64(t.Rated) / (math.Pi * float64(t.Orifice*t.Orifice)))
		if j < densityLow || j > densityHigh {
			a.Caution("Check the bore of the %s tip: %s A/mm² in %s is outside the %v to %v that cutting tips run at (from memory; printed rows have 23 to 38). The figures here rest on it.",
				unit.In(t.Rated, "A"), unit.Figures(unit.Round(float64(j)/1e6, 2), 2), form.SayAs(a, t.Orifice, unit.Bore), densityLow/1e6, densityHigh/1e6)
		}
	}
}

// cautionReach says what keeps the rig's strongest setting below its panel's, and
// what of the rig is not used.
func cautionReach(a *form.Answer, rig Rig) {
	if rig.Gas.Kind == "automatic" {
		a.Caution("The machine sets its air. Keep its inlet between the lowest and highest pressure on its plate.")
	}
	if rig.Gas.Unused != "" {
		a.Caution("The machine sets its own pressure: the %s that stands in the rig is not used.", rig.Gas.Unused)
	}
	if v := rig.Inlet; v.Other != nil && !v.Known {
		a.Caution("Nobody has said the volts of the socket: this is for %s. On %s: pick the site, or enter its volts.", v.Name(), v.Other.Name())
	}
	_, most := rig.full()
	if _, last, bound := rig.Gas.span(); bound && most == last && most < rig.Max {
		a.Caution("Your pressure line ends at %s, so nothing here is planned above it.", unit.In(last, "A"))
	} else if most < rig.Max {
		a.Caution("No tip on the truck runs above %s here, so nothing is planned above it.", unit.In(most, "A"))
	}
}

// smallerTip finds a tip that would do with less than the plan's.
func smallerTip(in PlanInput, res PlanResult) (Tip, bool) {
	for _, t := range in.Rig.Tips {
		if t.Rated >= res.Tip.Rated {
			break
		}
		_, high, ok := in.Rig.span(t)
		if ok && recommend(in.sever(t, high, res.Path), in.Scatter) >= in.Bounds.Brisk {
			return t, true
		}
	}
	return Tip{}, false
}

var metalCautions = map[material.Metal][]string{
	material.Stainless:  {"The smoke of stainless holds chromium VI. Wear " + safety.Drawn + "."},
	material.Aluminium:  {"Never cut aluminium over a water table or standing water: it makes hydrogen."},
	material.Copper:     {"Wear " + safety.Drawn + ". A green flame at the tip is the torch's own copper burning: stop."},
	material.Brass:      {"Brass gives off zinc and lead. Wear " + safety.Drawn + "."},
	material.CastIron:   {"Cast iron may crack or spit as it heats: stand to one side, and keep your face shield down."},
	material.Galvanised: {"Zinc smoke makes you ill. " + safety.ZincAsks},
}

var surfaceCautions = map[string]string{
	"":           "Nothing was said of a coating. Look before the arc: zinc, paint and plating make smoke that harms you.",
	"rusty":      "Grind a bright spot for the work clamp and the start; rust and scale shorten the life of the parts.",
	"painted":    safety.PaintAsks + " Bare it under the clamp too.",
	"galvanised": "Zinc smoke makes you ill. " + safety.ZincAsks,
}
