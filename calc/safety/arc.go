package safety

// What every sum that leads to an arc says, in one wording.
const (
	ArcOn    = "Eyes, face, hands and neck covered, hearing protected, bystanders behind screens, dry gloves. Know both sides of the metal. Have an extinguisher at hand. Keep a fire watch from the last arc on."
	Rehearse = "Rehearse with the arc off. " + MadeDead
	Return   = "Never clamp to the drop-off. Never let the current return through chains, slings, wire rope, hoists, cranes, bearings, hinges or pipework."
)
