package cutting

import (
	"slices"

	"kerfside/calc/safety"
	"kerfside/calc/source"
)

// rule is one consequence of the answers to the gate's questions.
type rule struct {
	key    string     // what the journal calls it
	name   string     // what it is, in a few words
	when   []answered // all must hold
	text   string     // why not, or what to do first
	by     string     // who may clear it
	source source.ID
	ways   []string // a stop's: what clears it, done; a rule without is a condition
}

// stops reports whether the rule is a stop.
func (r rule) stops() bool { return len(r.ways) > 0 }

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
// is never lifted by another answer. The wording is the project's own. Keys go
// into the journal and stay as they are.
var gateRules = []rule{
	{key: "vessel", name: "tank or drum that has held something", when: []answered{{"what", "vessel"}}, by: byCompetent, source: "osha-252a3",
		text: safety.VesselStop,
		ways: []string{"Cleaned and made safe by a competent person, in writing"}},
	{key: "sealed", name: "closed hollow, not vented", when: []answered{{"what", "sealed"}}, by: byYou, source: "osha-252a3",
		text: safety.HollowStop,
		ways: []string{"Vented: holes drilled at the high and the low end", "Opened cold: cap or end taken off"}},
	{key: "wheel", name: "wheel with its tyre on", when: []answered{{"what", "wheel"}}, by: bySpecial, source: "osha-177",
		text: "A wheel with its tyre on, inflated or not, can explode when it is cut or heated. Take the tyre off first.",
		ways: []string{"Tyre off the wheel", "Wheel off and away from the cut"}},
	{key: "strut", name: "gas strut, cylinder, accumulator or air bag", when: []answered{{"what", "strut"}}, by: bySpecial, source: source.CommonPractice,
		text: "A gas strut, hydraulic cylinder, accumulator or air bag bursts or burns when it is heated. Take it off and away first.",
		ways: []string{"Taken off and away from the cut"}},
	{key: "spring", name: "spring or part under load", when: []answered{{"what", "spring"}}, by: byCompetent, source: source.CommonPractice,
		text: "A part under load flies when it is cut through. Take the load off it first.",
		ways: []string{"Load taken off by a competent person", "Part taken off and away from the cut"}},
	{key: "line", name: "line that may hold something", when: []answered{{"what", "line"}}, by: byCompetent, source: "osha-252a3",
		text: "A line that holds or may hold fuel, oil, gas, steam or pressure is not cut. Have it emptied, locked off and opened first.",
		ways: []string{"Emptied, locked off and opened by a competent person"}},
	{key: "vapour", name: "fuel, gas, solvent or dust near", when: []answered{{"near", "vapour"}}, by: byPermit, source: "osha-252a2",
		text: "Fuel, solvent, gas or dust is near: one spark is enough.",
		ways: []string{"Taken away and aired out; the permit says so", "Work moved to another place"}},
	{key: "solvent", name: "chlorinated cleaner near", when: []answered{{"near", "solvent"}}, by: byCompetent, source: "osha-solvent",
		text: safety.SolventStop,
		ways: []string{"Taken away, metal dry, place aired out", "Work moved to another place"}},
	{key: "behind", name: "not known what is behind", when: []answered{{"behind", "unknown"}}, by: byYou, source: "osha-252a2",
		text: "You do not know what is behind it. Find out before the arc does.",
		ways: []string{"Looked: nothing behind it", "Found, and moved or shielded"}},
	{key: "confined", name: "confined space", when: []answered{{"place", "confined"}}, by: byCompetent, source: "osha-252c",
		text: safety.ConfinedStop,
		ways: []string{"Entry permit, air tested, forced air, watcher outside", "Work moved out into the open"}},
	{key: "wet", name: "something is wet", when: []answered{{"wet", "yes"}}, by: byYou, source: source.CommonPractice,
		text: "Wet hands, wet gear or standing water and the volts of this machine do not go together. Get dry, and stand dry.",
		ways: []string{"Dried: ground, hands, gloves and gear", "Moved to a dry place"}},
	{key: "cadmium", name: "cadmium plating", when: []answered{{"coating", "cadmium"}}, by: byCompetent, source: "osha-1926-353",
		text: safety.CadmiumStop,
		ways: []string{"Plating stripped by a competent person", "Cut cold instead"}},
	{key: "plastic", name: "plastic, foam or two-pack paint", when: []answered{{"coating", "plastic"}}, by: byYou, source: source.CommonPractice,
		text: safety.PlasticStop,
		ways: []string{"Off, cold, and away from the cut", "Cut cold instead"}},
	{key: "beryllium", name: "beryllium copper", when: []answered{{"coating", "beryllium"}}, by: byCompetent, source: "osha-1926-353",
		text: safety.BerylliumStop,
		ways: []string{"Cut cold instead"}},
	{key: "unknown-enclosed", name: "unknown coating, little air", when: []answered{{"coating", "unknown"}, {"place", "enclosed"}}, by: byYou, source: "osha-1926-354",
		text: "An unknown coating in an enclosed place: find out what it is, or strip it first.",
		ways: []string{"Tested: it is known now", "Stripped back from the cut", "Work moved out into the open"}},

	{key: "vented", name: "hollow, vented", when: []answered{{"what", "vented"}}, by: byYou, source: "osha-252a3",
		text: "See that the vent is open and large enough, at the high and the low end. See that nothing is left inside."},
	{key: "vehicle", name: "vehicle or trailer", when: []answered{{"what", "vehicle"}}, by: byOwner, source: source.CommonPractice,
		text: "Battery off, electronics unplugged; tyres, fuel and hydraulic lines, air bags and trim away; clamp on the part that you cut. List what has to go back."},
	{key: "loaded", name: "it holds something up", when: []answered{{"what", "loaded"}}, by: byCompetent, source: source.CommonPractice,
		text: "Shore it and hang it before you cut: know what it weighs and where it goes when the last inch is through."},
	{key: "burnable", name: "things that burn near", when: []answered{{"near", "burnable"}}, by: byPermit, source: "osha-252a2",
		text: "Move what burns 35 ft (11 m) away, or cover it with fire-resistant covers. Set a fire watch with an extinguisher."},
	{key: "people", name: "people or animals near", when: []answered{{"near", "people"}}, by: byYou, source: source.CommonPractice,
		text: "Screens up, people and animals back: eyes, sparks, noise and smoke reach them too."},
	{key: "wall", name: "wall, floor or roof behind", when: []answered{{"behind", "wall"}}, by: byPermit, source: "osha-252a2",
		text: "Look at the far side of the wall or floor. Clear it 35 ft (11 m) around. Have someone watch there as well."},
	{key: "services", name: "cables or pipes behind", when: []answered{{"behind", "services"}}, by: byOwner, source: source.CommonPractice,
		text: "Have the cables and pipes behind it switched off, locked off or moved."},
	{key: "workshop", name: "in a workshop", when: []answered{{"place", "workshop"}}, by: byYou, source: "osha-252c",
		text: "Doors open or the extraction on; below 16 ft (5 m) of ceiling or 10,000 ft³ (284 m³) for each torch, forced ventilation."},
	{key: "enclosed", name: "little air", when: []answered{{"place", "enclosed"}}, by: byPermit, source: "osha-252c",
		text: "Force air through, and wear a respirator for the metal and its coating. Have someone watch you. Keep to the permit where there is one."},
	{key: "galvanised", name: "zinc on it", when: []answered{{"coating", "galvanised"}}, by: byYou, source: "osha-1926-354",
		text: safety.ZincAsks},
	{key: "painted", name: "paint on it", when: []answered{{"coating", "painted"}}, by: byYou, source: "osha-1926-354",
		text: safety.PaintAsks},
	{key: "unknown", name: "unknown coating", when: []answered{{"coating", "unknown"}}, by: byYou, source: "osha-1926-354",
		text: "Find out what the coating is. " + safety.PaintAsks},
	{key: "oily", name: "oil or grease on it", when: []answered{{"coating", "oily"}}, by: byYou, source: source.CommonPractice,
		text: "Clean it off with something that neither burns nor holds chlorine, and let it dry."},
	{key: "zinc-enclosed", name: "zinc and little air", when: []answered{{"coating", "galvanised"}, {"place", "enclosed"}}, by: byYou, source: "osha-1926-353",
		text: "Zinc smoke in an enclosed place: extraction at the cut itself, not only in the room."},
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

// leftAlone clears every stop: the work was not done.
const leftAlone = "Not cut: left as it is"

// Stop is a stop as a page needs it to have it cleared.
type Stop struct {
	Key  string   `json:"key"`
	Name string   `json:"name"`
	By   string   `json:"by"`   // who may clear it
	Ways []string `json:"ways"` // what may have been done about it
}

// Stops lists all stops of the gate.
func Stops() []Stop {
	list := []Stop{}
	for _, r := range gateRules {
		if r.stops() {
			list = append(list, Stop{Key: r.key, Name: r.name, By: r.by, Ways: append(slices.Clone(r.ways), leftAlone)})
		}
	}
	return list
}
