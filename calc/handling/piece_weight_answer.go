package handling

import (
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/material"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

func runPiece(r *form.Reader, a *form.Answer) error {
	metal := material.Metal(form.GetWord(r, "metal"))
	in := PieceInput{
		Shape:  form.GetWord(r, "shape"),
		Length: form.Get[unit.Length](r, "length"), Width: form.Get[unit.Length](r, "width"), Height: form.Get[unit.Length](r, "height"),
		Diameter: form.Get[unit.Length](r, "diameter"), Bore: form.Get[unit.Length](r, "bore"), Sweep: form.Get[unit.Angle](r, "sweep"),
		Area:      form.Get[unit.Area](r, "area"),
		Thickness: form.GetSheet(r, "thickness", func(number string) (unit.Length, error) { return material.Gauge(metal, number) }),
		Flange:    form.Get[unit.Length](r, "flange"), Radius: form.Get[unit.Length](r, "radius"),
		Count: form.GetCount(r, "count"),
	}
	for _, p := range form.GetPairs[unit.Length, unit.Length](r, "corners") {
		in.Corners = append(in.Corners, Point{p.Left, p.Right})
	}
	own := form.Get[unit.Density](r, "density")
	if err := r.Err(); err != nil {
		return err
	}
	if !r.Given("radius") {
		in.Radius = min(cornerWalls*in.Thickness, min(in.Width, in.Height)/2)
	}
	in.Density = weighBy(a, metal, form.GetText(r, "thickness"), own)
	res, err := ComputePiece(in)
	if err != nil {
		return err
	}
	putPiece(a, in, res)
	sayPiece(a, in, res)
	return nil
}

// weighBy returns the density to weigh with: the one given, that which a sheet
// gauge stands for, or the metal's own.
func weighBy(a *form.Answer, metal material.Metal, thickness string, own unit.Density) unit.Density {
	if own > 0 {
		return own
	}
	if number, ok := form.CutGauge(thickness); ok {
		if g, err := material.GaugingOf(metal); err == nil {
			if n, err := g.Read(number); err == nil {
				if w, ok := g.Weight(n); ok {
					a.Cite(g.Source)
					a.Step("%s ga weighs %s by the %s", material.GaugeName(n), form.Say(a, w), g.Name)
					return unit.Density(float64(w) / float64(g.Thickness(n)))
				}
			}
		}
	}
	density, id, _ := metal.Density()
	a.Cite(id)
	return density
}

func putPiece(a *form.Answer, in PieceInput, res PieceResult) {
	form.Put(a, "weight", res.Weight)
	form.Put(a, "total", res.Total)
	a.PutWord("lift", lift(res.Weight))
	if res.IsBar {
		form.Put(a, "per_length", res.PerLength)
	} else {
		form.Put(a, "per_area", res.PerArea)
	}
	form.Put(a, "area", res.Face)
	form.Put(a, "volume", res.Volume)
	drawPiece(a, in, res)
	if b := res.Balance; b.From != "" {
		a.PutWord("balance_from", b.From)
		form.Put(a, "balance_along", b.Along)
		form.Put(a, "balance_across", b.Across)
		form.Put(a, "balance_up", b.Up)
	}
}

// lift says how a piece of that weight is moved.
func lift(w unit.Mass) string {
	switch {
	case w <= OneHand/2:
		return "one person"
	case w <= OneHand:
		return "one person, close to the body and not from the floor"
	case w <= 2*OneHand:
		return "two people"
	}
	return "hoist, jack or prop"
}

func sayPiece(a *form.Answer, in PieceInput, res PieceResult) {
	face, depth := "face", "thickness"
	if res.IsBar {
		face, depth = "section", "length"
	}
	size := func(l unit.Length) string { return form.SayIn(a, l, "mm", "in") }
	sum := strings.NewReplacer("{length}", size(in.Length), "{width}", size(in.Width), "{height}", size(in.Height), "{thickness}", size(in.Thickness),
		"{flange}", size(in.Flange), "{diameter}", size(in.Diameter), "{bore}", size(in.Bore), "{radius}", size(in.Radius), "{sweep}", form.Say(a, in.Sweep)).Replace(res.sum)
	a.Step("%s = %s = %s", face, sum, form.SayIn(a, res.Face, "mm²", "in²"))
	a.Step("volume = %s × %s %s = %s", face, depth, size(res.Depth), form.SayIn(a, res.Volume, "cm³", "in³"))
	a.Step("weight = %s × %s = %s", form.SayIn(a, res.Volume, "cm³", "in³"), form.Worked(a, in.Density, "kg/m³", "lb/in³"), form.SayIn(a, res.Weight, "kg", "lb"))
	if in.Count > 1 {
		a.Step("%d pieces × %s = %s", in.Count, form.SayIn(a, res.Weight, "kg", "lb"), form.SayIn(a, res.Total, "kg", "lb"))
	}
	if in.Shape == "angle" || in.Shape == "channel" || in.Shape == "beam" {
		a.Caution("Root fillets are left out: the rolled section weighs 1 to 2 %% more.")
		a.Cite(source.CommonPractice)
	}
	a.Caution("Before the last inch: %s is about to come loose. Know where it goes. Keep hands and feet out from under.", form.SayIn(a, res.Weight, "kg", "lb"))
	if res.Weight > OneHand {
		a.Caution("More than one person lifts (%s). Prop it or sling it with rated gear first, by local rules. A competent person decides. "+safety.Return, form.SayIn(a, OneHand, "kg", "lb"))
	}
	if in.Shape == "round-tube" || in.Shape == "box-tube" {
		a.Caution(safety.HollowStop)
	}
}
