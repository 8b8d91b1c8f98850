package diagnose

// Sign is something that a user can see or say without a check. Leak is how
// often it shows with none of the causes, by the authors' judgement.
type Sign struct {
	Key     string   `json:"key"`
	Label   string   `json:"label"`
	Leak    float64  `json:"-"`
	Stop    string   `json:"stop,omitempty"`    // stop at once: what to do before anything is looked for
	Now     string   `json:"now,omitempty"`     // what to do at once, though the search goes on
	NoFault string   `json:"noFault,omitempty"` // why this is no fault at all
	Fact    bool     `json:"fact,omitempty"`    // what is so, and is no trouble by itself
	Grave   bool     `json:"-"`                 // no way back to work but over a cause that was found
	Whole   bool     `json:"-"`                 // every part of the head is looked at before the next arc
	Hushes  []string `json:"-"`                 // signs whose words are not told beside this one's
}

// SignGroup is signs under what a person would say of them, so few that they
// are seen at once.
type SignGroup struct {
	Key     string   `json:"key"`
	Label   string   `json:"label"`
	Picture string   `json:"picture"` // the sign whose drawing stands for all
	Signs   []string `json:"signs"`   // those that are no fault last
}

// SignGroups put each sign in one group: what can hurt, then six for what is seen
// on any day, then what is so and no trouble by itself.
var SignGroups = []SignGroup{
	{Key: "danger", Label: "Danger: shock, smoke", Picture: "shock", Signs: []string{"shock", "green-flame", "goes-on", "blows-sideways", "burnt-smell", "lead-marked"}},
	{Key: "start", Label: "No arc, or hard to start", Picture: "no-arc", Signs: []string{"no-arc", "no-air", "air-no-pilot", "no-transfer", "hard-start", "dead", "click-first", "pilot-ends"}},
	{Key: "through", Label: "Goes out, or no cut", Picture: "cuts-out", Signs: []string{"cuts-out", "dies-end", "unsteady", "snaps-out", "blows-back", "not-through", "no-pierce"}},
	{Key: "dross", Label: "Dross, spatter, sparks", Picture: "heavy-dross", Signs: []string{"heavy-dross", "hard-bead", "top-spatter", "thin-dross", "pierce-crater", "sparks-trail"}},
	{Key: "edge", Label: "Bad edge, or wide cut", Picture: "bevel-both", Signs: []string{"wide-cut", "bevel-one", "bevel-both", "wavy", "one-side-squarer", "dark-edge"}},
	{Key: "torch", Label: "Parts, torch or air", Picture: "parts-short", Signs: []string{"parts-short", "tip-spoiled", "head-hot", "hiss", "air-on", "spits", "oil-smell", "after-flow"}},
	{Key: "machine", Label: "Machine or power", Picture: "fault-light", Signs: []string{"heat-light", "fault-light", "trips-on", "breaker", "rcd", "generator", "clamp-hot", "fan-on"}},
	{Key: "began", Label: "How it began", Signs: []string{"after-change", "grip", "moved", "hose-moved", "amps-up", "overhead"}},
	{Key: "metal", Label: "What you cut", Signs: []string{"painted", "thin-sheet", "on-mesh", "at-pierce"}},
	{Key: "supply", Label: "Power and air", Signs: []string{"on-mains", "on-generator", "long-cord", "shared", "long-hose"}},
	{Key: "weather", Label: "The weather", Signs: []string{"frost", "wet-day", "hot-day"}},
}

// resetOnce is what is done after a device has tripped.
const resetOnce = "Nobody felt a tingle? Unplug everything, reset once. Trips again with nothing plugged in, or as soon as the machine is plugged in: leave it off and call a licensed electrician."

// Signs are what a user can see or say, in plain words.
var Signs = []Sign{
	{Key: "shock", Label: "A shock or a tingle", Leak: .001, Grave: true, Stop: "Stop. Somebody hangs on it: power off first, do not touch them. Power off at the isolator and unplug before anything else. See a doctor after any shock. Reset nothing: a qualified person tests cord, machine and torch before they are used again."},
	{Key: "green-flame", Label: "Green flame from the tip", Leak: .002, Whole: true, Stop: "Let go of the trigger: the copper of the torch is burning. Let the after-flow finish, power off at the isolator and unplug. Tip and electrode are spent. Look at every part before the next arc."},
	{Key: "goes-on", Label: "Arc goes on after the trigger is let go", Leak: .001, Grave: true, Stop: "Do not put the torch down. Hold it away from everything, switch off at the machine, then at the isolator. No arc until you know why."},
	{Key: "blows-sideways", Label: "The arc comes out at the side of the head", Leak: .001, Whole: true, Stop: "Let go of the trigger. The arc burns through the head from inside. No arc until you have looked at every part of it."},
	{Key: "burnt-smell", Label: "Smoke or a burnt smell from the machine", Leak: .001, Grave: true, Stop: "Get out of the smoke. Power off at the isolator, then unplug. A hot or smoking plug stays in: breaker off. Reset nothing. Do not open the machine. A qualified person looks at it before it is switched on again."},
	{Key: "lead-marked", Label: "Nick, burn or kink in the torch lead", Leak: .001, Stop: "No arc with a marked lead. Power off at the isolator and unplug, then look how deep it goes."},

	{Key: "no-arc", Label: "No arc at all", Leak: .004},
	{Key: "no-air", Label: "No air comes", Leak: .003},
	{Key: "air-no-pilot", Label: "Air blows, but no pilot arc", Leak: .003},
	{Key: "no-transfer", Label: "Pilot arc, but it will not transfer", Leak: .004},
	{Key: "hard-start", Label: "Starts only after several tries", Leak: .005},
	{Key: "dead", Label: "Machine dark: no lamp, no fan", Leak: .001, Grave: true},

	{Key: "cuts-out", Label: "Arc cuts out in mid-cut", Leak: .008},
	{Key: "dies-end", Label: "Arc dies just before the piece falls", Leak: .003},
	{Key: "unsteady", Label: "Unsteady, sputtering arc", Leak: .008},
	{Key: "spits", Label: "Spits water or pops", Leak: .003},
	{Key: "blows-back", Label: "Molten metal flies up at the torch", Leak: .003, Now: "Let go: it does not go through, and the melt comes back at you."},
	{Key: "snaps-out", Label: "On thin sheet the arc is blown out at once", Leak: .003},
	{Key: "not-through", Label: "Does not go through any more", Leak: .008},
	{Key: "no-pierce", Label: "Does not pierce", Leak: .004, Now: "Let go: do not hold the arc on a hole that does not open. Start at an edge meanwhile."},
	{Key: "head-hot", Label: "Torch head too hot to hold", Leak: .004, Now: "Stop cutting and let the after-flow run."},

	{Key: "heavy-dross", Label: "Heavy, bubbly dross that comes off easily", Leak: .02},
	{Key: "hard-bead", Label: "Hard thin bead under the cut", Leak: .01},
	{Key: "top-spatter", Label: "Beads or a raised rim along the top edge", Leak: .01},
	{Key: "wide-cut", Label: "Cut wider than it used to be", Leak: .01},
	{Key: "bevel-one", Label: "More bevel than usual on one side", Leak: .02},
	{Key: "bevel-both", Label: "Bevel on both sides", Leak: .01},
	{Key: "wavy", Label: "Edge wavy or in steps", Leak: .02},

	{Key: "parts-short", Label: "Parts last far too short", Leak: .01},
	{Key: "tip-spoiled", Label: "A new tip was spoiled within minutes", Leak: .004},
	{Key: "hiss", Label: "Air hisses out at the head, hose or a coupler", Leak: .004, Now: "No hand before a leak. Never catch a hose that whips: shut the valve at the tank."},
	{Key: "air-on", Label: "Air never stops, trigger or not", Leak: .001},
	{Key: "oil-smell", Label: "Oil smell, or brown film on parts", Leak: .002},
	{Key: "clamp-hot", Label: "Work clamp, its lead or its plug gets hot", Leak: .003, Now: "Arc off, and let it cool before a hand goes near it."},
	{Key: "heat-light", Label: "Machine stops with a heat light", Leak: .002, Now: "Leave it switched on with the fan running: switching off traps the heat. If the fan stands still: off."},
	{Key: "fault-light", Label: "A fault light or code", Leak: .003},
	{Key: "trips-on", Label: "The breaker trips at switch-on", Leak: .001, Grave: true, Hushes: []string{"breaker", "rcd", "heat-light"}, Now: "Leave the breaker off and unplug the machine."},
	{Key: "breaker", Label: "The breaker trips while you cut", Leak: .003, Grave: true, Hushes: []string{"heat-light"}, Now: resetOnce},
	{Key: "rcd", Label: "The residual-current device trips", Leak: .002, Grave: true, Hushes: []string{"breaker", "heat-light"}, Now: resetOnce + " On a generator its test button may prove nothing: ask an electrician about the neutral."},
	{Key: "generator", Label: "Generator bogs or idles down", Leak: .002},

	// Facts: what is so. They point, and are no trouble by themselves.
	{Key: "after-change", Fact: true, Label: "It began right after parts were changed", Leak: .05},
	{Key: "grip", Fact: true, Label: "It changes with grip or a bend of the lead", Leak: .02},
	{Key: "painted", Fact: true, Label: "The metal is painted, rusty or scaled", Leak: .25},
	{Key: "at-pierce", Fact: true, Label: "It happens when you pierce", Leak: .1},
	{Key: "on-mesh", Fact: true, Label: "On mesh, grating, or layers with gaps", Leak: .03},
	{Key: "thin-sheet", Fact: true, Label: "On thin sheet", Leak: .15},
	{Key: "overhead", Fact: true, Label: "After overhead or upright work", Leak: .08},
	{Key: "amps-up", Fact: true, Label: "The amps were turned up", Leak: .05},
	{Key: "long-cord", Fact: true, Label: "A long or thin cord, or one on a drum", Leak: .2},
	{Key: "shared", Fact: true, Label: "Others on the same circuit", Leak: .2},
	{Key: "on-mains", Fact: true, Label: "Power from the mains", Leak: .5},
	{Key: "on-generator", Fact: true, Label: "Power from a generator", Leak: .3},
	{Key: "long-hose", Fact: true, Label: "A long or thin air hose, or a small compressor", Leak: .2},
	{Key: "hose-moved", Fact: true, Label: "The air hose was coupled or moved just before", Leak: .06},
	{Key: "moved", Fact: true, Label: "Dropped, knocked or driven over", Leak: .05},
	{Key: "frost", Fact: true, Label: "Near freezing or below", Leak: .06},
	{Key: "wet-day", Fact: true, Label: "Damp or rainy", Leak: .15},
	{Key: "hot-day", Fact: true, Label: "Hot, in the sun, or machine in a corner", Leak: .1},

	// No faults: what worries people and is as it should be.
	{Key: "one-side-squarer", Label: "One side of the cut is a little squarer", NoFault: "The swirl of the air always leaves one side squarer. Keep the part on that side."},
	{Key: "sparks-trail", Label: "Sparks trail a little behind", NoFault: "About 15 to 20 degrees behind upright is the right speed."},
	{Key: "after-flow", Label: "Air blows on for a while after the arc is out", NoFault: "The after-flow cools the parts. Let it finish before you switch off."},
	{Key: "click-first", Label: "A click and a hiss before the arc", NoFault: "The valve opens first, then the parts move apart. A torch that starts by contact sounds like that."},
	{Key: "thin-dross", Label: "A little dross that a glove brushes off", NoFault: "Some dross is left by every air cut. If it grows, go a little faster."},
	{Key: "fan-on", Label: "The fan runs on after cutting", NoFault: "It cools the machine. Leave it plugged in until it stops."},
	{Key: "pilot-ends", Label: "The pilot arc ends by itself in the air", NoFault: "The machine ends a pilot arc that finds no metal, to spare the tip. Let go, come closer and pull again."},
	{Key: "dark-edge", Label: "Stainless or aluminium: a dark, rough edge", NoFault: "Air leaves these metals with a dark, rough edge. Grind it bright before you weld."},
	{Key: "pierce-crater", Label: "Spatter and a wide spot where you pierced", NoFault: "A pierce throws metal and leaves a crater. Pierce in the waste and lead in to the line."},
}
