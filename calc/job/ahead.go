package job

import (
	"cmp"

	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/life"
	"kerfside/calc/site"
	"kerfside/calc/unit"
)

// Ahead returns what the cuts of a job ask of the parts in a torch: their arc time at the
// speed of the plan, and their starts. The job is not played, so starts that come of air
// or duty cycle which do not serve a run are not among them. Rows that cannot be cut are
// left out, and counted; its error is why none can be.
func Ahead(values map[string]any) (use life.Use, out int, err error) {
	r := form.NewReader(JobPlan.Calculator(), values)
	place := site.Input{Plan: cutting.ReadSetup(r)}
	rows := r.Rows("cuts")
	if err := r.Err(); err != nil {
		return use, 0, err
	}
	for _, row := range rows {
		c := readCut(row, place)
		plan, refused := cutting.ComputePlan(c.Place.Plan)
		if wrong := cmp.Or(row.Err(), c.Refused, refused); wrong != nil {
			out, err = out+1, wrong
			continue
		}
		use.Minutes += float64(c.Count) * float64(c.Length) / float64(plan.Speed) / float64(unit.Minute)
		use.Starts += float64(c.Count * c.Runs)
	}
	if out < len(rows) {
		err = nil
	}
	return use, out, err
}
