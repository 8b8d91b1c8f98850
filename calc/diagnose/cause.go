package diagnose

// Cause is one thing that can be wrong. Prior is how likely it is when a cut
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

// Causes are all causes that the fault finder can name.
var Causes = []Cause{
	{Key: "cup-clogged", Label: "Air holes in the cup clogged", Prior: .07, Minutes: 4, Do: "Clear every hole of the cup with a soft brush or wooden pick; change the cup if one stays shut.", Guide: "torch-inspection", Step: "cup-holes", Part: "cup"},
	{Key: "cup-not-seated", Label: "Cup not seated, safety switch open", Prior: .03, Minutes: 1, Do: "Power off, then seat the cup fully by hand. Never bridge its switch.", Guide: "torch-inspection", Step: "cup-switch", Part: "cup"},
	{Key: "tip-worn", Label: "Tip worn or oval", Prior: .12, Minutes: 4, Do: "Change the tip; change the electrode with it if its pit is past half.", Guide: "torch-inspection", Step: "tip-size", Part: "tip"},
	{Key: "tip-nicked", Label: "Tip nicked at its edge", Prior: .06, Minutes: 4, Do: "Change the tip. Never file or ream it.", Guide: "torch-inspection", Step: "tip-edge", Part: "tip"},
	{Key: "diffuser-bad", Label: "Swirl ring chipped, melted or clogged", Prior: .04, Minutes: 5, Do: "Change the swirl ring.", Guide: "torch-inspection", Step: "diffuser", Part: "diffuser"},
	{Key: "electrode-pitted", Label: "Electrode pitted", Prior: .11, Minutes: 4, Do: "Change the electrode; change the tip with it if it is past half.", Guide: "torch-inspection", Step: "electrode-pit", Part: "electrode"},
	{Key: "electrode-loose", Label: "Electrode loose", Prior: .04, Minutes: 3, Do: "Tighten it snug with the proper tool, and no more.", Guide: "torch-inspection", Step: "electrode-fit", Part: "electrode"},
	{Key: "parts-mixed", Label: "Parts of the wrong size or mixed", Prior: .03, Minutes: 5, Do: "Fit tip, electrode, swirl ring and cup of one family and one rating.", Guide: "torch-inspection", Step: "same-family"},
	{Key: "amps-over-tip", Label: "Amps over the tip's rating", Prior: .04, Minutes: 1, Do: "Set the amps to the tip's rating or below; a tip that ran over it is spent.", Guide: "bring-up", Step: "amps"},
	{Key: "slide-stuck", Label: "Starting slide in the torch stuck", Prior: .03, Minutes: 6, Do: "Power off and bled: clean the slide until it moves freely; if it will not, have the head changed.", Guide: "torch-inspection", Step: "head"},
	{Key: "o-ring-bad", Label: "O-ring dry, cut or missing", Prior: .03, Minutes: 4, Do: "Change the O-ring, with a trace of the grease its manual names.", Guide: "torch-inspection", Step: "o-ring", Part: "o-ring"},
	{Key: "trigger-latched", Label: "Trigger mode not understood (latched)", Prior: .02, Minutes: 1, Do: "Look at the trigger switch of the panel and set it to hold; read the manual's page on it.", Guide: "bring-up", Step: "amps"},
	{Key: "hose-not-coupled", Label: "Air hose not fully coupled", Prior: .03, Minutes: 1, Do: "Bleed the line, push the coupler home until it clicks, and look again.", Guide: "bring-up", Step: "hose"},
	{Key: "air-wet", Label: "Wet air", Prior: .09, Minutes: 6, Do: "Drain receiver and trap; add a filter or dryer if water comes back within minutes.", Guide: "air-and-trap", Step: "trap"},
	{Key: "air-oily", Label: "Oily air", Prior: .02, Minutes: 15, Do: "Change the filter; have the compressor looked at. Oil ruins hose and torch.", Guide: "air-and-trap", Step: "filter"},
	{Key: "pressure-low", Label: "Pressure low while flowing", Prior: .09, Minutes: 6, Do: "Read the gauge while air flows. Shorten or widen the hose, open couplers, change the filter, wait for the tank.", Guide: "air-and-trap", Step: "flowing"},
	{Key: "pressure-high", Label: "Pressure too high for the metal", Prior: .02, Minutes: 1, Do: "Where your torch's manual allows it, lower the pressure for thin sheet; a fixed one stays as the plate says.", Guide: "bring-up", Step: "pressure"},
	{Key: "clamp-poor", Label: "Work clamp poor or far away", Prior: .10, Minutes: 2, Do: "Clamp bright metal close to the cut, on the part you keep.", Guide: "work-clamp", Step: "bright"},
	{Key: "surface-painted", Label: "Paint or rust under the clamp or the cut", Prior: .06, Minutes: 5, Do: "Strip both sides back from the cut, and grind a bright spot for the clamp.", Guide: "coated-metal", Step: "strip"},
	{Key: "too-slow", Label: "Too slow", Prior: .11, Minutes: 1, Do: "Go faster, until sparks trail a little behind.", Guide: "reading-the-cut", Step: "dross"},
	{Key: "too-fast", Label: "Too fast", Prior: .11, Minutes: 1, Do: "Go slower, until sparks leave the bottom.", Guide: "reading-the-cut", Step: "lag"},
	{Key: "standoff-high", Label: "Standoff too high", Prior: .07, Minutes: 1, Do: "Hold 1.5 to 3 mm, or drag a tip that is made for it.", Guide: "reading-the-cut", Step: "both-sides"},
	{Key: "tip-dragged", Label: "Tip dragged on the plate", Prior: .03, Minutes: 1, Do: "Keep 1.5 to 3 mm with a guide or a standoff; drag only a tip that is made for it. A smeared tip is spent.", Guide: "edge-start", Step: "height"},
	{Key: "pierce-hard", Label: "Pierced upright, or plate too thick to pierce", Prior: .03, Minutes: 1, Do: "Start at an edge or a drilled hole, or lean the torch until it is through.", Guide: "pierce", Step: "lean"},
	{Key: "torch-tilted", Label: "Torch tilted", Prior: .05, Minutes: 1, Do: "Hold the torch upright to the plate; run the cup along a guide.", Guide: "reading-the-cut", Step: "bevel"},
	{Key: "amps-low", Label: "Amps too low for the thickness", Prior: .06, Minutes: 1, Do: "Set what the plan says, at most the tip's rating.", Guide: "sheet-and-thick", Step: "thick-limit"},
	{Key: "metal-past-capacity", Label: "Metal past what the rig can cut", Prior: .03, Minutes: 1, Do: "Cut from an edge, or use a larger machine, oxyfuel or a saw.", Guide: "sheet-and-thick", Step: "thick-limit"},
	{Key: "volts-low", Label: "Low input volts (cord or generator)", Prior: .05, Minutes: 8, Do: "Use a shorter, thicker cord, unroll it, or a larger generator; the site check says which.", Guide: "generator-and-cord", Step: "volts"},
	{Key: "supply-dead", Label: "No power comes to the machine", Prior: .02, Minutes: 3, Do: "Look at switch, plug, generator and breaker. Reset a breaker once; if it drops again, leave it and call a licensed electrician.", Guide: "generator-and-cord", Step: "breaker"},
	{Key: "generator-weak", Label: "Generator too small or idling down", Prior: .03, Minutes: 3, Do: "Switch off its idle saver, let the compressor fill before the cut, or cut with fewer amps.", Guide: "generator-and-cord", Step: "generator"},
	{Key: "duty-passed", Label: "Duty cycle passed", Prior: .03, Minutes: 10, Do: "Leave it on with the fan running until the light goes out, then cut less in each ten minutes.", Guide: "generator-and-cord", Step: "duty"},
	{Key: "vents-blocked", Label: "Machine's vents blocked", Prior: .02, Minutes: 4, Do: "Unplug, then clear the vents; give it room and shade.", Guide: "bring-up", Step: "vents"},
	{Key: "lead-damaged", Label: "Torch lead or trigger damaged", Prior: .02, Minutes: 60, Do: "Stop using it. Have lead or torch changed by a qualified person.", Guide: "torch-inspection", Step: "lead", Service: true},
	{Key: "machine-fault", Label: "Fault inside the machine", Prior: .02, Minutes: 120, Do: "Stop. Have the machine serviced by a qualified person.", Guide: "generator-and-cord", Step: "plate", Service: true},
	{Key: "supply-leaks", Label: "Leak to earth: wet cord, plug or machine", Prior: .01, Minutes: 60, Do: "Leave the device that tripped as it is. Unplug; have cord and machine tested by a licensed electrician.", Guide: "generator-and-cord", Step: "rcd", Service: true},
}
