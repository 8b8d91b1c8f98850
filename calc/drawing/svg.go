package drawing

import (
	"fmt"
	"strings"
)

// SVG returns the template as an image of its true size in millimetres (W3C, Scalable
// Vector Graphics 1.1), a group for each use. The width of a stroke is no geometry: the
// line lies in its middle.
func SVG(t Template) string {
	low, high := t.Box()
	const clear = 5
	wide, tall := high.X-low.X+2*clear, high.Y-low.Y+2*clear
	var s strings.Builder
	fmt.Fprintf(&s, `<svg xmlns="http://www.w3.org/2000/svg" width="%[1]smm" height="%[2]smm" viewBox="0 0 %[1]s %[2]s" fill="none" stroke="#000" stroke-width="0.2">`, svgNumber(wide), svgNumber(tall))
	fmt.Fprintf(&s, "\n<title>%s</title>\n<desc>%s</desc>\n", escaped(t.Title), escaped(strings.Join(t.Notes, " ")))
	at := func(p Point) string { return svgNumber(p.X-low.X+clear) + " " + svgNumber(high.Y-p.Y+clear) }
	for _, l := range t.Lines {
		var points []string
		for _, p := range l.Points {
			points = append(points, at(p))
		}
		end := ""
		if l.Closed {
			end = " Z"
		}
		fmt.Fprintf(&s, `<path class="%s" d="M %s%s"/>`+"\n", l.Use, strings.Join(points, " L "), end)
	}
	for _, c := range t.Circles {
		x, y, _ := strings.Cut(at(c.At), " ")
		fmt.Fprintf(&s, `<circle class="%s" cx="%s" cy="%s" r="%s"/>`+"\n", c.Use, x, y, svgNumber(c.R))
	}
	for _, text := range t.Texts {
		x, y, _ := strings.Cut(at(text.At), " ")
		anchor := text.Anchor
		if anchor == "" {
			anchor = "start"
		}
		fmt.Fprintf(&s, `<text x="%s" y="%s" text-anchor="%s" transform="rotate(%s %s %s)" font-family="sans-serif" font-size="2.6" fill="#000" stroke="none">%s</text>`+"\n",
			x, y, anchor, svgNumber(-text.Turn), x, y, escaped(text.Text))
	}
	s.WriteString("</svg>\n")
	return s.String()
}

func svgNumber(v float64) string {
	s := strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.4f", v), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

var markup = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")

func escaped(text string) string { return markup.Replace(text) }
