package guides

import "strings"

// same groups the words for one thing; a search for any finds all. The first
// is what all are found as, one word. All are folded as Words does it: lower case,
// no punctuation, singular. That people say the one and mean the other is common
// usage, with no published source; no two words stand in one group that anybody
// would have to tell apart to work safely.
var same = [][]string{
	{"tip", "nozzle", "cutting nozzle", "cutting tip"},
	{"cup", "shield cup", "retaining cap", "outer nozzle", "shield", "nozzle holder"},
	{"diffuser", "swirl ring", "swirler", "gas distributor", "air diffuser"},
	{"electrode", "cathode", "hafnium"},
	{"oring", "o ring", "gasket", "seal"},
	{"dross", "slag"},
	{"clamp", "work clamp", "ground clamp", "earth clamp", "ground", "earth", "return clamp",
		"work lead", "ground lead", "earth lead"},
	{"pierce", "piercing", "blow through", "hole start"},
	{"trap", "separator", "water separator", "water trap", "filter bowl"},
	{"receiver", "air tank", "compressor tank"},
	{"rcd", "residual current device", "gfci", "gfi", "earth leakage breaker", "residual current"},
	{"orifice", "bore", "tip hole", "nozzle hole"},
	{"kerf", "cut width", "width of cut"},
	{"bevel", "bevelled", "beveled", "angled cut"},
	{"amp", "amperage", "current", "ampere"},
	{"postflow", "post flow", "after flow", "afterflow"},
	{"arceye", "arc eye", "flash burn", "welder flash", "photokeratitis", "eye flash"},
	{"consumable", "torch part", "wear part"},
	{"fume", "smoke"},
	{"respirator", "mask", "dust mask", "half mask", "face mask"},
	{"airbag", "air bag"},
	{"reliefvalve", "relief valve", "safety valve"},
	{"wheelnut", "wheel nut", "lug nut"},
	{"galvanised", "galvanized", "zinc", "galv"},
	{"aluminium", "aluminum"},
	{"standoff", "stand off", "torch height", "tip height"},
	{"shock", "electrocution", "electrocuted", "tingle"},
	{"coupler", "quick coupling", "quick connect", "coupling"},
	{"tyre", "tire"},
	{"latched", "latch", "latching", "4t", "four stroke"},
	{"slide", "starting slide", "plunger"},
	{"mesh", "expanded metal", "grating", "bar grating"},
	{"generator", "genset"},
	{"cord", "extension cord", "extension lead", "power cord"},
	{"breaker", "circuit breaker", "trip switch"},
	{"water", "moisture", "condensation", "condensate"},
	{"helmet", "hood", "welding hood", "welding helmet"},
	{"speed", "travel speed", "feed rate"},
	{"gaugepin", "gauge pin", "pin gauge", "drill shank", "pin gage", "gage pin"},
}

// skip holds words that stand in nearly every step.
var skip = []string{"an", "and", "are", "as", "at", "be", "by", "can", "do", "for", "from", "has", "have",
	"if", "in", "is", "it", "like", "no", "not", "of", "on", "or", "so", "that", "the", "then", "there",
	"this", "to", "when", "with", "you", "your"}

// longestPhrase is the most words that a phrase of same has.
const longestPhrase = 3

// canonical maps each phrase to the word of its group.
var canonical = func() map[string]string {
	m := map[string]string{}
	for _, group := range same {
		for _, phrase := range group {
			m[phrase] = group[0]
		}
	}
	return m
}()

// unify replaces phrases by the word of their group, at each place the longest
// phrase that fits, so that "outer nozzle" is not read as "nozzle".
func unify(words []string) []string {
	var out []string
	for len(words) > 0 {
		n := min(longestPhrase, len(words))
		for ; n > 1; n-- {
			if _, ok := canonical[strings.Join(words[:n], " ")]; ok {
				break
			}
		}
		w := strings.Join(words[:n], " ")
		if one, ok := canonical[w]; ok {
			w = one
		}
		out = append(out, w)
		words = words[n:]
	}
	return out
}
