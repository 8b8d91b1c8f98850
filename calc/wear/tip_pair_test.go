package wear

import (
	"testing"

	"kerfside/calc/cutting"
	"kerfside/calc/material"
	"kerfside/calc/unit"
)

// What cut-plan refuses for its thickness, tip-wear gives no speed for, and the
// other way round.
func TestTipSeversWhatThePlanDoes(t *testing.T) {
	for _, m := range []material.Metal{material.MildSteel, material.Stainless, material.Aluminium} {
		for thickness := unit.Millimetre; thickness < 60*unit.Millimetre; thickness += unit.Millimetre {
			tip := cutting.Tip{Rated: 40, Orifice: 0.95 * unit.Millimetre}
			_, err := cutting.ComputePlan(cutting.PlanInput{Metal: m, Thickness: thickness, Layers: 1, Rig: cutting.Rig{Min: 40, Max: 40, Tips: []cutting.Tip{tip}},
				Scatter: 0.2, HandLimit: 1.5 * unit.MetrePerMinute, Bounds: cutting.UsualBounds, Balance: cutting.Balance{Efficiency: cutting.DefaultEfficiency, Calibration: 1}})
			res, wrong := ComputeTip(TipInput{New: tip.Orifice, Smallest: tip.Orifice, GrowthLimit: 0.15, OvalLimit: 0.1, Current: 40, Metal: m, Thickness: thickness, Speed: 0.4 * unit.MetrePerMinute})
			if wrong != nil {
				t.Fatal(wrong)
			}
			if (err != nil) != (res.SpeedWithNew == 0) {
				t.Errorf("%s, %v: cut-plan says %v, tip-wear a speed of %v", m, thickness, err, res.SpeedWithNew)
			}
		}
	}
}
