package diagnose

// Check is something to look at or to try. Yes is the answer that speaks for
// the causes that show it. Leak is how often it shows with none of them.
type Check struct {
	Key     string   `json:"key"`
	Label   string   `json:"label"`
	Do      string   `json:"do"`
	Hands   Hands    `json:"hands"`
	Minutes float64  `json:"minutes"` // once the hands may begin
	Yes     string   `json:"yes"`     // what to tap when it shows
	No      string   `json:"no"`
	Leak    float64  `json:"-"`
	Shut    bool     `json:"-"`                // Dead, but the head stays shut
	Safety  bool     `json:"safety,omitempty"` // goes before all others while a cause of harm is likely
	Only    []string `json:"-"`                // asked only when one of these signs was seen
	Guide   string   `json:"guide"`
	Step    string   `json:"step"`
	Same    []string `json:"-"` // other guide steps that answer it
}

// shownIn is the guide step that shows how to make the check.
func (c Check) shownIn() string { return c.Guide + "#" + c.Step }

// Checks are what to look at or to try. Those that want the torch dead stand in
// the order in which it comes apart.
var Checks = []Check{
	{Key: "isolate", Label: "Is there a wet cord, a cracked lead or bare copper?", Safety: true, Hands: Off, Minutes: 1, Yes: "there is", No: "all whole and dry", Leak: .02, Do: "Off at the isolator and unplugged first. Then look along cord, plug, machine and torch lead, without touching bare metal.", Only: []string{"shock", "rcd"}, Guide: "generator-and-cord", Step: "rcd"},
	{Key: "lead-look", Label: "Does the mark go through the lead's cover, or does the trigger stick?", Safety: true, Hands: Off, Minutes: 1, Yes: "through, or sticks", No: "scuffs only", Leak: .02, Do: "Off and unplugged. Run a gloved hand along the lead and press the trigger: it must spring back.", Guide: "trigger-and-lead", Step: "trigger", Same: []string{"torch-inspection#lead"}},
	{Key: "burnt-look", Label: "Does the machine itself smell burnt?", Safety: true, Hands: Off, Minutes: .5, Yes: "burnt", No: "no smell", Leak: .01, Do: "Off and unplugged. Smell at its vents. Do not open it.", Only: []string{"burnt-smell", "trips-on", "breaker", "dead", "rcd"}, Guide: "shared-power", Step: "smell"},

	{Key: "slower-try", Label: "Better when you go slower?", Hands: Arc, Minutes: 1, Yes: "better", No: "no better", Leak: .04, Do: "Cut 100 mm (4 in) clearly slower on scrap.", Guide: "trial-strips", Step: "read"},
	{Key: "faster-try", Label: "Better when you go faster?", Hands: Arc, Minutes: 1, Yes: "better", No: "no better", Leak: .04, Do: "Cut 100 mm (4 in) clearly faster on scrap.", Guide: "trial-strips", Step: "read"},
	{Key: "closer-try", Label: "Better with the tip 2 mm off the plate?", Hands: Arc, Minutes: 1, Yes: "better", No: "no better", Leak: .04, Do: "Rest the cup on a guide or a 2 mm (5/64 in) wire and cut 100 mm (4 in).", Guide: "straight-and-round", Step: "run"},
	{Key: "upright-try", Label: "Better with the torch held upright by a square?", Hands: Arc, Minutes: 1, Yes: "better", No: "no better", Leak: .04, Do: "Set a square on the plate beside the torch and cut 100 mm (4 in).", Guide: "reading-the-cut", Step: "bevel"},
	{Key: "guide-try", Label: "Straight with a guide?", Hands: Arc, Minutes: 1, Yes: "straight with it", No: "wavy all the same", Leak: .04, Do: "Clamp a straightedge and pull the cup along it.", Guide: "straight-and-round", Step: "run"},
	{Key: "edge-try", Label: "Better when you start from an edge?", Hands: Arc, Minutes: 1, Yes: "better", No: "no better", Leak: .04, Do: "Start the same cut from an edge, or from a drilled hole.", Guide: "pierce", Step: "thin-enough"},
	{Key: "wait-try", Label: "Better when you wait at the start until sparks come out below?", Hands: Arc, Minutes: 1, Yes: "better", No: "no better", Leak: .04, Do: "Strike, stand still until it is through, then move.", Guide: "edge-start", Step: "strike"},
	{Key: "pierced-upright", Label: "Was the torch upright at the pierce, or the plate over half the clean limit?", Hands: Look, Minutes: .2, Yes: "upright, or thick", No: "leaned, and thin", Leak: .015, Do: "Think back to the last pierce.", Only: []string{"at-pierce", "no-pierce", "blows-back", "tip-spoiled", "parts-short"}, Guide: "pierce", Step: "lean"},
	{Key: "dragged", Label: "Did the tip touch the plate while it cut?", Hands: Look, Minutes: .2, Yes: "it was dragged", No: "kept off", Leak: .015, Do: "Think back, or look at the plate for scratches along the cut.", Guide: "edge-start", Step: "height"},
	{Key: "pilot-long", Label: "Does the pilot burn in the air before each cut?", Hands: Look, Minutes: .2, Yes: "for seconds", No: "straight on metal", Leak: .015, Do: "Think back: is the trigger pulled before the tip is at the metal?", Guide: "edge-start", Step: "pilot"},
	{Key: "off-early", Label: "Is the machine switched off before the air stops?", Hands: Look, Minutes: .2, Yes: "at once", No: "after it", Leak: .015, Do: "Think back to the last breaks.", Guide: "make-dead", Step: "after-flow"},
	{Key: "on-drop", Label: "Does the clamp sit on the piece that falls, or across a hinge, bearing or chain?", Hands: Look, Minutes: .2, Yes: "it does", No: "on the piece that stays", Leak: .03, Do: "Look where the clamp is, and what lies between it and the cut.", Only: []string{"dies-end"}, Guide: "work-clamp", Step: "drop-off"},
	{Key: "guard-look", Label: "Is the trigger's guard down?", Hands: Look, Minutes: .2, Yes: "down", No: "lifted", Leak: .01, Do: "Look at the trigger. Lift the guard only to cut.", Guide: "trigger-and-lead", Step: "lock"},
	{Key: "trigger-switch", Label: "Is the trigger switch on latched?", Hands: Look, Minutes: .3, Yes: "latched", No: "hold", Leak: .02, Do: "Look at the panel.", Guide: "trigger-and-lead", Step: "mode"},
	{Key: "amps-read", Label: "Do the set amps lie under the plan?", Hands: On, Minutes: .3, Yes: "under it", No: "as planned", Leak: .01, Do: "Read the panel and hold it against the plan.", Guide: "bring-up", Step: "amps"},
	{Key: "amps-tip", Label: "Do the set amps lie over the tip's rating?", Hands: Look, Minutes: .3, Yes: "over it", No: "at or under", Leak: .01, Do: "Hold the amps that were set against the rating of the tip, from its box or your parts list.", Guide: "bring-up", Step: "amps"},
	{Key: "tip-larger", Label: "Is the tip's rating well over the set amps?", Hands: Look, Minutes: .5, Yes: "well over", No: "it fits", Leak: .01, Do: "Hold the amps that were set against the rating of the tip, from its box or your parts list.", Guide: "torch-inspection", Step: "same-family"},
	{Key: "plan-limit", Label: "Does the plan call this metal past the clean limit?", Hands: Look, Minutes: .5, Yes: "past it", No: "within", Leak: .01, Do: "Enter metal and thickness in Ready.", Guide: "sheet-and-thick", Step: "thick-limit"},
	{Key: "bright-try", Label: "Better on bare metal than on this surface?", Hands: Arc, Minutes: 2, Yes: "better", No: "no change", Leak: .03, Do: "Try a short cut on clean scrap of the same thickness, clamp on bright metal.", Guide: "coated-metal", Step: "strip"},
	{Key: "solid-try", Label: "Does the arc stay on solid plate?", Hands: Arc, Minutes: 1, Yes: "stays", No: "goes out there too", Leak: .1, Do: "Try a short cut on plate without gaps.", Only: []string{"on-mesh", "cuts-out"}, Guide: "mesh-and-grating", Step: "travel"},

	{Key: "clamp-warm", Label: "Is the clamp hot, or does it rock?", Hands: Hand, Minutes: .5, Yes: "hot or rocks", No: "cool and tight", Leak: .04, Do: "Arc off. Hold the back of the glove near the clamp, then try to turn it.", Guide: "work-clamp", Step: "heat"},
	{Key: "clamp-move", Label: "Better with the clamp on bright metal close by?", Hands: Arc, Minutes: 2, Yes: "better", No: "no change", Leak: .03, Do: "Arc off: grind a spot bright beside the cut and move the clamp there. Then strike again.", Guide: "work-clamp", Step: "near"},
	{Key: "work-plug", Label: "Is the work lead's plug loose or hot at the machine?", Hands: Off, Minutes: .5, Yes: "loose or hot", No: "tight and cool", Leak: .02, Do: "Off and unplugged. Hold the back of the glove near the plug, then turn it home.", Guide: "trigger-and-lead", Step: "work-plug"},

	{Key: "coupler-push", Label: "Does the coupler move home when pushed?", Hands: Hand, Minutes: 1, Yes: "it was not home", No: "it was home", Leak: .01, Do: "Bleed the line, then push both couplers until they click.", Guide: "bring-up", Step: "hose"},
	{Key: "hiss-find", Label: "Does it hiss along the hose or at a coupler?", Hands: Hand, Minutes: 1, Yes: "it hisses there", No: "only at the head, or not", Leak: .02, Do: "Line under pressure, no arc: walk along it and listen. Soapy water shows a small leak. Never feel for it with a hand.", Guide: "air-and-trap", Step: "hose"},
	{Key: "gauge-standing", Label: "Does the gauge show nothing, or hardly anything, with no air flowing?", Hands: Look, Minutes: .2, Yes: "next to nothing", No: "full pressure", Leak: .01, Do: "Look at the machine's gauge and at the tank's.", Only: []string{"no-air", "no-arc", "fault-light"}, Guide: "air-and-trap", Step: "flowing"},
	{Key: "trap-water", Label: "Water in the trap or from the drain?", Hands: Hand, Minutes: 1, Yes: "water", No: "dry", Leak: .07, Do: "Open the drain of the trap a moment over a rag, face away.", Guide: "air-and-trap", Step: "trap", Same: []string{"quick-look#drain"}},
	{Key: "ice", Label: "Frost or ice on hose, regulator or trap?", Hands: Hand, Minutes: .5, Yes: "ice", No: "none", Leak: .02, Do: "Look where the air comes out cold: regulator, trap, coupler. A hose that lay out is stiff and crackles.", Only: []string{"frost"}, Guide: "air-and-trap", Step: "frozen"},
	{Key: "white-rag", Label: "Does a white rag before the torch get damp or brown?", Hands: Air, Minutes: 2, Yes: "damp or brown", No: "clean", Leak: .03, Do: "Clamp a white rag half a metre (20 in) before the torch and let air flow, no arc, for ten seconds. No hand at the jet.", Guide: "air-and-trap", Step: "dry"},
	{Key: "gauge-flowing", Label: "Does the gauge fall under {least} while air flows?", Hands: Air, Minutes: 1, Yes: "falls under it", No: "stays above", Leak: .04, Do: "Let air flow in test mode and read the gauge at the machine, not the standing value.", Guide: "air-and-trap", Step: "flowing"},
	{Key: "pressure-plate", Label: "Is the pressure over what the manual says?", Hands: Air, Minutes: .5, Yes: "over", No: "as it says", Leak: .01, Do: "Read the gauge while air flows and hold it against the plate or manual.", Guide: "bring-up", Step: "pressure"},
	{Key: "filter-look", Label: "Is the air filter dark or clogged?", Hands: Hand, Minutes: 2, Yes: "dark", No: "clean", Leak: .08, Do: "Bleed the line and look into the filter's bowl.", Guide: "air-and-trap", Step: "filter"},
	{Key: "valve-click", Label: "Full pressure at the gauge, and still no air at a pull of the trigger?", Hands: On, Minutes: 1, Yes: "pressure, no air", No: "air comes, or no pressure", Leak: .01, Do: "Torch away from everyone, machine on: pull once, listen at the machine for the valve's click, look at the gauge.", Only: []string{"no-air"}, Guide: "trigger-and-lead", Step: "trigger"},
	{Key: "air-stops", Label: "Does air go on after minutes without the trigger?", Hands: On, Minutes: 2, Yes: "it goes on", No: "it stopped", Leak: .01, Do: "Machine on, torch laid aside, hands off. After-flow ends within a minute or so.", Only: []string{"air-on"}, Guide: "make-dead", Step: "after-flow"},

	{Key: "socket-try", Label: "Is another tool dead at this socket as well?", Hands: Hand, Minutes: 1, Yes: "dead as well", No: "it runs", Leak: .02, Do: "Unplug the machine and plug a lamp or a drill into the same cord.", Only: []string{"dead", "no-arc", "no-air"}, Guide: "generator-and-cord", Step: "breaker"},
	{Key: "cord-look", Label: "Is the cord wound up, thin, or longer than the plan has it?", Hands: Look, Minutes: .3, Yes: "it is", No: "short, thick, unrolled", Leak: .12, Do: "Look along it, and read the size printed on its jacket.", Guide: "generator-and-cord", Step: "cord"},
	{Key: "circuit-count", Label: "Does anything else hang on this circuit?", Hands: Look, Minutes: .5, Yes: "it does", No: "the machine alone", Leak: .2, Do: "Follow the cord: compressor, lights, grinder, kettle.", Guide: "shared-power", Step: "count"},
	{Key: "alone-try", Label: "Does it hold with all else off this circuit?", Hands: Arc, Minutes: 2, Yes: "it holds", No: "it trips or fades as well", Leak: .03, Do: "Let the compressor fill, switch all else off, and cut.", Guide: "shared-power", Step: "one-circuit"},
	{Key: "volts-load", Label: "Do the volts fall by more than a tenth under load?", Hands: Arc, Minutes: 3, Yes: "they fall", No: "steady", Leak: .04, Do: "Read the machine's own display or a plug-in meter while the arc burns. Never open a socket.", Guide: "generator-and-cord", Step: "volts"},
	{Key: "cord-short", Label: "Better on a short, thick cord or straight from the socket?", Hands: Arc, Minutes: 4, Yes: "better", No: "no change", Leak: .03, Do: "Unroll the cord, or move the machine close to the socket, and try.", Guide: "generator-and-cord", Step: "cord"},
	{Key: "idle-saver", Label: "Better with the generator's idle saver off?", Hands: Arc, Minutes: 1, Yes: "better", No: "no change", Leak: .02, Do: "Switch the idle saver off, let the compressor fill, then cut.", Guide: "generator-and-cord", Step: "generator"},
	{Key: "other-plug", Label: "Does the device trip with nothing plugged in?", Hands: Hand, Minutes: 2, Yes: "it trips", No: "it holds", Leak: .02, Do: "Everything unplugged: reset the device once. If it trips again, leave it off.", Only: []string{"rcd", "breaker", "trips-on", "dead"}, Guide: "shared-power", Step: "rcd"},

	{Key: "fan-look", Label: "Does the fan stand still?", Hands: On, Minutes: .2, Yes: "it stands", No: "it runs", Leak: .01, Do: "Machine on: listen, and feel the air before the vents, no finger in them.", Only: []string{"heat-light", "fault-light", "cuts-out", "hot-day"}, Guide: "generator-and-cord", Step: "duty"},
	{Key: "vents-look", Label: "Are the vents dusty or covered, or is it boxed in?", Hands: Look, Minutes: .5, Yes: "blocked", No: "free", Leak: .04, Do: "Leave it switched on. Look at both sides of the machine.", Only: []string{"heat-light", "hot-day", "cuts-out"}, Guide: "bring-up", Step: "vents"},
	{Key: "wait-cool", Label: "Does it run again after ten minutes with the fan on?", Hands: On, Minutes: 10, Yes: "runs again", No: "still stops", Leak: .05, Do: "Leave it switched on, in the shade.", Only: []string{"heat-light", "hot-day"}, Guide: "generator-and-cord", Step: "duty"},
	{Key: "fault-code", Label: "Does the manual say that lamp is a fault of the machine, and does it come back?", Hands: On, Minutes: .5, Yes: "of the machine, and back", No: "air, volts, cup or heat, or gone", Leak: .02, Do: "Look the lamp or code up in the manual. Then off, wait the time on the plate, on again.", Only: []string{"fault-light"}, Guide: "generator-and-cord", Step: "plate"},

	{Key: "connectors", Label: "Is the torch lead loose at the machine, or kinked?", Hands: Off, Minutes: 1, Yes: "loose or kinked", No: "tight, wide bends", Leak: .02, Do: "Off, unplugged and bled. Turn the connector by hand, and lay the lead out.", Guide: "trigger-and-lead", Step: "connectors"},

	{Key: "cup-seat", Label: "Does the cup turn further home?", Hands: Dead, Shut: true, Minutes: .5, Yes: "it does", No: "seated", Leak: .005, Do: "Turn the cup by hand until it stops.", Guide: "torch-inspection", Step: "cup-switch", Same: []string{"torch-inspection#assemble"}},
	{Key: "cup-proud", Label: "Does the cup stop with a gap, or will it not go down?", Hands: Dead, Shut: true, Minutes: .5, Yes: "it stands off", No: "flush", Leak: .005, Do: "Look along the rim. If it stands off, something under it is too long or not home.", Guide: "torch-inspection", Step: "assemble"},
	{Key: "cup-holes", Label: "Any air hole of the cup shut or spattered?", Hands: Dead, Minutes: 2, Yes: "shut", No: "all open", Leak: .005, Do: "Look through each hole against the sky.", Guide: "torch-inspection", Step: "cup-holes", Same: []string{"quick-look#cup-holes"}},
	{Key: "cup-crack", Label: "Is the cup cracked, or its thread torn?", Hands: Dead, Minutes: 1, Yes: "cracked", No: "whole", Leak: .005, Do: "Turn it in the light.", Guide: "torch-inspection", Step: "cup-face"},
	{Key: "face-scraped", Label: "Is the face of the tip scraped, smeared or spattered?", Hands: Dead, Minutes: 1, Yes: "scraped or spattered", No: "clean", Leak: .005, Do: "Hold the face of the tip to the light: lines from dragging look like a scraped coin, a pierce leaves beads.", Guide: "edge-start", Step: "height"},
	{Key: "tip-edge", Label: "Any nick or keyhole in the tip's edge?", Hands: Dead, Minutes: 1, Yes: "nicked", No: "sharp and round", Leak: .005, Do: "Look at the hole with a magnifier against the light.", Guide: "torch-inspection", Step: "tip-edge", Same: []string{"quick-look#tip"}},
	{Key: "tip-gauge", Label: "Is the tip's hole over its limit, or oval?", Hands: Dead, Minutes: 2, Yes: "worn or oval", No: "as new", Leak: .005, Do: "Try gauge pins or drill shanks, smallest first. {limit}", Guide: "torch-inspection", Step: "tip-size", Same: []string{"quick-look#tip"}},
	{Key: "diffuser-look", Label: "Any chip, scorch or shut hole in the swirl ring?", Hands: Dead, Minutes: 2, Yes: "damaged", No: "smooth and open", Leak: .005, Do: "Slide it out and turn it in the light.", Guide: "torch-inspection", Step: "diffuser"},
	{Key: "electrode-turn", Label: "Does the electrode turn by hand, or rock?", Hands: Dead, Minutes: 1, Yes: "loose", No: "snug", Leak: .005, Do: "Try to turn it with two fingers.", Guide: "torch-inspection", Step: "electrode-fit"},
	{Key: "electrode-pit", Label: "Pit past its limit, or off centre?", Hands: Dead, Minutes: 2, Yes: "deep or off", No: "shallow", Leak: .005, Do: "Measure the pit, or hold it beside a new one. {pit}", Guide: "torch-inspection", Step: "electrode-pit", Same: []string{"quick-look#electrode"}},
	{Key: "marks-same", Label: "Do tip, electrode, swirl ring and cup carry marks that do not belong together?", Hands: Dead, Minutes: 2, Yes: "they differ", No: "one family", Leak: .005, Do: "Compare marks and ratings with the parts list of this torch.", Guide: "torch-inspection", Step: "same-family"},
	{Key: "o-ring-look", Label: "O-ring dry, cut or gone?", Hands: Dead, Minutes: 1, Yes: "bad", No: "soft and whole", Leak: .005, Do: "Run a fingertip round it.", Guide: "torch-inspection", Step: "o-ring"},
	{Key: "slide-push", Label: "Does the starting slide stick when pushed?", Hands: Dead, Minutes: 1.5, Yes: "sticks", No: "springs back", Leak: .005, Do: "Parts out: push the slide in the head with a wooden pick. No slide in this torch: answer as if it springs back.", Guide: "trigger-and-lead", Step: "slide", Same: []string{"torch-inspection#head"}},
}
