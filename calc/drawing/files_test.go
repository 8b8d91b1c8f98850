//go:build !js

package drawing

import (
	"encoding/xml"
	"math"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/outside"
)

// whole is a template that has each part.
func whole() Template {
	t := Template{Key: "it", Notes: []string{"This side out: 60°, ½ × 2"}}
	t.Title = "A & B"
	t.AddClosed(Cut, Point{0, 0}, Point{120.25, 0}, Point{60, 33.3333})
	t.Add(Station, Point{-4, 10}, Point{130, 10})
	t.AddCircle(Cut, Point{60, 12}, 7.5)
	t.Fill(Kerf, Point{0, 0}, Point{1, 0}, Point{1, 1})
	t.Write(Point{3, 4}, "middle", "0 < 1")
	return t
}

// TestDXFAgainstEzdxf: the library finds nothing amiss, and reads the lines that were
// written, on their layers.
func TestDXFAgainstEzdxf(t *testing.T) {
	it := whole()
	var read []struct {
		Version string
		Errors  []string
		Lines   []struct {
			Layer  string
			Closed bool
			Points [][2]float64
		}
		Circles []struct {
			Layer string
			At    [2]float64
			R     float64
		}
		Texts []string
	}
	outside.Python(t, outside.Ezdxf, "dxf.py", []string{DXF(it)}, &read)
	got := read[0]
	if got.Version != "AC1009" || len(got.Errors) > 0 {
		t.Errorf("version %s, errors %v, want AC1009 and none", got.Version, got.Errors)
	}
	if len(got.Lines) != len(it.Lines) || len(got.Circles) != 1 {
		t.Fatalf("%d lines and %d circles are read, want %d and 1", len(got.Lines), len(got.Circles), len(it.Lines))
	}
	for i, l := range it.Lines {
		if got.Lines[i].Layer != strings.ToUpper(string(l.Use)) || got.Lines[i].Closed != l.Closed || len(got.Lines[i].Points) != len(l.Points) {
			t.Fatalf("line %d is read as %+v, want %+v", i, got.Lines[i], l)
		}
		for j, p := range l.Points {
			if q := got.Lines[i].Points[j]; math.Hypot(q[0]-p.X, q[1]-p.Y) > 1e-4 {
				t.Errorf("line %d, point %d is read at %v, want %v", i, j, q, p)
			}
		}
	}
	if c := got.Circles[0]; c.Layer != "CUT" || c.At != [2]float64{60, 12} || c.R != 7.5 {
		t.Errorf("the circle is read as %+v", c)
	}
	if want := []string{"0 < 1", "A & B, millimetres", "This side out: 60 deg, ? x 2"}; !slices.Equal(got.Texts, want) {
		t.Errorf("the texts are read as %q, want %q", got.Texts, want)
	}
}

// TestSVG: the image is as large as the drawing with its border, in millimetres, and what
// it says is what was written.
func TestSVG(t *testing.T) {
	var read struct {
		Width   string `xml:"width,attr"`
		ViewBox string `xml:"viewBox,attr"`
		Title   string `xml:"title"`
		Paths   []struct {
			Class string `xml:"class,attr"`
			D     string `xml:"d,attr"`
		} `xml:"path"`
		Circles []struct {
			X string `xml:"cx,attr"`
			Y string `xml:"cy,attr"`
			R string `xml:"r,attr"`
		} `xml:"circle"`
		Texts []string `xml:"text"`
	}
	if err := xml.Unmarshal([]byte(SVG(whole())), &read); err != nil {
		t.Fatal(err)
	}
	if read.Width != "144mm" || read.ViewBox != "0 0 144 43.3333" || read.Title != "A & B" {
		t.Errorf("width %s, view %s, title %q, want 144mm, 0 0 144 43.3333, A & B", read.Width, read.ViewBox, read.Title)
	}
	// x from −4 to 130 and y from 0 to 33.3333, with 5 around: x + 9, 38.3333 − y.
	if len(read.Paths) != 2 || read.Paths[0].Class != "cut" || read.Paths[0].D != "M 9 38.3333 L 129.25 38.3333 L 69 5 Z" || read.Paths[1].D != "M 5 28.3333 L 139 28.3333" {
		t.Errorf("the paths are %+v", read.Paths)
	}
	if c := read.Circles[0]; c.X != "69" || c.Y != "26.3333" || c.R != "7.5" {
		t.Errorf("the circle is %+v", c)
	}
	if !slices.Equal(read.Texts, []string{"0 < 1"}) {
		t.Errorf("the texts are %q", read.Texts)
	}
}
