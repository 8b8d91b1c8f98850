package guides

// number marks a drawing's parameter that takes a number rather than a word.
var number []string

// Drawings lists the line drawings that are drawn to what was read: for each its
// parameters, and for each parameter the words it takes. Each stands in
// pwa/draw under its name, as "cup-face" in cup-face.js; a test compares the
// two.
var Drawings = map[string]map[string][]string{
	"cup-face":    {"holes": number, "clogged": number, "crack": {"no", "yes"}},
	"orifice":     {"new": number, "limit": number, "dmax": number, "dmin": number, "flaw": {"none", "nick", "keyhole"}},
	"electrode":   {"pit": number, "insert": number, "limit": number, "offset": {"no", "yes"}},
	"standoff":    {"gap": number},
	"square-face": {"thickness": number, "u": number, "drag": number},
	"strips":      {"length": number},
	"offset":      {"kerf": number, "cup": number, "offset": number, "keep": {"part", "hole"}, "guide": {"straight", "outside", "inside"}},
}

// StillDrawings lists those that never change, each an SVG file in
// pwa/draw/still; a test compares the two.
var StillDrawings = []string{
	// The torch and its parts.
	"torch-stack", "torch-stack-cup", "torch-stack-electrode", "torch-stack-head", "torch-stack-tip",
	"diffuser-chipped", "diffuser-good", "gauge-pin", "o-ring-cut", "o-ring-dry", "slide-stuck",
	"trigger-free", "trigger-locked", "unplug-wait",

	// The cut.
	"clamp-drop-off", "clamp-far", "clamp-near", "clamp-paint", "work-plug-home", "work-plug-loose",
	"mesh-bare", "mesh-strip", "support-free", "support-held",
	"lean-edge", "lean-edge-under-way", "lean-pierce", "lean-pierce-half-way", "lean-pierce-through",
	"cut-face-fast", "cut-face-right", "cut-face-slow", "cut-face-spatter", "bevel-both", "bevel-one",

	// What is laid out and cut by the line.
	"saddle-quarters", "saddle-wrap", "saddle-ordinates", "saddle-radial", "saddle-fit",
	"hole-lead-in", "hole-order", "bevel-guide", "bevel-lean", "bevel-passes",
	"gouge-crack", "gouge-lean", "release-balance", "release-stand",

	// Air and power.
	"trap-0", "trap-20", "trap-40", "trap-70", // full by so many in 100, its drain open
	"compressor-drain", "compressor-valve", "coupler-home", "coupler-short", "pressure-gauge",
	"rating-plate-amps", "rating-plate-draws", "rating-plate-duty", "rating-plate-volts", "rating-plate-warms",
	"circuit-apart", "circuit-shared", "cord-coiled", "cord-out", "vents-blocked", "vents-clear",

	// The place and the piece.
	"fire-area", "fire-area-wall", "hollow-vent", "mask-in",
}
