package paper

import (
	"fmt"
	"strings"

	"kerfside/calc/drawing"
)

// PDF returns templates at 1:1 as one PDF (ISO 32000-1:2008), pure ASCII, each on as many
// pages as it takes. It asks the viewer not to scale; whether the printer did, the bars tell.
func PDF(templates []drawing.Template, s Sheet) (string, error) {
	var f file
	for _, t := range templates {
		tiles, err := tileUp(t, s.Size)
		if err != nil {
			return "", err
		}
		for i := range tiles.tiles {
			f.pages = append(f.pages, content{tiles.page.size, page(t, s, tiles, i)})
		}
	}
	return f.document(templates[0].Title), nil
}

// point is a typographic point, 1/72 in, the unit of a PDF: ISO 32000-1:2008, 8.3.2.3.
const point = 25.4 / 72

// file gathers the objects of a PDF and where each begins.
type file struct {
	strings.Builder
	starts []int
	pages  []content
}

// content is what a page of that size shows.
type content struct {
	size  size
	marks string
}

// object appends the next object and returns its number, from 1 on.
func (f *file) object(format string, args ...any) int {
	f.starts = append(f.starts, f.Len())
	fmt.Fprintf(f, "%d 0 obj\n", len(f.starts))
	fmt.Fprintf(f, format, args...)
	f.WriteString("\nendobj\n")
	return len(f.starts)
}

// document writes the whole file: ISO 32000-1:2008, 7.5.
func (f *file) document(title string) string {
	const catalog, tree, plain, bold, first = 1, 2, 3, 4, 5
	f.WriteString("%PDF-1.4\n")
	kids := make([]string, len(f.pages))
	for i := range f.pages {
		kids[i] = fmt.Sprintf("%d 0 R", first+2*i)
	}
	f.object("<< /Type /Catalog /Pages %d 0 R /ViewerPreferences << /PrintScaling /None >> >>", tree)
	f.object("<< /Type /Pages /Count %d /Kids [%s] >>", len(kids), strings.Join(kids, " "))
	for _, font := range []string{"Helvetica", "Helvetica-Bold"} {
		f.object("<< /Type /Font /Subtype /Type1 /BaseFont /%s /Encoding /WinAnsiEncoding >>", font)
	}
	for i, p := range f.pages {
		f.object("<< /Type /Page /Parent %d 0 R /MediaBox [0 0 %s %s] /Resources << /Font << /F1 %d 0 R /F2 %d 0 R >> >> /Contents %d 0 R >>",
			tree, number(p.size.wide/point), number(p.size.high/point), plain, bold, first+2*i+1)
		f.object("<< /Length %d >>\nstream\n%s\nendstream", len(p.marks), p.marks)
	}
	info := f.object("<< /Title (%s) /Producer (Kerfside) >>", literal(title))
	start := f.Len()
	fmt.Fprintf(f, "xref\n0 %d\n0000000000 65535 f \n", len(f.starts)+1)
	for _, at := range f.starts {
		fmt.Fprintf(f, "%010d 00000 n \n", at)
	}
	fmt.Fprintf(f, "trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R >>\nstartxref\n%d\n%%%%EOF\n", len(f.starts)+1, catalog, info, start)
	return f.String()
}

// number writes a number of points, or of millimetres where those are the unit, to a
// ten-thousandth.
func number(v float64) string {
	s := strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.4f", v), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}
