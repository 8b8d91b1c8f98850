package layout

import (
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

func runBevel(r *form.Reader, a *form.Answer) error {
	in := BevelInput{
		Thickness: form.Get[unit.Length](r, "thickness"), Bevel: form.Get[unit.Angle](r, "bevel"), Land: form.Get[unit.Length](r, "land"),
		Under: form.GetWord(r, "opens") == "under", Kerf: form.Get[unit.Length](r, "kerf"),
		Guide: form.GetWord(r, "guide"), Cup: form.Get[unit.Length](r, "cup"), Contact: form.Get[unit.Length](r, "contact"),
	}
	long := form.Get[unit.Length](r, "length")
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeBevel(in)
	if err != nil {
		return err
	}
	form.Put(a, "lean", in.Bevel)
	a.PutWord("over", in.leansOver())
	form.Put(a, "slant", res.Slant)
	form.Put(a, "shift", res.Shift)
	form.Put(a, "kerf_top", res.KerfTop)
	if in.Guide != "none" {
		form.Put(a, "guide_offset", res.Offset)
	}
	if res.Passes == 2 {
		form.Put(a, "land_give", res.LandGive)
		if in.Guide != "none" {
			form.Put(a, "guide_square", res.Square)
		}
	}
	putPasses(a, in, res, long)
	a.DrawLayout(drawBevel(a, in, res))
	a.AddTemplate(leanGauge(a, in))
	sayBevel(a, in, res)
	cautionBevel(a, in, res)
	return nil
}

// leansOver says what the torch's top leans over.
func (in BevelInput) leansOver() string {
	if in.Under {
		return "the waste"
	}
	return "the part"
}

// setBack is how far the bevel's line on top lies back from where the plate is longest.
func (in BevelInput) setBack(res BevelResult) unit.Length {
	if in.Under {
		return 0
	}
	return res.Shift
}

// putPasses lists the passes in their order, and hands them on as cuts.
func putPasses(a *form.Answer, in BevelInput, res BevelResult, long unit.Length) {
	mark, plate := form.Number[unit.Length]("mm", "in").As(unit.Marking), form.Number[unit.Length]("mm", "in").As(unit.Plate)
	var rows []*form.Row
	pass := func(name string, line, metal, guide unit.Length) {
		row := a.NewRow()
		row.PutWord("pass", name)
		form.PutCell(row, "line", mark, line)
		form.PutCell(row, "metal", plate, metal)
		if in.Guide != "none" {
			form.PutCell(row, "guide", mark, guide)
		}
		rows = append(rows, row)
		cut := form.Onward{Name: name, Fields: map[string]string{"thickness": asTyped(a, metal, unit.Plate), "pierces": "0", "count": "1"}}
		if long > 0 {
			cut.Fields["length"] = asTyped(a, long, unit.Marking)
		}
		a.AddCut(cut)
	}
	order := "One pass, torch leaned."
	if res.Passes == 2 {
		order = "Square through first, then the bevel."
		pass("Edge, square", 0, in.Thickness, res.Square)
	}
	pass("Bevel, "+form.Say(a, in.Bevel), in.setBack(res), res.Slant, res.Offset)
	a.PutWord("order", order)
	a.PutRows("passes", rows)
}
