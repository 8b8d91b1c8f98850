package life

// joint is what is known of how many tips and electrodes a job uses up together.
type joint interface {
	chance(tips, electrodes int) float64 // that so many are enough
	off(tips, electrodes int) float64    // by which chance may be off
	usedUp() (tips, electrodes float64)  // on average
	most() (tips, electrodes int)        // with which next to nothing is missing
}

// apart are tips and electrodes that are changed without a look at the other: their
// counts are exact, and have nothing to do with each other.
type apart struct{ tips, electrodes Counts }

// apartWithin is near enough for a chance that is told in so many out of 100.
const apartWithin = 1e-3

// few is up to how many average lives countApart takes no longer than a simulation.
const few = 4

// countApart counts both sides by themselves.
func countApart(sides [2]side) apart {
	return apart{tips: sides[0].counts(apartWithin), electrodes: sides[1].counts(apartWithin)}
}

func (a apart) chance(tips, electrodes int) float64 {
	return a.tips.Chance(tips) * a.electrodes.Chance(electrodes)
}

func (a apart) off(tips, electrodes int) float64 {
	return min(a.tips.Error+a.electrodes.Error, 1-a.chance(tips, electrodes))
}

func (a apart) usedUp() (tips, electrodes float64) {
	return a.tips.Expected(), a.electrodes.Expected()
}

func (a apart) most() (tips, electrodes int) {
	return len(a.tips.AtMost) - 1, len(a.electrodes.AtMost) - 1
}
