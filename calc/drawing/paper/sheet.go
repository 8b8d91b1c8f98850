// Package paper prints a template at 1:1: it cuts it into pages of A4 or Letter that
// overlap, marks where they join, puts bars on each to check the printer by, and writes
// all as a PDF of lines and letters.
package paper

import (
	"math"

	"kerfside/calc/drawing"
	"kerfside/calc/problem"
)

// Sheet is how a template is printed.
type Sheet struct {
	Size string // "a4" or "letter"
	Name string // whose it is: the crew, the job; may be empty
	Date string // as people write it
}

// Lengths on paper, mm. A laser printer leaves about 5 mm white at the edge, so twice
// that is kept clear at the sides, and more at the foot, where many feed (common practice,
// no published source).
const (
	side  = 10
	top   = 10
	foot  = 15
	right = 9  // beside the drawing: the bars upright
	lap   = 10 // by which two pages overlap

	bars   = 13            // below the drawing: the bars across
	head   = large + small // above them: what it is, and whose
	leaded = 1.25 * small  // a line of the notes between

	// MostPages is how many pages one template may take: more is a roll of paper's work.
	MostPages = 24
)

// size is that of a page as it lies, mm: ISO 216 A4, and 8.5 by 11 in.
type size struct{ wide, high float64 }

var sizes = [...]struct {
	name string
	size size
}{{"a4", size{210, 297}}, {"letter", size{215.9, 279.4}}}

// leaf is a page as it lies, with what stands below the drawing.
type leaf struct {
	size
	notes []string // in lines
}

// leafOf lays a template's notes on a page of that size.
func leafOf(page size, notes []string) leaf {
	l := leaf{size: page}
	for _, note := range notes {
		l.notes = append(l.notes, wrap(note, small, page.wide-2*side)...)
	}
	return l
}

// low is where the drawing begins above the page's lower edge.
func (l leaf) low() float64 { return foot + bars + leaded*float64(len(l.notes)) + head + 4 }

// window is how much of a drawing the page shows.
func (l leaf) window() size { return size{l.wide - 2*side - right, l.high - top - l.low()} }

// tile is the part of a drawing that one page shows, by its lower left corner in the
// drawing, and its place among the others.
type tile struct {
	low      drawing.Point
	col, row int
}

// tiling is how a drawing is cut into pages, row by row from the top.
type tiling struct {
	page       leaf // turned as it serves
	cols, rows int
	tiles      []tile
}

// tileUp cuts a template into as few pages as the size allows, upright or on their side.
func tileUp(t drawing.Template, name string) (tiling, error) {
	low, high := t.Box()
	best := tiling{}
	for _, s := range sizes {
		if s.name != name {
			continue
		}
		for _, as := range []size{s.size, {s.size.high, s.size.wide}} {
			page := leafOf(as, t.Notes)
			w := page.window()
			if w.high < 3*lap {
				continue // the notes leave no room
			}
			turned := tiling{page: page, cols: pagesFor(high.X-low.X, w.wide), rows: pagesFor(high.Y-low.Y, w.high)}
			if best.cols == 0 || turned.cols*turned.rows < best.cols*best.rows {
				best = turned
			}
		}
	}
	if best.cols == 0 {
		return tiling{}, problem.Newf(problem.Unknown, "paper", "%q is no paper size", name).WithHint("Take a4 or letter.")
	}
	if best.cols*best.rows > MostPages {
		return tiling{}, problem.Newf(problem.Refused, "", "it would take %d pages", best.cols*best.rows).
			WithHint("Mark it out from the figures, or take the DXF to a copy shop with a roll of paper.")
	}
	w := best.page.window()
	// All pages together are as wide as they are; the drawing lies in their middle.
	wide := w.wide + float64(best.cols-1)*(w.wide-lap)
	tall := w.high + float64(best.rows-1)*(w.high-lap)
	x0, y0 := (low.X+high.X-wide)/2, (low.Y+high.Y-tall)/2
	for row := range best.rows {
		for col := range best.cols {
			best.tiles = append(best.tiles, tile{col: col, row: row,
				low: drawing.Point{X: x0 + float64(col)*(w.wide-lap), Y: y0 + float64(best.rows-1-row)*(w.high-lap)}})
		}
	}
	return best, nil
}

// pagesFor is how many windows with their laps reach over a length.
func pagesFor(length, window float64) int {
	if length <= window {
		return 1
	}
	return 1 + int(math.Ceil((length-window)/(window-lap)-1e-9))
}
