package wear

import (
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// A reading under new by more than this is no worn tip: spatter in the bore or
// a tip of another size. Gauge pins and the photo gauge are good to about as
// much. Common practice.
const underNew = 0.03

// CheckReading refuses a bore that reads smaller than the tip's bore when new
// by more than a gauge's error, 3 %: a bore only grows. Both are diameters. The
// problem names no field: the caller knows in which the reading stood
// (problem.Error.WithField). Every calculator that takes a reading of a tip
// calls it, so that none judges what another refuses.
func CheckReading(new, read unit.Length) error {
	const hair = 1e-9 // so that 0.97 mm of 1 mm is 3 % and no more
	if read >= new*(1-underNew-hair) {
		return nil
	}
	return problem.Newf(problem.Conflict, "", "the bore reads %s, less than its %s when new", bothUnits(read), bothUnits(new)).
		WithHint("Brush spatter from the bore and read again, or check which tip is fitted. Never ream it.")
}

// bothUnits prints a bore for a refusal, which is read in either system.
func bothUnits(l unit.Length) string { return unit.In(l, "mm") + " (" + unit.In(l, "in") + ")" }
