package book

import (
	"strconv"
	"strings"

	"kerfside/calc/unit"
)

// slots are the places of a torch as people call the parts there.
var slots = map[string]string{"cup": "shield cup", "tip": "cutting tip", "diffuser": "swirl ring", "electrode": "electrode", "o-ring": "O-ring", "head": "torch head"}

// slotOrder is the order in which parts are told: those that wear first.
var slotOrder = []string{"tip", "electrode", "diffuser", "cup", "o-ring", "head"}

// reasons are why a part comes out.
var reasons = []Option{{Word: "worn", Label: "Worn"}, {Word: "damaged", Label: "Damaged"}, {Word: "inspection", Label: "Found at inspection"}, {Word: "other-size", Label: "Other size wanted"}, {Word: "lost", Label: "Lost"}}

// slot is what stands in that place.
func slot(word string) string {
	if said := slots[word]; said != "" {
		return said
	}
	return spaced(word)
}

// reason says why a part came out.
func reason(word string) string {
	for _, r := range reasons {
		if r.Word == word {
			return strings.ToLower(r.Label)
		}
	}
	return spaced(word)
}

func spaced(word string) string { return strings.ReplaceAll(word, "-", " ") }

// capital begins a sentence or a heading.
func capital(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// span tells a time of arc as people count it: 45 s, 12 min, 3 h 20 min.
func span(ms int64) string {
	s := (ms + 500) / 1000
	m := (s + 30) / 60
	switch {
	case s < 120:
		return strconv.FormatInt(s, 10) + " s"
	case m < 120:
		return strconv.FormatInt(m, 10) + " min"
	case m%60 == 0:
		return strconv.FormatInt(m/60, 10) + " h"
	}
	return strconv.FormatInt(m/60, 10) + " h " + strconv.FormatInt(m%60, 10) + " min"
}

// starts counts starts.
func starts(n int64) string { return unit.Count(n, "start", "starts") }

// lower makes a name fit into a sentence; what is written in capitals stays.
func lower(name string) string {
	if len(name) > 1 && name[1] >= 'A' && name[1] <= 'Z' {
		return name
	}
	return strings.ToLower(name[:1]) + name[1:]
}
