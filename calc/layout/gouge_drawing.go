package layout

import (
	"math"

	"kerfside/calc/drawing"
	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// drawGroove is one groove in section, with what is to come out behind it.
func drawGroove(a *form.Answer, in GougeInput, res GougeResult, weld string, gap unit.Length) drawing.Drawing {
	rough := func(l unit.Length) string { return "about " + form.SayAs(a, l, unit.Marking) }
	g := res.About
	w, d := inMM(g.Width), inMM(g.Depth)
	deep, wide := max(d, inMM(in.Weld.Deep)), max(w, inMM(in.Weld.Wide))
	pic := drawing.Drawing{Title: "One groove in section", Says: "A groove " + rough(g.Width) + " wide and " + rough(g.Depth) + " deep in the surface of the plate."}
	var line []drawing.Point
	for i := range 33 {
		x := float64(i)/16 - 1
		line = append(line, drawing.Point{X: x * w / 2, Y: -d * (1 - x*x)})
	}
	pic.Fill(drawing.Kerf, line...)
	half := 0.8*wide + 0.3*deep
	pic.Add(drawing.Metal, drawing.Point{X: -half, Y: 0}, line[0])
	pic.Add(drawing.Metal, line[len(line)-1], drawing.Point{X: half, Y: 0})
	pic.Add(drawing.Cut, line...)
	if out := weldOutline(in, weld, gap); out != nil {
		pic.Says += " Dashed: what is to come out, " + form.SayAs(a, in.Weld.Deep, unit.Marking) + " deep."
		pic.Add(drawing.Hidden, out...)
	}
	step := 0.2 * half
	pic.Measure(drawing.Point{X: -w / 2, Y: step}, drawing.Point{X: w / 2, Y: step}, rough(g.Width))
	pic.Measure(drawing.Point{X: half - 2*step, Y: -d}, drawing.Point{X: half - 2*step, Y: 0}, "")
	pic.Write(drawing.Point{X: half, Y: -d - step/2}, "end", rough(g.Depth))
	pic.Add(drawing.Metal, drawing.Point{X: -half, Y: -deep - step}, drawing.Point{X: half, Y: -deep - step})
	return pic
}

// weldOutline is what is to come out, its face at the surface.
func weldOutline(in GougeInput, weld string, gap unit.Length) []drawing.Point {
	w, d := inMM(in.Weld.Wide), inMM(in.Weld.Deep)
	switch weld {
	case "v":
		return []drawing.Point{{X: -w / 2}, {X: -inMM(gap) / 2, Y: -d}, {X: inMM(gap) / 2, Y: -d}, {X: w / 2}}
	case "fillet":
		return []drawing.Point{{X: -w / 2}, {Y: -d}, {X: w / 2}}
	case "round":
		var line []drawing.Point
		for i := range 33 {
			x := float64(i)/16 - 1
			r := (w*w/4 + d*d) / (2 * d)
			line = append(line, drawing.Point{X: x * w / 2, Y: r - d - math.Sqrt(max(0, r*r-x*x*w*w/4))})
		}
		return line
	}
	return nil
}

// drawLean is the torch from the side, at work towards the right.
func drawLean(a *form.Answer, in GougeInput, res GougeResult) drawing.Drawing {
	d := inMM(res.About.Depth)
	long, wide := 7*d, 8*d
	sin, cos := math.Sincos(float64(in.Lean))
	pic := drawing.Drawing{Title: "Torch from the side", Says: "The torch leans back, " + form.Say(a, in.Lean) + " to the plate. It moves ahead, the way the jet blows, and the melt flies that way."}
	foot := drawing.Point{X: d / 2, Y: -d / 2}
	pic.Add(drawing.Metal, drawing.Point{X: -wide, Y: -d}, drawing.Point{X: 0, Y: -d}, drawing.Point{X: d, Y: 0}, drawing.Point{X: wide, Y: 0})
	pic.Add(drawing.Hidden, drawing.Point{X: -wide, Y: 0}, drawing.Point{X: d, Y: 0})
	pic.Add(drawing.Metal, drawing.Point{X: -wide, Y: -3 * d}, drawing.Point{X: wide, Y: -3 * d})
	pic.Add(drawing.Centre, foot, drawing.Point{X: foot.X - long*cos, Y: foot.Y + long*sin})
	for _, side := range []float64{-1, 1} { // the torch, from a little above the plate
		from, to := 2.5*d, long
		x, y := side*d*sin, side*d*cos
		pic.Add(drawing.Metal, drawing.Point{X: foot.X - from*cos + x, Y: foot.Y + from*sin + y}, drawing.Point{X: foot.X - to*cos + x, Y: foot.Y + to*sin + y})
	}
	pic.Write(drawing.Point{X: -5.5 * d, Y: 0.3 * d}, "middle", form.Say(a, in.Lean))
	pic.Write(drawing.Point{X: wide, Y: 1.5 * d}, "end", "melt →")
	pic.Write(drawing.Point{X: wide, Y: -2 * d}, "end", "travel →")
	return pic
}
