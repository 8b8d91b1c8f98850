package wear

import (
	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// Sizes are what a rig's fields say of its parts, in millimetres as drawings
// take them, by the drawing and its parameter; nothing where they do not say.
type Sizes map[string]map[string]float64

// RigSizes reads the tip in the torch from a rig's fields as cut-plan takes
// them, a JSON object: its bore when new, the bore at which it is changed by
// the growth limit of tip-wear, and the kerf to lay out with. A rig whose
// fields do not tell which tip that is has no sizes, which is no fault.
func RigSizes(input []byte) (Sizes, error) {
	r, err := form.NewJSONReader(cutting.CutPlan.Calculator(), input)
	if err != nil {
		return nil, err
	}
	tip, ok := cutting.FittedTip(r)
	if err := r.Err(); err != nil {
		return nil, err
	}
	if !ok {
		return Sizes{}, nil
	}
	growth := form.Get[unit.Ratio](form.NewReader(TipWear.Calculator(), nil), "growth_limit")
	mm := func(l unit.Length) float64 { return unit.Value(l, "mm") }
	return Sizes{
		"orifice": {"new": mm(tip.Orifice), "limit": mm(tip.Orifice * unit.Length(1+growth))},
		"offset":  {"kerf": mm(cutting.KerfWidth(tip.Orifice))},
	}, nil
}
