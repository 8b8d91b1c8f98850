package diagnose

// Cause is one thing that can be wrong. Prior is how common it is when a cut
// goes bad and nothing else is known; Minutes is what mending it takes. Both
// are the authors' judgement.
type Cause struct {
	Key     string  `json:"key"`
	Label   string  `json:"label"`
	Prior   float64 `json:"-"`
	Minutes float64 `json:"minutes"`
	Do      string  `json:"do"`
	Guide   string  `json:"guide"` // guide and step that show how
	Step    string  `json:"step"`
	Service bool    `json:"service,omitempty"` // only a qualified person mends it
	Part    string  `json:"part,omitempty"`    // slot in the torch that is changed
}

// shownIn is the guide step that shows how to look for the cause and mend it.
func (c Cause) shownIn() string { return c.Guide + "#" + c.Step }

// How common a cause is among bad cuts, in four steps.
const (
	common  = .10
	usual   = .06
	unusual = .03
	rare    = .015
)

// Causes are all causes that the fault finder can name: the hand and the metal,
// air, power, the work's side, the torch, the machine.
var Causes = []Cause{
	{Key: "too-slow", Label: "Too slow", Prior: common, Minutes: 1, Do: "Go faster, until sparks trail a little behind.", Guide: "reading-the-cut", Step: "dross"},
	{Key: "too-fast", Label: "Too fast", Prior: common, Minutes: 1, Do: "Go slower, until sparks leave the bottom.", Guide: "reading-the-cut", Step: "lag"},
	{Key: "standoff-high", Label: "Standoff too high", Prior: usual, Minutes: 1, Do: "Hold 1.5 to 3 mm, or drag a tip that is made for it.", Guide: "reading-the-cut", Step: "both-sides"},
	{Key: "torch-tilted", Label: "Torch tilted", Prior: usual, Minutes: 1, Do: "Hold the torch upright to the plate; run the cup along a guide.", Guide: "reading-the-cut", Step: "bevel"},
	{Key: "tip-dragged", Label: "Tip dragged on the plate", Prior: unusual, Minutes: 5, Do: "Change the smeared tip. Keep 1.5 to 3 mm with a guide; drag only a tip that is made for it.", Guide: "edge-start", Step: "height", Part: "tip"},
	{Key: "hand-unsteady", Label: "Hand unsteady, no guide", Prior: usual, Minutes: 2, Do: "Run the cup along a straightedge. Rest your forearm. Pull the torch, do not push it.", Guide: "straight-and-round", Step: "run"},
	{Key: "start-rushed", Label: "Moved off before it was through", Prior: unusual, Minutes: 1, Do: "Wait at the start until sparks come out below, then move.", Guide: "edge-start", Step: "strike"},
	{Key: "pierce-hard", Label: "Pierced upright, or plate too thick to pierce", Prior: unusual, Minutes: 1, Do: "Over half the clean limit: start at an edge or a drilled hole. Thinner: lean the torch, so that the melt blows away from you and the lead. Bring it upright as it goes through. A tip that took the melt is spent.", Guide: "pierce", Step: "lean"},
	{Key: "pilot-wasted", Label: "Pilot arc burned in the air", Prior: unusual, Minutes: 1, Do: "Set the tip over the edge first, then pull the trigger. Every second of pilot arc wears tip and electrode.", Guide: "edge-start", Step: "pilot"},
	{Key: "after-flow-cut", Label: "After-flow cut short", Prior: unusual, Minutes: 1, Do: "Leave the machine on, and air coupled, until the air stops by itself.", Guide: "make-dead", Step: "after-flow"},
	{Key: "surface-painted", Label: "Paint or rust under the clamp or the cut", Prior: usual, Minutes: 5, Do: "Strip both sides back from the cut, and grind a bright spot for the clamp.", Guide: "coated-metal", Step: "strip"},
	{Key: "metal-gaps", Label: "Gaps, mesh or layers: the arc loses the metal", Prior: rare, Minutes: 3, Do: "Clamp a strip of scrap along the line, or go strand by strand. Layers with a gap are cut one at a time.", Guide: "mesh-and-grating", Step: "travel"},
	{Key: "amps-low", Label: "Amps too low for the thickness", Prior: usual, Minutes: 1, Do: "Set what the plan says, at most the tip's rating.", Guide: "sheet-and-thick", Step: "thick-limit"},
	{Key: "metal-past-capacity", Label: "Metal past what the rig can cut", Prior: unusual, Minutes: 1, Do: "Cut from an edge, or use a larger machine, oxyfuel or a saw.", Guide: "sheet-and-thick", Step: "thick-limit"},
	{Key: "amps-over-tip", Label: "Amps over the tip's rating", Prior: unusual, Minutes: 5, Do: "Set the amps to the tip's rating or below. A tip that ran over it is spent: look at the electrode too.", Guide: "bring-up", Step: "amps", Part: "tip"},
	{Key: "trigger-latched", Label: "Trigger set to latched", Prior: rare, Minutes: 1, Do: "Set the trigger to hold; the manual shows where.", Guide: "trigger-and-lead", Step: "mode"},
	{Key: "trigger-locked", Label: "Trigger guard not lifted", Prior: rare, Minutes: .5, Do: "Lift the guard, then pull the trigger. Never tie the guard back.", Guide: "trigger-and-lead", Step: "lock"},

	{Key: "hose-not-coupled", Label: "Air hose not fully coupled", Prior: unusual, Minutes: 1, Do: "Bleed the line, push the coupler home until it clicks, and look again.", Guide: "bring-up", Step: "hose"},
	{Key: "air-none", Label: "No air there: compressor off, tank empty or a valve shut", Prior: unusual, Minutes: 5, Do: "Start the compressor, open its outlet and let the tank fill.", Guide: "air-and-trap", Step: "keeps-up"},
	{Key: "hose-leaks", Label: "Hose, coupler or fitting leaks", Prior: rare, Minutes: 10, Do: "Shut the tank valve and bleed the line. Then change the leaking piece. Never wrap a hose with tape.", Guide: "bring-up", Step: "hose"},
	{Key: "pressure-low", Label: "Pressure low while flowing: hose, filter or compressor", Prior: usual, Minutes: 6, Do: "Set the regulator, while air flows, to what the plate says. Bleed the line first. Then fit a shorter or wider hose, full-bore couplers or a new filter. Or wait for the tank.", Guide: "air-and-trap", Step: "flowing"},
	{Key: "pressure-high", Label: "Pressure too high for the metal", Prior: rare, Minutes: 1, Do: "Where your torch's manual allows it, lower the pressure for thin sheet; a fixed one stays as the plate says.", Guide: "bring-up", Step: "pressure"},
	{Key: "air-wet", Label: "Wet air", Prior: common, Minutes: 6, Do: "Compressor off. Face and hand away: open the tank's drain slowly, then the trap's. Water is back within minutes: add a filter or dryer.", Guide: "air-and-trap", Step: "trap"},
	{Key: "air-oily", Label: "Oily air", Prior: rare, Minutes: 15, Do: "Change the filter, and have the compressor looked at. Oil ruins hose and torch.", Guide: "air-and-trap", Step: "filter"},
	{Key: "air-frozen", Label: "Frozen air line, regulator or trap", Prior: rare, Minutes: 30, Do: "Shut the tank valve. Bring hose, regulator and machine into the warm: no flame, no hot water, no hammer. Bleed after the thaw, and drain all of it before the next frost.", Guide: "air-and-trap", Step: "frozen"},

	{Key: "supply-dead", Label: "No power comes to the machine", Prior: unusual, Minutes: 3, Do: "Look at switch, plug, generator and breaker. Unplug everything and reset once. It trips again: leave it off and call a licensed electrician. After a shock or a burnt smell reset nothing.", Guide: "generator-and-cord", Step: "breaker"},
	{Key: "circuit-overloaded", Label: "Circuit overloaded: too many amps, or others on it", Prior: unusual, Minutes: 4, Do: "Give the machine a circuit of its own, let the compressor fill first, or cut with fewer amps. Never a bigger breaker.", Guide: "shared-power", Step: "one-circuit"},
	{Key: "volts-low", Label: "Low input volts (cord or supply)", Prior: usual, Minutes: 8, Do: "Unroll the cord, use a shorter and thicker one, or a better supply. The site check says which.", Guide: "generator-and-cord", Step: "volts"},
	{Key: "generator-weak", Label: "Generator too small or idling down", Prior: unusual, Minutes: 3, Do: "Switch off its idle saver, let the compressor fill before the cut, or cut with fewer amps.", Guide: "generator-and-cord", Step: "generator"},
	{Key: "supply-leaks", Label: "Leak to earth: cord, plug, torch or machine", Prior: unusual, Minutes: 60, Do: "Leave it off. A licensed electrician, or the machine's service, tests cord, machine and torch.", Guide: "generator-and-cord", Step: "rcd", Service: true},
	{Key: "others-leak", Label: "Something else on the device leaks to earth", Prior: unusual, Minutes: 5, Do: "Leave off what trips it, and have it tested. Plug in the others one by one, the machine last.", Guide: "shared-power", Step: "rcd"},

	{Key: "clamp-poor", Label: "Work clamp poor or far away", Prior: common, Minutes: 2, Do: "Clamp bright metal close to the cut, on the part you keep.", Guide: "work-clamp", Step: "bright"},
	{Key: "work-lead-loose", Label: "Work lead loose at the machine or at its clamp", Prior: rare, Minutes: 2, Do: "Off, unplugged, cool: turn its plug home at the machine, and tighten the lug at the clamp. It rocks or is blue: have it serviced.", Guide: "trigger-and-lead", Step: "work-plug"},

	{Key: "cup-not-seated", Label: "Cup not seated, safety switch open", Prior: unusual, Minutes: 1, Do: "Seat the cup fully by hand. Never bridge its switch.", Guide: "torch-inspection", Step: "cup-switch"},
	{Key: "cup-clogged", Label: "Air holes in the cup clogged", Prior: usual, Minutes: 4, Do: "Clear every hole of the cup with a soft brush or wooden pick; change the cup if one stays shut.", Guide: "torch-inspection", Step: "cup-holes", Part: "cup"},
	{Key: "cup-cracked", Label: "Cup cracked or its thread torn", Prior: rare, Minutes: 3, Do: "Change the cup.", Guide: "torch-inspection", Step: "cup-face", Part: "cup"},
	{Key: "tip-worn", Label: "Tip worn or oval", Prior: common, Minutes: 4, Do: "Change the tip; change the electrode with it if its pit is past half.", Guide: "torch-inspection", Step: "tip-size", Part: "tip"},
	{Key: "tip-nicked", Label: "Tip nicked at its edge", Prior: usual, Minutes: 4, Do: "Change the tip. Never file or ream it.", Guide: "torch-inspection", Step: "tip-edge", Part: "tip"},
	{Key: "tip-large", Label: "Tip of a larger rating than the amps", Prior: rare, Minutes: 4, Do: "Fit the tip for the amps that you set.", Guide: "torch-inspection", Step: "same-family", Part: "tip"},
	{Key: "parts-mixed", Label: "Parts of the wrong kind or mixed", Prior: unusual, Minutes: 5, Do: "Fit tip, electrode, swirl ring and cup of one family and one rating.", Guide: "torch-inspection", Step: "same-family"},
	{Key: "diffuser-bad", Label: "Swirl ring chipped, melted or clogged", Prior: unusual, Minutes: 5, Do: "Change the swirl ring.", Guide: "torch-inspection", Step: "diffuser", Part: "diffuser"},
	{Key: "electrode-pitted", Label: "Electrode pitted", Prior: common, Minutes: 4, Do: "Change the electrode; change the tip with it if it is past half.", Guide: "torch-inspection", Step: "electrode-pit", Part: "electrode"},
	{Key: "electrode-loose", Label: "Electrode loose", Prior: unusual, Minutes: 3, Do: "Tighten it snug with the proper tool, and no more.", Guide: "torch-inspection", Step: "electrode-fit"},
	{Key: "o-ring-bad", Label: "O-ring cracked, cut or missing", Prior: unusual, Minutes: 4, Do: "Change it. Give it a trace of the grease that its manual names. Fit it before the other parts.", Guide: "torch-inspection", Step: "o-ring", Part: "o-ring"},
	{Key: "slide-stuck", Label: "Starting slide in the torch stuck", Prior: unusual, Minutes: 6, Do: "Clean the slide dry until it moves freely; if it will not, have the head changed.", Guide: "trigger-and-lead", Step: "slide"},
	{Key: "lead-loose", Label: "Torch lead loose or kinked", Prior: rare, Minutes: 2, Do: "Off, unplugged and bled: turn its connector home at the machine, by hand. Lay the lead in wide bends. A kink stays: have the lead changed.", Guide: "trigger-and-lead", Step: "connectors"},
	{Key: "lead-damaged", Label: "Torch lead or trigger damaged", Prior: rare, Minutes: 60, Do: "Unplug it and leave it. Use no tape: a qualified person changes lead or torch.", Guide: "trigger-and-lead", Step: "trigger", Service: true},

	{Key: "duty-passed", Label: "Duty cycle passed", Prior: unusual, Minutes: 10, Do: "Leave it on with the fan running until the light goes out. Then cut less in each ten minutes.", Guide: "generator-and-cord", Step: "duty"},
	{Key: "vents-blocked", Label: "Machine's vents blocked, or no room around it", Prior: unusual, Minutes: 4, Do: "Leave it on, fan running. Give it room and shade. Later, unplugged, glasses on: blow it out at low pressure, away from you.", Guide: "bring-up", Step: "vents"},
	{Key: "fan-stopped", Label: "Machine's fan stands still", Prior: rare, Minutes: 120, Do: "Do not cut with it. Have the machine serviced by a qualified person.", Guide: "upkeep", Step: "machine", Service: true},
	{Key: "valve-stuck", Label: "Machine's air valve stuck shut", Prior: rare, Minutes: 120, Do: "Stop. Have the valve changed by a qualified person.", Guide: "upkeep", Step: "machine", Service: true},
	{Key: "air-test-on", Label: "Panel left on air test", Prior: unusual, Minutes: .5, Do: "Turn the panel back to cut.", Guide: "air-and-trap", Step: "flowing"},
	{Key: "valve-open", Label: "Machine's air valve stuck open", Prior: rare, Minutes: 120, Do: "Stop. Have the valve changed by a qualified person.", Guide: "upkeep", Step: "machine", Service: true},
	{Key: "machine-fault", Label: "Fault inside the machine", Prior: unusual, Minutes: 120, Do: "Stop. Have the machine serviced by a qualified person.", Guide: "shared-power", Step: "smell", Service: true},
}
