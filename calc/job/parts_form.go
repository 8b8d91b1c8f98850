package job

import (
	"kerfside/calc/form"
	"kerfside/calc/life"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// slots are tip and electrode, in the order of a play's parts.
var slots = [...]string{"tip", "electrode"}

// partFields ask for what is in the torch and on the truck.
func partFields() []form.Field {
	var list []form.Field
	for i, slot := range slots {
		label := []string{"Tip", "Electrode"}[i]
		list = append(list,
			form.Field{Key: slot + "_minutes", Label: label + ": arc time on it", Help: "0 for a new one", Takes: form.Number[unit.Duration]("min", "min"), Default: "0min", Basis: source.Neutral, Limits: form.Within(0, 1000*unit.Hour)},
			form.Field{Key: slot + "_starts", Label: label + ": starts on it", Takes: form.Count(), Default: "0", Basis: source.Neutral, Limits: form.WithinCount(0, 100000)},
			form.Field{Key: slot + "_stock", Label: label + ": spares on the truck", Help: "Left empty: none", Takes: form.Count(), Optional: true, Chips: []string{"0", "1", "2", "5"}, Limits: form.WithinCount(0, 1000)},
			life.LivesField(slot+"_lives", slot))
	}
	return list
}

// readParts reads partFields.
func readParts(r *form.Reader) (parts [2]Wearing) {
	for i, slot := range slots {
		minutes := form.Get[unit.Duration](r, slot+"_minutes")
		age := life.Use{Minutes: float64(minutes / unit.Minute), Starts: float64(form.GetCount(r, slot+"_starts"))}
		parts[i] = Wearing{Model: life.Learn(life.Others(life.ReadLives(r, slot+"_lives"), age), life.PriorOf(slot)), Age: age, Stock: form.GetCount(r, slot+"_stock"), Counted: r.Given(slot + "_stock")}
	}
	return parts
}
