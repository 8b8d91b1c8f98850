package safety

// What stops a cut, in the one wording of fume and may-i-cut.
const (
	VesselStop    = "A tank, drum or container that has held anything can explode or give off poison when heated. It makes no difference how long it has stood empty. Do not cut it."
	HollowStop    = "A closed hollow bursts when it is heated, even if it never held anything. Vent it first, by a way that makes no heat."
	ConfinedStop  = "The arc makes gases that kill in a confined space, and lung injury may show only hours later. It wants an entry permit, tested air, forced air, and a watcher outside."
	SolventStop   = "Chlorinated or halogenated solvent near the arc makes phosgene. Get it away, the metal dry and the place aired first. A label you cannot read, or a brake cleaner that says non-flammable: take it for chlorinated."
	CadmiumStop   = "Cadmium smoke kills in small amounts. Have the plating stripped, or cut it cold."
	BerylliumStop = "Beryllium smoke scars the lungs for good. Cut it cold, or leave it to a shop that has a hood and air lines for it."
	PlasticStop   = "PVC, fluoropolymer, urethane foam, two-pack paint and plastic nobody knows make poison gas under the arc. They come off before any heat: no mask makes it right."
)

// What a coating asks, in the one wording of fume, may-i-cut and cut-plan.
const (
	Fitted   = "a fitted fume respirator (P100 or P3)"
	Drawn    = Fitted + " wherever the fume is not drawn away"
	ZincAsks = "Strip the zinc 4 in (100 mm) back from the cut. Wear " + Drawn + "."
	// PaintAsks holds for all paint not known to be free of lead and chromate.
	PaintAsks = "Take paint for lead and chromate until you know better. Strip it 4 in (100 mm) back with " + Fitted + " on; what cannot be stripped is cut with an air-line respirator, or not at all."
)
