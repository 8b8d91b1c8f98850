package job

import (
	"encoding/json"

	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/handling"
	"kerfside/calc/site"
	"kerfside/calc/unit"
)

// LengthOf returns how long the cut of one piece is by a row of a cut list as it was
// typed, its shape included. Its error is the row's first trouble.
func LengthOf(row map[string]string) (unit.Length, error) {
	text, err := json.Marshal([]map[string]string{row})
	if err != nil {
		return 0, err
	}
	c := JobPlan.Calculator()
	r := form.NewReader(c, map[string]any{"cuts": string(text)})
	for _, row := range r.Rows("cuts") {
		plan, _ := cutting.ReadCut(row, cutting.PlanInput{})
		cut := handling.ReadCut(row, plan.Thickness)
		return cut.Length, row.Err()
	}
	return 0, r.Err()
}

// CheckRow returns what is wrong with a row of a cut list as it was typed, whatever rig
// cuts it.
func CheckRow(row map[string]string) error {
	text, err := json.Marshal([]map[string]string{row})
	if err != nil {
		return err
	}
	r := form.NewReader(JobPlan.Calculator(), map[string]any{"cuts": string(text)})
	for _, row := range r.Rows("cuts") {
		readCut(row, site.Input{})
		return row.Err()
	}
	return r.Err()
}
