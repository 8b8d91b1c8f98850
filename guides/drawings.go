package guides

// number marks a drawing's parameter that takes a number rather than a word.
var number []string

// Drawings lists the line drawings that guides can name: for each its
// parameters, and for each parameter the words it takes. Each stands in
// pwa/draw under its name, as "cup-face" in cup-face.js; a test compares the
// two.
var Drawings = map[string]map[string][]string{
	// The torch and its parts.
	"torch-stack": {"focus": {"none", "cup", "tip", "diffuser", "electrode", "o-ring", "head"}},
	"cup-face":    {"holes": number, "clogged": number, "crack": {"no", "yes"}},
	"orifice":     {"new": number, "limit": number, "dmax": number, "dmin": number, "flaw": {"none", "nick", "keyhole"}},
	"diffuser":    {"state": {"good", "chipped", "cracked", "scorched", "blocked"}},
	"electrode":   {"pit": number, "insert": number, "limit": number, "offset": {"no", "yes"}},
	"gauge-pin":   {"fits": {"yes", "no"}},
	"slide":       {"state": {"rest", "apart", "stuck"}},
	"trigger":     {"lock": {"on", "off"}},
	"unplug":      {"stage": {"pull", "wait"}},
	"o-ring":      {"state": {"good", "dry", "cut", "missing"}},

	// The cut.
	"clamp":       {"at": {"near", "far", "paint", "drop-off"}},
	"work-plug":   {"state": {"home", "loose"}},
	"mesh":        {"strip": {"no", "yes"}},
	"lean":        {"start": {"edge", "pierce"}, "stage": number},
	"cut-face":    {"speed": {"slow", "right", "fast"}, "spatter": {"no", "yes"}},
	"standoff":    {"gap": number},
	"square-face": {"thickness": number, "u": number, "drag": number},
	"bevel":       {"sides": {"none", "one", "both"}},
	"strips":      {"length": number},
	"support":     {"drop": {"held", "free"}},
	"offset":      {"kerf": number, "cup": number, "offset": number, "keep": {"part", "hole"}, "guide": {"straight", "outside", "inside"}},

	// Air and power.
	"trap":           {"level": number, "drain": {"shut", "open"}},
	"compressor":     {"focus": {"none", "drain", "valve"}},
	"coupler":        {"state": {"home", "short"}},
	"pressure-gauge": {"flow": {"no", "yes"}},
	"rating-plate":   {"mark": {"volts", "amps", "duty", "draws", "warms"}},
	"circuit":        {"shared": {"no", "yes"}},
	"cord":           {"laid": {"out", "coiled"}},
	"vents":          {"side": {"clear", "blocked"}},

	// The place and the piece.
	"fire-area": {"wall": {"no", "yes"}},
	"hollow":    {"vent": {"no", "yes"}},
	"mask":      {"breath": {"in", "out"}},
}
