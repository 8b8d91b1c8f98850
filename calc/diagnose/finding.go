package diagnose

// Finding is something that can be seen: a sign that a user picks, or what a
// check brings out. Given lists how often each cause shows it; Leak is how often
// it shows with none of them. All of these are the authors' judgement, in five
// steps: always .95, mostly .8, often .6, sometimes .3, seldom .1.
type Finding struct {
	Key   string  `json:"key"`
	Label string  `json:"label"`
	Leak  float64 `json:"-"`
	Given []Shows `json:"-"`

	// Signs only.
	Stop    string `json:"stop,omitempty"`    // stop at once: what to do before anything is looked for
	NoFault string `json:"noFault,omitempty"` // why this is no fault at all

	// Checks only.
	Do      string  `json:"do,omitempty"`
	Minutes float64 `json:"minutes,omitempty"`
	Yes     string  `json:"yes,omitempty"` // what to tap when it shows
	No      string  `json:"no,omitempty"`
	Safety  bool    `json:"safety,omitempty"` // goes before all others while its causes are live
	Live    bool    `json:"live,omitempty"`   // needs the machine switched on, so it is not asked after a stop
	Guide   string  `json:"guide,omitempty"`
	Step    string  `json:"step,omitempty"`
}

// Shows says how often a cause shows a finding.
type Shows struct {
	Cause string
	Often float64
}

// given returns how often the finding is shown by a cause, 0 if never.
func (f Finding) given(cause string) float64 {
	for _, s := range f.Given {
		if s.Cause == cause {
			return s.Often
		}
	}
	return 0
}

// SignGroups put the signs in the order and the company in which a user looks
// for them.
var SignGroups = []struct {
	Label string   `json:"label"`
	Signs []string `json:"signs"`
}{
	{"Stop at once", []string{"shock", "green-flame"}},
	{"When you pull the trigger", []string{"dead", "no-arc", "no-air", "air-no-pilot", "no-transfer", "goes-on", "after-change"}},
	{"While it cuts", []string{"cuts-out", "unsteady", "spits", "blows-sideways", "blows-back", "snaps-out", "not-through", "head-hot"}},
	{"On the metal", []string{"heavy-dross", "hard-bead", "top-spatter", "wide-cut", "bevel-one", "bevel-both", "painted"}},
	{"Parts, air and power", []string{"parts-short", "hiss", "oil-smell", "lead-marked", "heat-light", "fault-light", "breaker", "rcd", "generator"}},
	{"May be no fault at all", []string{"one-side-squarer", "sparks-trail", "after-flow", "click-first", "thin-dross", "fan-on", "pilot-ends", "dark-edge", "pierce-crater"}},
}

const (
	always    = .95
	mostly    = .8
	often     = .6
	sometimes = .3
	seldom    = .1
)

// Signs are what a user can see, in plain words.
var Signs = []Finding{
	{Key: "shock", Label: "A shock or a tingle", Stop: "Stop. Power off at the isolator and unplug before anything else. See a doctor after any shock. Cord, machine and torch are tested by a qualified person before they are used again.", Leak: .001, Given: []Shows{{"supply-leaks", mostly}, {"lead-damaged", sometimes}, {"machine-fault", sometimes}}},
	{Key: "green-flame", Label: "Green flame from the tip", Stop: "Let go of the trigger: the copper of the torch is burning. Power off at the isolator, unplug and let the head cool. Electrode and tip are spent; look at every part before the next arc.", Leak: .002, Given: []Shows{{"electrode-pitted", sometimes}, {"air-wet", seldom}, {"parts-mixed", seldom}, {"diffuser-bad", seldom}}},
	{Key: "no-arc", Label: "No arc at all", Leak: .005, Given: []Shows{{"cup-not-seated", always}, {"slide-stuck", mostly}, {"hose-not-coupled", mostly}, {"parts-mixed", often}, {"lead-damaged", often}, {"machine-fault", often}, {"pressure-low", sometimes}, {"electrode-pitted", seldom}, {"duty-passed", often}, {"volts-low", sometimes}, {"o-ring-bad", seldom}, {"diffuser-bad", seldom}, {"supply-dead", always}}},
	{Key: "no-transfer", Label: "Pilot arc, but it will not transfer", Leak: .005, Given: []Shows{{"clamp-poor", mostly}, {"surface-painted", often}, {"standoff-high", often}, {"amps-low", seldom}, {"pressure-high", seldom}, {"electrode-pitted", seldom}, {"tip-worn", seldom}}},
	{Key: "cuts-out", Label: "Arc cuts out in mid-cut", Leak: .01, Given: []Shows{{"clamp-poor", often}, {"surface-painted", sometimes}, {"volts-low", often}, {"generator-weak", often}, {"too-slow", sometimes}, {"standoff-high", sometimes}, {"electrode-pitted", sometimes}, {"pressure-low", sometimes}, {"duty-passed", often}, {"air-wet", seldom}, {"trigger-latched", sometimes}, {"metal-past-capacity", sometimes}, {"electrode-loose", sometimes}, {"tip-dragged", seldom}}},
	{Key: "goes-on", Label: "Arc goes on after the trigger is let go", Leak: .002, Given: []Shows{{"trigger-latched", always}, {"lead-damaged", sometimes}, {"machine-fault", seldom}}},
	{Key: "unsteady", Label: "Unsteady, sputtering arc", Leak: .01, Given: []Shows{{"air-wet", mostly}, {"electrode-loose", mostly}, {"electrode-pitted", often}, {"diffuser-bad", often}, {"pressure-low", sometimes}, {"air-oily", often}, {"o-ring-bad", sometimes}, {"clamp-poor", sometimes}, {"volts-low", sometimes}, {"generator-weak", sometimes}, {"parts-mixed", sometimes}, {"tip-dragged", sometimes}}},
	{Key: "blows-sideways", Label: "The arc comes out at the side of the head", Leak: .002, Given: []Shows{{"cup-clogged", often}, {"diffuser-bad", often}, {"parts-mixed", often}, {"cup-not-seated", seldom}, {"o-ring-bad", sometimes}, {"tip-dragged", seldom}}},
	{Key: "spits", Label: "Spits water or pops", Leak: .004, Given: []Shows{{"air-wet", always}, {"air-oily", sometimes}, {"electrode-loose", seldom}}},
	{Key: "heavy-dross", Label: "Heavy, bubbly dross that comes off easily", Leak: .02, Given: []Shows{{"too-slow", always}, {"tip-worn", often}, {"pressure-low", sometimes}, {"standoff-high", sometimes}, {"amps-over-tip", seldom}}},
	{Key: "hard-bead", Label: "Hard thin bead under the cut", Leak: .01, Given: []Shows{{"too-fast", mostly}, {"tip-worn", seldom}, {"amps-low", sometimes}}},
	{Key: "blows-back", Label: "Molten metal flies up instead of out below", Leak: .004, Given: []Shows{{"too-fast", often}, {"metal-past-capacity", mostly}, {"amps-low", often}, {"pressure-low", seldom}, {"pierce-hard", mostly}}},
	{Key: "top-spatter", Label: "Beads or a raised rim along the top edge", Leak: .01, Given: []Shows{{"too-fast", often}, {"standoff-high", often}, {"tip-worn", sometimes}, {"tip-nicked", sometimes}, {"amps-low", sometimes}, {"pierce-hard", sometimes}}},
	{Key: "wide-cut", Label: "Cut wider than it used to be", Leak: .01, Given: []Shows{{"tip-worn", always}, {"standoff-high", sometimes}, {"too-slow", sometimes}, {"amps-over-tip", sometimes}, {"parts-mixed", sometimes}}},
	{Key: "bevel-one", Label: "More bevel than usual on one side", Leak: .02, Given: []Shows{{"torch-tilted", always}, {"tip-nicked", often}, {"tip-worn", often}, {"diffuser-bad", often}, {"cup-clogged", seldom}}},
	{Key: "bevel-both", Label: "Bevel on both sides", Leak: .01, Given: []Shows{{"standoff-high", always}, {"tip-worn", often}, {"pressure-low", seldom}}},
	{Key: "not-through", Label: "Does not go through any more", Leak: .01, Given: []Shows{{"too-fast", often}, {"amps-low", mostly}, {"metal-past-capacity", always}, {"tip-worn", often}, {"electrode-pitted", sometimes}, {"pressure-low", often}, {"volts-low", sometimes}, {"generator-weak", sometimes}, {"standoff-high", sometimes}, {"clamp-poor", seldom}}},
	{Key: "head-hot", Label: "Torch head too hot to hold", Leak: .005, Given: []Shows{{"cup-clogged", mostly}, {"diffuser-bad", often}, {"pressure-low", often}, {"amps-over-tip", often}, {"o-ring-bad", sometimes}}},
	{Key: "parts-short", Label: "Parts last far too short", Leak: .01, Given: []Shows{{"air-wet", mostly}, {"amps-over-tip", mostly}, {"air-oily", often}, {"pressure-low", often}, {"diffuser-bad", often}, {"parts-mixed", mostly}, {"pressure-high", often}, {"tip-dragged", mostly}, {"pierce-hard", mostly}, {"cup-clogged", sometimes}, {"electrode-pitted", sometimes}, {"surface-painted", sometimes}}},
	{Key: "heat-light", Label: "Machine stops with a heat light", Leak: .002, Given: []Shows{{"duty-passed", always}, {"vents-blocked", mostly}, {"machine-fault", sometimes}}},
	{Key: "breaker", Label: "The circuit breaker trips", Leak: .003, Given: []Shows{{"volts-low", often}, {"machine-fault", sometimes}, {"supply-leaks", seldom}, {"supply-dead", seldom}}},
	{Key: "rcd", Label: "The residual-current device trips", Leak: .002, Given: []Shows{{"supply-leaks", always}, {"machine-fault", sometimes}}},
	{Key: "generator", Label: "Generator bogs or idles down", Leak: .002, Given: []Shows{{"generator-weak", always}}},
	{Key: "oil-smell", Label: "Oil smell or brown film where the air comes out", Leak: .002, Given: []Shows{{"air-oily", always}}},

	{Key: "after-change", Label: "It began right after parts were changed", Leak: .02, Given: []Shows{{"parts-mixed", mostly}, {"electrode-loose", mostly}, {"cup-not-seated", mostly}, {"o-ring-bad", sometimes}, {"slide-stuck", sometimes}, {"diffuser-bad", seldom}}},
	{Key: "dead", Label: "Machine dark: no lamp, no fan", Leak: .001, Given: []Shows{{"supply-dead", always}, {"machine-fault", sometimes}}},
	{Key: "no-air", Label: "No air comes", Leak: .003, Given: []Shows{{"hose-not-coupled", always}, {"pressure-low", sometimes}, {"machine-fault", seldom}, {"cup-not-seated", sometimes}, {"lead-damaged", seldom}, {"supply-dead", mostly}}},
	{Key: "air-no-pilot", Label: "Air blows, but no pilot arc", Leak: .003, Given: []Shows{{"slide-stuck", always}, {"parts-mixed", sometimes}, {"electrode-pitted", seldom}, {"machine-fault", sometimes}, {"lead-damaged", sometimes}, {"pressure-low", sometimes}, {"cup-not-seated", sometimes}}},
	{Key: "hiss", Label: "Air hisses out at the head or a coupler", Leak: .004, Given: []Shows{{"o-ring-bad", mostly}, {"hose-not-coupled", often}, {"lead-damaged", seldom}}},
	{Key: "snaps-out", Label: "On thin sheet the arc is blown out at once", Leak: .003, Given: []Shows{{"pressure-high", mostly}, {"standoff-high", seldom}, {"clamp-poor", seldom}}},
	{Key: "painted", Label: "The metal is painted, rusty or scaled", Leak: .15, Given: []Shows{{"surface-painted", always}}},
	{Key: "lead-marked", Label: "Nick, burn or kink in the torch lead", Leak: .002, Given: []Shows{{"lead-damaged", always}}},
	{Key: "fault-light", Label: "A fault light or code", Leak: .004, Given: []Shows{{"machine-fault", always}, {"cup-not-seated", often}, {"volts-low", often}, {"pressure-low", sometimes}, {"lead-damaged", sometimes}, {"hose-not-coupled", sometimes}}},

	// No faults: what worries people and is as it should be.
	{Key: "one-side-squarer", Label: "One side of the cut is a little squarer", NoFault: "The swirl of the air always leaves one side squarer. Keep the part on that side."},
	{Key: "sparks-trail", Label: "Sparks trail a little behind", NoFault: "About 15 to 20 degrees behind upright is the right speed."},
	{Key: "after-flow", Label: "Air blows on after the arc is out", NoFault: "The after-flow cools the parts. Let it finish before you switch off."},
	{Key: "click-first", Label: "A click and a hiss before the arc", NoFault: "The valve opens first and the parts move apart: torches that start by contact sound like that."},
	{Key: "thin-dross", Label: "A little dross that a glove brushes off", NoFault: "Some dross is left by every air cut. If it grows, go a little faster."},
	{Key: "fan-on", Label: "The fan runs on after cutting", NoFault: "It cools the machine. Leave it plugged in until it stops."},
	{Key: "pilot-ends", Label: "The pilot arc ends by itself in the air", NoFault: "Machines end a pilot arc that finds no metal after a few seconds, to spare the tip. Let go, come closer to the metal and pull again."},
	{Key: "dark-edge", Label: "The edge of stainless or aluminium is dark and rough", NoFault: "Air leaves these metals with a dark, rough edge. Grind it bright before you weld."},
	{Key: "pierce-crater", Label: "Spatter and a wide spot where you pierced", NoFault: "A pierce throws metal and leaves a crater. Pierce in the waste and lead in to the line."},
}
