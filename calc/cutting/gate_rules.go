package cutting

import "kerfside/calc/source"

// rule is one consequence of the answers to the gate's questions.
type rule struct {
	when   []answered // all must hold
	stop   bool       // otherwise it is a condition
	text   string     // why not, or what to do first
	by     string     // who may clear it
	source source.ID
}

// answered is an answer to a question of the gate, by the keys of its fields.
type answered struct{ key, word string }

const (
	byYou       = "you"
	byOwner     = "you and the owner"
	byCompetent = "a competent person, in writing"
	byPermit    = "whoever issues the hot-work permit"
	bySpecial   = "the trade that works on it"
)

// gateRules are the gate's rules, in the order in which they are told. A stop
// is never lifted by another answer. The wording is the project's own.
var gateRules = []rule{
	{[]answered{{"what", "vessel"}}, true, "A tank, drum or container that has held anything can explode or give off poison when heated, however long it has stood empty. Do not cut it.", byCompetent, "osha-252a3"},
	{[]answered{{"what", "sealed"}}, true, "A closed hollow bursts when it is heated, even if it never held anything. Vent it first, by a way that makes no heat, and then answer again.", byYou, "osha-252a3"},
	{[]answered{{"what", "wheel"}}, true, "A wheel with its tyre on, inflated or not, can explode when it is cut or heated. Take the tyre off first.", bySpecial, "osha-177"},
	{[]answered{{"what", "strut"}}, true, "A gas strut, hydraulic cylinder, accumulator or air bag bursts or burns when it is heated. Take it off and away first.", bySpecial, source.CommonPractice},
	{[]answered{{"what", "spring"}}, true, "A part under load flies when it is cut through. Take the load off it first.", byCompetent, source.CommonPractice},
	{[]answered{{"what", "line"}}, true, "A line that holds or may hold fuel, oil, gas, steam or pressure is not cut. Have it emptied, locked off and opened first.", byCompetent, "osha-252a3"},
	{[]answered{{"near", "vapour"}}, true, "Fuel, solvent, gas or dust is near: one spark is enough.", byPermit, "osha-252a2"},
	{[]answered{{"near", "solvent"}}, true, "Chlorinated solvent or its vapour near the arc makes phosgene. Get it away and the place aired first.", byCompetent, source.CommonPractice},
	{[]answered{{"behind", "unknown"}}, true, "You do not know what is behind it. Find out before the arc does.", byYou, "osha-252a2"},
	{[]answered{{"place", "confined"}}, true, "The arc makes gases that kill in a confined space, and lung injury may show only hours later. It wants an entry permit, forced air, and a watcher outside.", byCompetent, "osha-252c"},
	{[]answered{{"wet", "yes"}}, true, "Wet hands, wet gear or standing water and the volts of this machine do not go together. Get dry, and stand dry.", byYou, source.CommonPractice},
	{[]answered{{"coating", "cadmium"}}, true, "Cadmium smoke kills in small amounts. Have the plating stripped, or cut it cold.", byCompetent, "osha-1926-354"},
	{[]answered{{"coating", "unknown"}, {"place", "enclosed"}}, true, "An unknown coating in an enclosed place: find out what it is, or strip it first.", byYou, "osha-1926-354"},

	{[]answered{{"what", "vented"}}, false, "See that the vent is open and large enough, at the high and the low end, and that nothing is left inside.", byYou, "osha-252a3"},
	{[]answered{{"what", "vehicle"}}, false, "Battery off, electronics unplugged; tyres, fuel and hydraulic lines, air bags and trim away; clamp on the part that you cut. List what has to go back.", byOwner, source.CommonPractice},
	{[]answered{{"what", "loaded"}}, false, "Shore it and hang it before you cut: know what it weighs and where it goes when the last inch is through.", byCompetent, source.CommonPractice},
	{[]answered{{"near", "burnable"}}, false, "Move what burns 35 ft (11 m) away or cover it with fire-resistant covers, and set a fire watch with an extinguisher.", byPermit, "osha-252a2"},
	{[]answered{{"near", "people"}}, false, "Screens up, people and animals back: eyes, sparks, noise and smoke reach them too.", byYou, source.CommonPractice},
	{[]answered{{"behind", "wall"}}, false, "Look at the far side of the wall or floor, clear it 35 ft (11 m) around, and have someone watch there as well.", byPermit, "osha-252a2"},
	{[]answered{{"behind", "services"}}, false, "Have the cables and pipes behind it switched off, locked off or moved.", byOwner, source.CommonPractice},
	{[]answered{{"place", "workshop"}}, false, "Doors open or the extraction on; below 16 ft (5 m) of ceiling or 10,000 ft³ (284 m³) for each torch, forced ventilation.", byYou, "osha-252c"},
	{[]answered{{"place", "enclosed"}}, false, "Forced ventilation, a respirator for the metal and its coating, someone who watches you, and a permit where there is one.", byPermit, "osha-252c"},
	{[]answered{{"coating", "galvanised"}}, false, "Strip the zinc back from the cut or pull its smoke away; wear the respirator for it.", byYou, "osha-1926-354"},
	{[]answered{{"coating", "painted"}}, false, "Take the paint for lead or chromate until you know better: strip it back 4 in (100 mm) from the cut, or wear supplied air.", byYou, "osha-1926-354"},
	{[]answered{{"coating", "unknown"}}, false, "Find out what the coating is. Until then strip it back 4 in (100 mm) and wear supplied air.", byYou, "osha-1926-354"},
	{[]answered{{"coating", "oily"}}, false, "Clean it off with something that neither burns nor holds chlorine, and let it dry.", byYou, source.CommonPractice},
	{[]answered{{"coating", "galvanised"}, {"place", "enclosed"}}, false, "Zinc smoke in an enclosed place: extraction at the cut itself, not only in the room.", byYou, "osha-1926-353"},
}

// applies reports whether all of the rule's answers were given.
func (r rule) applies(answers map[string]string) bool {
	for _, w := range r.when {
		if answers[w.key] != w.word {
			return false
		}
	}
	return true
}
