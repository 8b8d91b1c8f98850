package paper

import (
	"fmt"
	"math"
	"strings"

	"kerfside/calc/drawing"
)

// stroke is how a line of each use is drawn: width and dashes, mm.
var strokes = map[drawing.Use]struct {
	wide float64
	dash string
}{
	drawing.Cut:     {0.35, ""},
	drawing.Metal:   {0.25, ""},
	drawing.Hidden:  {0.18, "2 1.5"},
	drawing.Centre:  {0.13, "6 1.5 1 1.5"},
	drawing.Station: {0.13, ""},
}

// greys are how areas are filled; others stay white.
var greys = map[drawing.Use]float64{drawing.Kerf: 0.8, drawing.Waste: 0.92, drawing.Solid: 0.9}

// Heights of letters, mm.
const (
	small = 2.6
	large = 4
)

// canvas is the content of one page, in millimetres from its lower left corner.
type canvas struct{ strings.Builder }

func (c *canvas) put(format string, args ...any) { fmt.Fprintf(c, format+"\n", args...) }

// at writes the place of a point.
func at(x, y float64) string { return number(x) + " " + number(y) }

// pen sets the width of lines and their dashes.
func (c *canvas) pen(wide float64, dash string) { c.put("%s w [%s] 0 d", number(wide), dash) }

// run draws straight lines through points, x and y in turn.
func (c *canvas) run(end string, coords ...float64) {
	for i := 0; i+1 < len(coords); i += 2 {
		c.put("%s %s", at(coords[i], coords[i+1]), map[bool]string{true: "m", false: "l"}[i == 0])
	}
	c.put("%s", end)
}

// write puts a text of that height; anchor as in drawing.Text.
func (c *canvas) write(font string, x, y, height, turn float64, anchor, text string) {
	back := map[string]float64{"middle": 0.5, "end": 1}[anchor] * width(text, height)
	sin, cos := math.Sincos(turn * math.Pi / 180)
	c.put("BT /%s %s Tf %s %s %s %s %s Tm (%s) Tj ET", font, number(height), number(cos), number(sin), number(-sin), number(cos),
		at(x-back*cos, y-back*sin), literal(text))
}

// page draws the n-th page.
func page(t drawing.Template, s Sheet, all tiling, n int) string {
	c := &canvas{}
	here := all.tiles[n]
	w := all.page.window()
	k := 1 / point
	c.put("%s 0 0 %s 0 0 cm 1 J 1 j", number6(k), number6(k))
	x0, y0 := float64(side), all.page.low()
	c.put("q %s %s %s re W n", at(x0, y0), number(w.wide), number(w.high))
	c.put("1 0 0 1 %s cm", at(x0-here.low.X, y0-here.low.Y))
	c.draw(t.Drawing)
	c.put("Q")
	c.joins(all, here, n, x0, y0)
	c.bars(all.page)
	c.words(t, s, all, n)
	return c.String()
}

// draw draws a drawing where it lies.
func (c *canvas) draw(d drawing.Drawing) {
	for _, a := range d.Areas {
		if grey, is := greys[a.Use]; is {
			c.put("%s g", number(grey))
			c.run("f", coords(a.Points)...)
		}
	}
	c.put("0 g 0 G")
	for _, l := range d.Lines {
		p := strokes[l.Use]
		c.pen(p.wide, p.dash)
		c.run(map[bool]string{true: "s", false: "S"}[l.Closed], coords(l.Points)...)
	}
	for _, round := range d.Circles {
		p := strokes[round.Use]
		c.pen(p.wide, p.dash)
		c.run("s", coords(drawing.Arc(round.At, round.R, 0, 360))...)
	}
	c.pen(0.13, "")
	for _, m := range d.Measures {
		c.measure(m)
	}
	for _, text := range d.Texts {
		c.write("F1", text.At.X, text.At.Y, small, text.Turn, text.Anchor, text.Text)
	}
}

// measure draws a measure with a tick at each end and its text along it.
func (c *canvas) measure(m drawing.Measure) {
	long := math.Hypot(m.To.X-m.From.X, m.To.Y-m.From.Y)
	if long == 0 {
		return
	}
	ux, uy := (m.To.X-m.From.X)/long, (m.To.Y-m.From.Y)/long
	c.run("S", m.From.X, m.From.Y, m.To.X, m.To.Y)
	for _, p := range []drawing.Point{m.From, m.To} {
		c.run("S", p.X-uy*1.2, p.Y+ux*1.2, p.X+uy*1.2, p.Y-ux*1.2)
	}
	turn := math.Atan2(uy, ux) * 180 / math.Pi
	if turn > 91 || turn <= -89 { // never upside down
		turn, ux, uy = turn+180, -ux, -uy
	}
	c.write("F1", (m.From.X+m.To.X)/2-uy, (m.From.Y+m.To.Y)/2+ux, small, turn, "middle", m.Text)
}

func coords(points []drawing.Point) []float64 {
	list := make([]float64, 0, 2*len(points))
	for _, p := range points {
		list = append(list, p.X, p.Y)
	}
	return list
}

// joins marks where this page overlaps its neighbours: two crosses that both show, and a
// dashed line to cut along on the one that comes on top.
func (c *canvas) joins(all tiling, here tile, n int, x0, y0 float64) {
	w := all.page.window()
	cross := func(x, y float64) {
		c.run("S", x-3, y, x+3, y)
		c.run("S", x, y-3, x, y+3)
	}
	edge := func(x1, y1, x2, y2, turn float64, to int) {
		c.pen(0.13, "3 2")
		c.run("S", x1, y1, x2, y2)
		c.pen(0.18, "")
		for _, part := range []float64{0.2, 0.8} {
			cross(x1+(x2-x1)*part, y1+(y2-y1)*part)
		}
		sin, cos := math.Sincos(turn * math.Pi / 180)
		c.write("F1", (x1+x2)/2-sin*1, (y1+y2)/2+cos*1, small, turn, "middle", fmt.Sprintf("lay on page %d, cross on cross", to+1))
	}
	if here.col+1 < all.cols {
		edge(x0+w.wide-lap/2, y0, x0+w.wide-lap/2, y0+w.high, 90, n+1)
	}
	if here.col > 0 {
		edge(x0+lap/2, y0, x0+lap/2, y0+w.high, 90, n-1)
	}
	if here.row+1 < all.rows {
		edge(x0, y0+lap/2, x0+w.wide, y0+lap/2, 0, n+all.cols)
	}
	if here.row > 0 {
		edge(x0, y0+w.high-lap/2, x0+w.wide, y0+w.high-lap/2, 0, n-all.cols)
	}
}

// bars draws 100 mm and 4 in, across and upright: a printer may feed otherwise than it
// runs across.
func (c *canvas) bars(page leaf) {
	c.pen(0.25, "")
	bar := func(x, y, dx, dy, long float64, text string) {
		c.run("S", x, y, x+dx*long, y+dy*long)
		for _, end := range []float64{0, long} {
			c.run("S", x+dx*end-dy*1.5, y+dy*end-dx*1.5, x+dx*end+dy*1.5, y+dy*end+dx*1.5)
		}
		c.write("F1", x+dx*long/2-dy*0.8, y+dy*long/2+dx*0.8, small, 90*dy, "middle", text)
	}
	bar(side, foot+7, 1, 0, 100, "100 mm")
	bar(side, foot+1, 1, 0, 4*inch, "4 in")
	bar(page.wide-side-0.5, page.low(), 0, 1, 100, "100 mm")
	bar(page.wide-side-5, page.low(), 0, 1, 4*inch, "4 in")
}

const inch = 25.4

// words says below the drawing what the paper is.
func (c *canvas) words(t drawing.Template, s Sheet, all tiling, n int) {
	title := t.Title
	if all.cols*all.rows > 1 {
		title += fmt.Sprintf(", page %d of %d", n+1, all.cols*all.rows)
	}
	y := all.page.low() - large - 2
	c.write("F2", side, y, large, 0, "start", title)
	var whose []string
	for _, text := range []string{s.Name, s.Date, "Print at 100 %, then measure the bars"} {
		if text != "" {
			whose = append(whose, text)
		}
	}
	y -= small + 1.5
	c.write("F1", side, y, small, 0, "start", strings.Join(whose, " · "))
	for _, line := range all.page.notes {
		y -= leaded
		c.write("F1", side, y, small, 0, "start", line)
	}
}

// number6 is number for a scale, where a ten-thousandth would be 0.03 mm on a page.
func number6(v float64) string { return fmt.Sprintf("%.7f", v) }
