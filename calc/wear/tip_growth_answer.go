package wear

import (
	"kerfside/calc/form"
	"kerfside/calc/life"
	"kerfside/calc/unit"
)

// putGrowth tells how the bore goes on growing.
func putGrowth(a *form.Answer, in TipInput, res TipResult) {
	if w := res.Wear; w != nil {
		if w.Told {
			form.Put(a, "per_start", unit.Ratio(w.PerStart))
			form.Put(a, "per_minute", unit.Ratio(w.PerMinute))
		}
		if w.Free > 0 {
			form.Put(a, "deviation", unit.Ratio(w.Deviation))
		}
		a.PutCount("rests_on", w.Count)
	}
	if !res.Forecast {
		return
	}
	putOutlook(a, res.Outlook)
	if res.JobVerdict != "" {
		form.Put(a, "job_growth", unit.Ratio(res.AtJobEnd))
	}
	plotted{title: "The bore from now on", wear: "growth", unit: "%", scale: func(g float64) float64 { return 100 * g }, limit: float64(in.GrowthLimit),
		so: life.Use{Minutes: float64(in.Minutes / unit.Minute), Starts: in.Starts}, job: in.Job}.draw(a, res.Outlook)
}
