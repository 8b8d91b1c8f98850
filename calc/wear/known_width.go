package wear

import (
	"kerfside/calc/form"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// coin is a coin in use whose diameter is published. Only round ones are here.
type coin struct {
	word, label string
	diameter    unit.Length
	source      source.ID
}

// coins are what most people have beside a tip.
var coins = []coin{
	{"us-cent", "US 1 cent", 19.05 * unit.Millimetre, "us-mint"},
	{"us-nickel", "US 5 cents, nickel", 21.21 * unit.Millimetre, "us-mint"},
	{"us-dime", "US 10 cents, dime", 17.91 * unit.Millimetre, "us-mint"},
	{"us-quarter", "US 25 cents, quarter", 24.26 * unit.Millimetre, "us-mint"},
	{"euro-1c", "Euro 1 cent", 16.25 * unit.Millimetre, "ec-975-98"},
	{"euro-2c", "Euro 2 cent", 18.75 * unit.Millimetre, "ec-975-98"},
	{"euro-5c", "Euro 5 cent", 21.25 * unit.Millimetre, "ec-975-98"},
	{"euro-10c", "Euro 10 cent", 19.75 * unit.Millimetre, "ec-975-98"},
	{"euro-50c", "Euro 50 cent", 24.25 * unit.Millimetre, "ec-975-98"},
	{"euro-1", "1 euro", 23.25 * unit.Millimetre, "ec-975-98"},
	{"euro-2", "2 euro", 25.75 * unit.Millimetre, "ec-975-98"},
}

// The choices that are no coin. A round one tells how the camera leans, a mere
// width does not.
const (
	round    = "round"
	measured = "measured"
)

// objects is the choice of what lies beside the tip.
func objects() *form.Type {
	words := []string{round, "Something round, measured", measured, "Drill shank, or another width"}
	for _, c := range coins {
		words = append(words, c.word, c.label)
	}
	return form.OneOf(words...)
}

// coinOf returns the coin of that word.
func coinOf(word string) (coin, bool) {
	for _, c := range coins {
		if c.word == word {
			return c, true
		}
	}
	return coin{}, false
}
