package life

import (
	"kerfside/calc/form"
	"kerfside/calc/material"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// LivesField is the list of all parts of that name that the crew has used, worn out or
// not, but for the one in the torch: that counts by its own minutes and starts.
// What a part mostly worked on may be left out.
func LivesField(key, name string) form.Field {
	return form.Field{Key: key, Label: "Lives of your " + name + "s", Optional: true,
		Help: "From the journal. Those pulled before they were worn count too",
		Takes: form.List(form.EachRow{Name: "Life", Shown: "{minutes} · {starts|start|starts} · worn out: {failed} · {metal} · {surface}", Bare: []string{"minutes", "starts", "failed"}},
			form.Field{Key: "minutes", Label: "Arc time", Takes: form.Number[unit.Duration]("min", "min"), Chips: []string{"20min", "40min", "60min", "90min"}, Limits: form.Within(0, 2000*unit.Hour)},
			form.Field{Key: "starts", Label: "Starts", Takes: form.Count(), Optional: true, Chips: []string{"20", "50", "100", "200"}, Limits: form.WithinCount(0, 1000000)},
			form.Field{Key: "failed", Label: "Worn out?", Takes: form.YesNo(), Help: "No: pulled early, or still good"},
			form.Field{Key: "metal", Label: "Metal", Takes: material.Choice(), Optional: true},
			form.Field{Key: "surface", Label: "Surface", Takes: form.OneOf("clean", "Clean", "rusty", "Rusty or scaled", "painted", "Painted", "galvanised", "Galvanised"), Optional: true},
			form.Field{Key: "rig", Label: "Rig", Takes: form.Text(), Optional: true, Fine: true},
			form.Field{Key: "position", Label: "Position", Takes: form.OneOf("flat", "Flat", "vertical", "Vertical", "overhead", "Overhead"), Optional: true, Fine: true},
			form.Field{Key: "start", Label: "Mostly began", Takes: form.OneOf("edge", "At the edge", "pierce", "By piercing"), Optional: true, Fine: true},
			form.Field{Key: "air", Label: "Air", Takes: form.OneOf("dry", "Dry", "wet", "Wet"), Optional: true, Fine: true},
			form.Field{Key: "partner", Label: "The part beside it", Takes: form.OneOf("good", "Good", "worn", "Worn"), Optional: true, Fine: true},
		)}
}

// ReadLives reads such a list. A part that has done nothing is a trouble of its row.
func ReadLives(r *form.Reader, key string) []Part {
	var parts []Part
	for _, row := range r.Rows(key) {
		p := Part{
			Use:    Use{Minutes: float64(form.Get[unit.Duration](row, "minutes") / unit.Minute), Starts: float64(form.GetCount(row, "starts"))},
			Failed: form.GetYes(row, "failed"),
			Seen: Seen{Metal: form.GetWord(row, "metal"), Surface: form.GetWord(row, "surface"), Rig: form.GetText(row, "rig"),
				Position: form.GetWord(row, "position"), Start: form.GetWord(row, "start"), Air: form.GetWord(row, "air"), Partner: form.GetWord(row, "partner")},
		}
		if row.Given("minutes") && p.Use == (Use{}) {
			row.Fail("minutes", problem.New(problem.Range, "minutes", "a part that has done nothing tells nothing", "Enter its arc time or its starts, or take the row out."))
		}
		parts = append(parts, p)
	}
	return parts
}
