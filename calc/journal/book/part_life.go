package book

import (
	"strconv"

	"kerfside/calc/journal/fold"
	"kerfside/calc/life"
)

// lifeOf tells how long such parts last, with today's mark.
func (b *book) lifeOf(p fold.Part, last fold.PartFit) []Section {
	key := livesKeys[last.Slot]
	if key == "" {
		return nil
	}
	known := map[string]string{}
	if addLives(b.fold, last.Rig, known, last.Slot) != nil {
		return nil
	}
	values := map[string]any{"part": last.Slot, "minutes": minutes(p.Ms), "starts": strconv.FormatInt(p.Starts, 10), "units": string(b.Units)}
	if lives := known[key]; lives != "" {
		values["lives"] = lives
	}
	a, err := life.PartLife.Calculator().CalculateValues(values)
	if err != nil {
		return nil
	}
	s := Section{Title: "How long such parts last", Pictures: a.Pictures(), Lengths: a.Lengths(), Cautions: a.Cautions()[:len(a.Cautions())-1]}
	keys := []string{"left", "typical", "b10", "least", "rests_on", "shape_says", "wears"}
	if last.To > 0 {
		keys = keys[1:]
	}
	for _, key := range keys {
		if label, text, ok := a.Told(key); ok {
			s.Figures = append(s.Figures, Figure{Label: label, Text: text})
		}
	}
	return []Section{s}
}
