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
	{word: "us-cent", label: "US 1 cent", diameter: 19.05 * unit.Millimetre, source: "us-mint"},
	{word: "us-nickel", label: "US 5 cents, nickel", diameter: 21.21 * unit.Millimetre, source: "us-mint"},
	{word: "us-dime", label: "US 10 cents, dime", diameter: 17.91 * unit.Millimetre, source: "us-mint"},
	{word: "us-quarter", label: "US 25 cents, quarter", diameter: 24.26 * unit.Millimetre, source: "us-mint"},
	{word: "euro-1c", label: "Euro 1 cent", diameter: 16.25 * unit.Millimetre, source: "ec-975-98"},
	{word: "euro-2c", label: "Euro 2 cent", diameter: 18.75 * unit.Millimetre, source: "ec-975-98"},
	{word: "euro-5c", label: "Euro 5 cent", diameter: 21.25 * unit.Millimetre, source: "ec-975-98"},
	{word: "euro-10c", label: "Euro 10 cent", diameter: 19.75 * unit.Millimetre, source: "ec-975-98"},
	{word: "euro-50c", label: "Euro 50 cent", diameter: 24.25 * unit.Millimetre, source: "ec-975-98"},
	{word: "euro-1", label: "1 euro", diameter: 23.25 * unit.Millimetre, source: "ec-975-98"},
	{word: "euro-2", label: "2 euro", diameter: 25.75 * unit.Millimetre, source: "ec-975-98"},
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
