package drawing

import (
	"fmt"
	"strings"
)

// DXF returns the template's lines as a drawing interchange file of release 12, in its
// least form: a header with the version, and entities, one layer for each use. Written
// from memory of the format; a general-purpose library reads it back in the tests. The
// format knows no unit, so a text says that it is millimetres. Areas and measures are left
// out: a machine would cut them.
func DXF(t Template) string {
	var s strings.Builder
	code := func(group int, value string) { fmt.Fprintf(&s, "%d\r\n%s\r\n", group, value) }
	entity := func(kind string, use Use) {
		code(0, kind)
		code(8, strings.ToUpper(string(use)))
	}
	at := func(p Point) {
		code(10, dxfNumber(p.X))
		code(20, dxfNumber(p.Y))
	}
	write := func(p Point, high float64, text string) {
		entity("TEXT", "text")
		at(p)
		code(40, dxfNumber(high))
		code(1, ascii(text))
	}
	code(0, "SECTION")
	code(2, "HEADER")
	code(9, "$ACADVER")
	code(1, "AC1009")
	code(0, "ENDSEC")
	code(0, "SECTION")
	code(2, "ENTITIES")
	for _, l := range t.Lines {
		closed := "0"
		if l.Closed {
			closed = "1"
		}
		entity("POLYLINE", l.Use)
		code(66, "1")
		at(Point{})
		code(30, "0")
		code(70, closed)
		for _, p := range l.Points {
			entity("VERTEX", l.Use)
			at(p)
		}
		entity("SEQEND", l.Use)
	}
	for _, c := range t.Circles {
		entity("CIRCLE", c.Use)
		at(c.At)
		code(40, dxfNumber(c.R))
	}
	for _, text := range t.Texts {
		write(text.At, 2.6, text.Text)
	}
	low, _ := t.Box()
	for i, note := range append([]string{t.Title + ", millimetres"}, t.Notes...) {
		write(Point{low.X, low.Y - 8 - 5*float64(i)}, 3, note)
	}
	code(0, "ENDSEC")
	code(0, "EOF")
	return s.String()
}

func dxfNumber(v float64) string { return fmt.Sprintf("%.4f", v) }

// ascii keeps what release 12 can read.
func ascii(text string) string {
	text = strings.NewReplacer("°", " deg", "×", "x", "−", "-", "–", "-", "·", "-", "’", "'", "\u00a0", " ").Replace(text)
	return strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' {
			return '?'
		}
		return r
	}, text)
}
