package cutting

import (
	"cmp"
	"fmt"
	"slices"

	"kerfside/calc/form"
	"kerfside/calc/order"
	"kerfside/calc/power"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// Tip is a cutting tip by its rating.
type Tip struct {
	Rated   unit.Current
	Orifice unit.Length // OrificeFor where it is not known
}

// Known reports whether somebody has read the bore.
func (t Tip) Known() bool { return t.Orifice != OrificeFor(t.Rated) }

// TipPairs is the type of the tips of a rig; a bore may be left out.
func TipPairs() *form.Type {
	return form.Pairs(form.Number[unit.Current]("A", "A"), form.Number[unit.Length]("mm", "in"),
		form.Each{Name: "Tip", Left: "amps", Right: "bore", Row: "{left} tip · bore {right}", Known: "not known", LeftChips: []string{"20A", "30A", "40A", "45A", "60A", "85A"}})
}

// Rig is a machine with its torch, as far as a cut depends on it.
type Rig struct {
	Min, Max unit.Current // what the panel can be set to; Min 0 if not known
	Volts    unit.Voltage // measured arc voltage; 0 for RatedVolts
	Tips     []Tip        // by rating, smallest first; at least one
	Fitted   unit.Current // rating of the tip in the torch; 0 if not known
	Gas      Gas
	Inlet    power.Inlet // that the machine runs on here
}

// lowShare is the least share of a tip's rating that it is run at: below it
// the arc wanders in the bore. Common practice.
const lowShare = 0.8

// arc is the rig's arc with that tip at that current.
func (r Rig) arc(t Tip, i unit.Current) Arc {
	volts := r.Volts
	if volts == 0 {
		volts = RatedVolts(i)
	}
	return Arc{Current: i, Volts: volts, Orifice: t.Orifice}
}

// span is the range of currents for a tip: 80 to 100 % of its rating, within
// the panel's range and, where the pressure follows a line, within that line.
// ok is false if the panel or the line does not reach down or up to the tip.
func (r Rig) span(t Tip) (low, high unit.Current, ok bool) {
	low, high = max(lowShare*t.Rated, r.Min), min(t.Rated, r.Max)
	if first, last, bound := r.Gas.span(); bound {
		low, high = max(low, first), min(high, last)
	}
	return low, high, low <= high
}

// full is the rig's strongest setting.
func (r Rig) full() (Tip, unit.Current) {
	var best Tip
	most := unit.Current(0)
	for _, t := range r.Tips {
		if _, high, ok := r.span(t); ok && high > most {
			best, most = t, high
		}
	}
	return best, most
}

// pressureText is the type of a pressure, or of pairs of current and pressure.
func pressureText() *form.Type {
	text := form.Text()
	text.Right = form.Number[unit.Pressure]("bar", "psi")
	text.Each = &form.Each{Name: "Point", Left: "amps", Right: "pressure", Row: "{right} at {left}"}
	return text
}

// rigFields are the fields that readRig reads; calculators that plan cuts share
// them.
func rigFields() []form.Field {
	return append(form.Owned(form.OfRig, "", []form.Field{
		{Key: "min_current", Label: "Smallest amps", Help: "What the panel goes down to. Empty: the amps of the smallest tip.",
			Takes: form.Number[unit.Current]("A", "A"), Optional: true, Chips: []string{"15A", "20A", "30A"}, Limits: form.Within(5*unit.Ampere, 1000*unit.Ampere)},
		{Key: "max_current", Label: "Largest amps", Help: "Rating plate, I2: the largest figure.",
			Takes: form.Number[unit.Current]("A", "A"), Optional: true, Chips: []string{"20A", "30A", "40A", "45A", "60A", "85A"}, Limits: form.Within(5*unit.Ampere, 1000*unit.Ampere)},
		{Key: "arc_volts", Label: "Arc volts", Help: "While it cuts, if the machine shows them. Empty: " + power.LoadLine() + fmt.Sprintf(", right within %.0f %%", 100*(offVolts-1)),
			Takes: form.Number[unit.Voltage]("V", "V"), Optional: true, Basis: "iec-60974-1-load", Fine: true, Limits: form.Within(40*unit.Volt, 400*unit.Volt)},
		{Key: "tips", Label: "Tips on the truck", Help: "The torch's parts sheet, or marked on the tip.",
			Takes: TipPairs(), Optional: true},
		{Key: "fitted", Label: "Tip in the torch", Help: "Its amps. It stays in if it will do.",
			Takes: form.Number[unit.Current]("A", "A"), Optional: true, Limits: form.Within(5*unit.Ampere, 1000*unit.Ampere)},
		{Key: "pressure_kind", Label: "The air pressure is", Help: "By the torch's book: one value, or another for each tip or current.",
			Takes: form.OneOf("fixed", "one value", "automatic", "set by the machine", "table", "by tip", "line", "by amps"), Default: "fixed"},
		{Key: "pressure", Label: "Air pressure", Help: "Torch's book or plate, while air flows.", Chips: []string{"4.5bar", "5bar", "5.5bar", "6bar"}, ChipsUS: []string{"60psi", "65psi", "70psi", "80psi"},
			Format: "One value, or current:pressure such as 15A:1.6bar,45A:4.6bar for table or line.", Takes: pressureText(), Optional: true, Only: form.When("pressure_kind", "fixed", "table", "line")},
	}...), power.BothFields()...)
}

// readRig reads the fields of rigFields.
func readRig(r *form.Reader) Rig {
	inlet := power.ReadInlet(r)
	rig := readTips(r, inlet.Max)
	rig.Inlet = inlet
	rig.Fitted = form.Get[unit.Current](r, "fitted")
	rig.Gas = readGas(r)
	if len(rig.Tips) == 0 {
		return rig // readTips has said so
	}
	if rig.Fitted > 0 && !slices.ContainsFunc(rig.Tips, func(t Tip) bool { return t.Rated == rig.Fitted }) {
		r.Fail("fitted", problem.Newf(problem.Unknown, "fitted", "no tip of %s is listed under tips", unit.In(rig.Fitted, "A")).
			WithHint("Add it to the tips with its bore, or leave this empty."))
	}
	if _, most := rig.full(); most == 0 && r.Err() == nil {
		r.Fail("tips", problem.New(problem.Conflict, "tips", "no tip fits between the rig's lowest and highest current",
			fmt.Sprintf("A tip is run at %.0f to 100 %% of its rating. ", 100*lowShare)+"Check the tips' ratings, the panel's range and the points of the pressure line."))
	}
	return rig
}

// readTips reads min_current, arc_volts and tips of rigFields, the tips smallest
// first; most is the panel's highest current, or 0.
func readTips(r *form.Reader, most unit.Current) Rig {
	rig := Rig{
		Min:   form.Get[unit.Current](r, "min_current"),
		Max:   most,
		Volts: form.Get[unit.Voltage](r, "arc_volts"),
	}
	for _, p := range form.GetPairs[unit.Current, unit.Length](r, "tips") {
		rig.Tips = append(rig.Tips, Tip{p.Left, cmp.Or(p.Right, OrificeFor(p.Left))})
	}
	checkTips(r, rig.Tips)
	order.Sort(rig.Tips, func(a, b Tip) int { return cmp.Compare(a.Rated, b.Rated) })
	if len(rig.Tips) == 0 && rig.Max > 0 {
		rig.Tips = []Tip{{rig.Max, OrificeFor(rig.Max)}}
	}
	if len(rig.Tips) == 0 {
		r.Fail("tips", problem.New(problem.Missing, "tips", "the rig is not known", "Enter its largest amps, or its tips."))
		return rig
	}
	largest := rig.Tips[len(rig.Tips)-1].Rated
	if rig.Max == 0 {
		rig.Max = largest
	}
	if rig.Min == 0 {
		rig.Min = min(rig.Tips[0].Rated, rig.Max)
	}
	if rig.Min > rig.Max {
		r.Fail("min_current", problem.Newf(problem.Conflict, "min_current", "the lowest current is above the highest, %s", unit.In(rig.Max, "A")).
			WithHint("Enter both as the panel shows them."))
	}
	return rig
}

// checkTips refuses ratings and bores that no cutting tip has.
func checkTips(r *form.Reader, tips []Tip) {
	for i, t := range tips {
		if t.Rated < 5 || t.Rated > 1000 || t.Orifice < 0.3e-3 || t.Orifice > 8e-3 {
			r.Fail("tips", problem.Newf(problem.Range, "tips", "a tip of %s with a bore of %s is outside what this can reckon with", unit.In(t.Rated, "A"), unit.In(t.Orifice, "mm")).
				WithHint("Ratings run from 5 to 1000 A, bores from 0.3 to 8 mm."))
		}
		for _, u := range tips[:i] {
			if u.Rated == t.Rated {
				r.Fail("tips", problem.Newf(problem.Conflict, "tips", "two tips are rated %s", unit.In(t.Rated, "A")).WithHint("List each rating once."))
			}
		}
	}
}

// FittedTip is the tip that a rig's fields say is in the torch: the one fitted,
// or the only one; none while its bore is not known.
func FittedTip(r *form.Reader) (Tip, bool) {
	fitted := form.Get[unit.Current](r, "fitted")
	pairs := form.GetPairs[unit.Current, unit.Length](r, "tips")
	for _, p := range pairs {
		if p.Right > 0 && (p.Left == fitted || fitted == 0 && len(pairs) == 1) {
			return Tip{p.Left, p.Right}, true
		}
	}
	return Tip{}, false
}
