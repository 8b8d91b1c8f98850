package layout

import (
	"strconv"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

func runBracket(r *form.Reader, a *form.Answer) error {
	in := BracketInput{Thickness: form.Get[unit.Length](r, "thickness"), First: form.Get[unit.Length](r, "first_leg"),
		Legs: form.GetWord(r, "legs"), Rule: form.GetWord(r, "allowance"), K: form.GetFactor(r, "k_factor")}
	radius, width := form.Get[unit.Length](r, "radius"), form.Get[unit.Length](r, "width")
	for _, row := range r.Rows("bends") {
		b := Bend{Turn: form.Get[unit.Angle](row, "turn"), Radius: radius, Down: form.GetWord(row, "way") == "down", Leg: form.Get[unit.Length](row, "leg")}
		if row.Given("own_radius") {
			b.Radius = form.Get[unit.Length](row, "own_radius")
		}
		in.Bends = append(in.Bends, b)
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeBracket(in)
	if err != nil {
		return err
	}
	form.Put(a, "flat", res.Flat)
	form.Put(a, "give", res.Give)
	form.Put(a, "off", res.Off)
	putBendLines(a, in, res)
	a.DrawLayout(drawBent(a, in, res))
	a.DrawLayout(drawFlat(a, in, res, width))
	if width > 0 {
		a.AddCut(form.Onward{Name: "Blank", Fields: map[string]string{"shape": "rectangle", "thickness": asTyped(a, in.Thickness, unit.Plate), "length": asTyped(a, res.Flat, unit.Marking), "width": asTyped(a, width, unit.Marking), "pierces": "0", "count": "1"}})
		a.AddTemplate(flatTemplate(a, in, res, width))
	}
	sayBracket(a, in, res)
	cautionBracket(a, in, res)
	return nil
}

// name is bend i in words: "1, 90° up".
func (in BracketInput) name(a *form.Answer, i int) string {
	way := " up"
	if in.Bends[i].Down {
		way = " down"
	}
	return strconv.Itoa(i+1) + ", " + form.Say(a, in.Bends[i].Turn) + way
}

func putBendLines(a *form.Answer, in BracketInput, res BracketResult) {
	mark := form.Number[unit.Length]("mm", "in").As(unit.Marking)
	rows := make([]*form.Row, len(res.Bends))
	for i, b := range res.Bends {
		row := a.NewRow()
		row.PutWord("bend", in.name(a, i))
		form.PutCell(row, "start", mark, b.Start)
		form.PutCell(row, "middle", mark, b.Middle)
		form.PutCell(row, "end", mark, b.End)
		form.PutCell(row, "allowance", mark, b.Allowance)
		row.PutFactor("k", b.K)
		if b.Setback > 0 {
			form.PutCell(row, "setback", mark, b.Setback)
		}
		rows[i] = row
	}
	a.PutRows("lines", rows)
}

// bentLeg is the upper face of a leg of the bent strip.
type bentLeg struct {
	from, to drawing.Point
	heading  float64
}
