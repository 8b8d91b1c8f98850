package main

import "math"

// demoUsual is the share of the speed that just severs at which the crew cuts.
const demoUsual = 0.7

// planned is what the plan of a job says of what is left, in whole s. It takes the
// reckoning as it is, and so is off where the truck is.
func (t *demoTruck) planned(j *demoJob) body {
	const handling = 90
	cuts, elapsed := body{}, 0.0
	for i, c := range j.cuts {
		reckoned, err := demoReckoned(t.key, c.metal, c.plate)
		if err != nil || j.left[i] == 0 {
			continue
		}
		n := float64(j.left[i])
		arc := n * float64(c.length) / (demoUsual * reckoned)
		whole := func(x float64) int64 { return int64(math.Round(x)) }
		takes := arc + n*handling
		elapsed += takes
		cuts[c.key] = body{"n": j.left[i], "arc": whole(arc), "arcLow": whole(0.75 * arc), "arcHigh": whole(1.35 * arc), "starts": whole(n * (1.4 + float64(c.pierces))),
			"elapsed": whole(takes), "low": whole(0.8 * takes), "high": whole(1.4 * takes)}
	}
	return body{"elapsed": int64(elapsed), "low": int64(0.8 * elapsed), "high": int64(1.4 * elapsed), "cuts": cuts}
}
