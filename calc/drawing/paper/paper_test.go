package paper

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"kerfside/calc/drawing"
	"kerfside/calc/problem"
)

// frame is a template with a frame of that size and a line through its middle.
func frame(wide, high float64) drawing.Template {
	t := drawing.Template{Key: "frame", Notes: []string{"This side out.", strings.Repeat("What is written here must not run into the drawing. ", 8)}}
	t.Title = "Frame"
	t.AddClosed(drawing.Cut, drawing.Point{X: 7, Y: -3}, drawing.Point{X: 7 + wide, Y: -3}, drawing.Point{X: 7 + wide, Y: -3 + high}, drawing.Point{X: 7, Y: -3 + high})
	return t
}

// TestObjects: the table at a PDF's end says where each object begins, and each stream is
// as long as it says (ISO 32000-1:2008, 7.5.4 and 7.3.8). No byte is outside ASCII, so that
// it can travel as text.
func TestObjects(t *testing.T) {
	template := frame(500, 300)
	template.Title = "Frame (größer \\ 60°)"
	pdf, err := PDF([]drawing.Template{template}, Sheet{Size: "letter", Name: "Łódź"})
	if err != nil {
		t.Fatal(err)
	}
	for i := range len(pdf) {
		if b := pdf[i]; b != '\n' && (b < ' ' || b > '~') {
			t.Fatalf("byte %d is %#x, want ASCII", i, b)
		}
	}
	_, table, _ := strings.Cut(pdf, "\nxref\n")
	lines := strings.Split(table, "\n")
	n, _ := strconv.Atoi(strings.Fields(lines[0])[1])
	for i := 1; i < n; i++ {
		start, _ := strconv.Atoi(lines[1+i][:10])
		if want := fmt.Sprintf("%d 0 obj\n", i); !strings.HasPrefix(pdf[start:], want) {
			t.Errorf("at %d stands %q, want %q", start, pdf[start:start+12], want)
		}
	}
	for _, m := range regexp.MustCompile(`/Length (\d+) >>\nstream\n`).FindAllStringSubmatchIndex(pdf, -1) {
		long, _ := strconv.Atoi(pdf[m[2]:m[3]])
		if !strings.HasPrefix(pdf[m[1]+long:], "\nendstream\n") {
			t.Errorf("the stream at %d is not %d long", m[1], long)
		}
	}
	if !strings.Contains(pdf, `(Frame \(gr\366\337er \\ 60\260\)`) || !strings.Contains(pdf, "(?\\363d?") {
		t.Error("the title or a letter that the fonts have not is written otherwise")
	}
}

// TestTiles: pages reach over the whole drawing, overlap by what was said, and are no more
// than needed.
func TestTiles(t *testing.T) {
	for _, paper := range []string{"a4", "letter"} {
		for _, c := range [][2]float64{{10, 10}, {180, 180}, {200, 100}, {280, 60}, {319, 90}, {60, 280}, {700, 150}, {650, 480}} {
			template := frame(c[0], c[1])
			tiles, err := tileUp(template, paper)
			if err != nil {
				t.Fatal(err)
			}
			w := tiles.page.window()
			low, high := template.Box()
			for i, here := range tiles.tiles {
				if here.col > 0 {
					if got := tiles.tiles[i-1].low.X + w.wide - here.low.X; got < lap-1e-9 || got > lap+1e-9 {
						t.Errorf("%s %v: page %d overlaps by %v, want %v", paper, c, i+1, got, lap)
					}
				}
				if here.row > 0 {
					if got := here.low.Y + w.high - tiles.tiles[i-tiles.cols].low.Y; got < lap-1e-9 || got > lap+1e-9 {
						t.Errorf("%s %v: page %d overlaps by %v, want %v", paper, c, i+1, got, lap)
					}
				}
			}
			first, last := tiles.tiles[0], tiles.tiles[len(tiles.tiles)-1]
			if first.low.X > low.X+1e-9 || last.low.Y > low.Y+1e-9 || last.low.X+w.wide < high.X-1e-9 || first.low.Y+w.high < high.Y-1e-9 {
				t.Errorf("%s %v: the pages do not reach over the drawing", paper, c)
			}
			if tiles.cols > 1 && w.wide+float64(tiles.cols-2)*(w.wide-lap) >= c[0] {
				t.Errorf("%s %v: %d pages across, fewer would do", paper, c, tiles.cols)
			}
		}
	}
}

func TestRefused(t *testing.T) {
	for _, c := range []struct {
		template drawing.Template
		paper    string
		want     *problem.Error
	}{
		{template: frame(100, 100), paper: "a5", want: &problem.Error{Kind: problem.Unknown, Field: "paper"}},
		{template: frame(4000, 3000), paper: "a4", want: &problem.Error{Kind: problem.Refused}},
	} {
		_, err := PDF([]drawing.Template{c.template}, Sheet{Size: c.paper})
		var got *problem.Error
		if !errors.As(err, &got) || got.Kind != c.want.Kind || got.Field != c.want.Field || got.Hint == "" {
			t.Errorf("%s: %v, want %s of %q with a hint", c.paper, err, c.want.Kind, c.want.Field)
		}
	}
}
