package safety

// MadeDead is the one caution wherever a hand goes to the torch's head: parts,
// cup, a measurement, a photo. The steps are those of guides/make-dead.md.
const MadeDead = "Make the torch dead first: after-flow done, off, unplugged, waiting time over, head cool, air bled."
