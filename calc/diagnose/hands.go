package diagnose

// Hands says where the hands are in a check, which decides what it costs before
// it begins and whether it can be made after a stop.
type Hands string

const (
	Look Hands = "look" // eyes only, or to think back
	Hand Hands = "hand" // a hand on what lies outside the torch: clamp, drain, coupler, vents
	On   Hands = "on"   // machine switched on, nothing flows: lamps, fan, panel
	Air  Hands = "air"  // air flows, no arc
	Arc  Hands = "arc"  // a short cut, with hood, gloves and a look round before it
	Off  Hands = "off"  // switched off and unplugged, the head stays shut
	Dead Hands = "dead" // the torch made dead, a hand on the head or in it
)

// live tells whether a check needs the machine switched on.
func (h Hands) live() bool { return h == On || h == Air || h == Arc }

// What has to be done before a check begins, in minutes, with the way back. The
// torch is made dead once for all that is looked at in its head: after-flow,
// off, unplugged, waiting time, cool, bled. The authors' judgement.
const (
	offMinutes  = 3.0
	deadMinutes = 12.0
)

// setUp is what has to be done before the check, in minutes.
func (c Check) setUp(open bool) float64 {
	switch {
	case open && (c.Hands == Dead || c.Hands == Off):
		return 0
	case c.Hands == Off:
		return offMinutes
	case c.Hands == Dead:
		return deadMinutes
	}
	return 0
}
