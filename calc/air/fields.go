package air

import (
	"kerfside/calc/form"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// referenceField asks in which state free air is counted.
func referenceField() form.Field {
	var words []string
	for _, r := range references {
		words = append(words, r.Word, r.Label)
	}
	return form.Field{Key: "reference", Label: "Free air is counted at", Takes: form.OneOf(words...), Default: "anr", Fine: true,
		Help: "Plates differ by up to 9 % here. The sheet of the machine or compressor says which."}
}

// getReference reads the reference; the form has checked the word.
func getReference(r *form.Reader) Reference {
	ref, _ := FindReference(form.GetWord(r, "reference"))
	return ref
}

func altitudeField() form.Field {
	return form.Field{Key: "altitude", Label: "Altitude of the site", Takes: form.Number[unit.Length]("m", "ft"), Default: "0m", Basis: source.Neutral,
		Limits: form.Within(LowestPlace, HighestPlace), Fine: true}
}

// sayFlow prints a flow of free air.
func sayFlow(a *form.Answer, q unit.Flow) string { return form.SayIn(a, q, "l/min", "cfm") }

// sayPressure prints a pressure.
func sayPressure(a *form.Answer, p unit.Pressure) string { return form.SayIn(a, p, "bar", "psi") }
