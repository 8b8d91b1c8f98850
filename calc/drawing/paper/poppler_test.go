//go:build !js

package paper

import (
	"math"
	"strings"
	"testing"

	"kerfside/calc/drawing"
	"kerfside/calc/outside"
)

// dots to the inch: one is 0.042 mm, a fifth of what a page may be off.
const dots = 600

const mostOff = 0.2 // mm, on the page

// TestPageAgainstPoppler: on a page as Poppler paints it a frame has its size within 0.2
// mm, upright and on its side, on both papers, and so have the bars.
func TestPageAgainstPoppler(t *testing.T) {
	for _, c := range []struct {
		paper      string
		wide, high float64
	}{
		{paper: "a4", wide: 150, high: 100},
		{paper: "a4", wide: 240, high: 80},
		{paper: "letter", wide: 160, high: 110},
		{paper: "letter", wide: 200, high: 120},
	} {
		template := frame(c.wide, c.high)
		pdf, err := PDF([]drawing.Template{template}, Sheet{Size: c.paper, Name: "Osier Ford Repair", Date: "3 May 2025"})
		if err != nil {
			t.Fatal(err)
		}
		pages := outside.Pages(t, pdf, dots)
		if len(pages) != 1 {
			t.Fatalf("%s %g × %g mm: %d pages, want 1", c.paper, c.wide, c.high, len(pages))
		}
		p := pages[0]
		tiles, err := tileUp(template, c.paper)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := []float64{mm(p.Wide), mm(p.High)}, []float64{tiles.page.wide, tiles.page.high}; math.Abs(got[0]-want[0]) > 0.1 || math.Abs(got[1]-want[1]) > 0.1 {
			t.Errorf("the page is %.2f mm, want %.2f", got, want)
		}
		within := func(what string, got, want float64) {
			t.Helper()
			if math.Abs(got-want) > mostOff {
				t.Errorf("%s %g × %g mm: %s measures %.3f mm, want %.3f", c.paper, c.wide, c.high, what, got, want)
			}
		}
		// A row and a column through the middle of the window meet the frame alone.
		w := tiles.page.window()
		x, y := side+w.wide/2, tiles.page.low()+w.high/2
		left, right := ends(p, true, y, side, side+w.wide)
		stroke := strokes[drawing.Cut].wide // half of it lies outside at each end
		within("the frame's width", right-left-stroke, c.wide)
		low, high := ends(p, false, x, tiles.page.low(), tiles.page.low()+w.high)
		within("the frame's height", high-low-stroke, c.high)
		for _, bar := range []struct {
			what   string
			across bool
			at     float64
			from   float64
			long   float64
		}{
			{what: "the bar of 100 mm across", across: true, at: foot + 7, from: side, long: 100},
			{what: "the bar of 4 in across", across: true, at: foot + 1, from: side, long: 101.6},
			{what: "the bar of 100 mm upright", across: false, at: tiles.page.wide - side - 0.5, from: tiles.page.low(), long: 100},
			{what: "the bar of 4 in upright", across: false, at: tiles.page.wide - side - 5, from: tiles.page.low(), long: 101.6},
		} {
			from, to := ends(p, bar.across, bar.at, bar.from-2, bar.from+bar.long+2)
			within(bar.what, to-from-0.25, bar.long) // the ends of a stroke stand out by half its width
		}
	}
}

// TestPagesJoin: of a template over several pages every stretch of its edge lies at its
// place on the page that shows it, so that pages laid cross on cross make the whole.
func TestPagesJoin(t *testing.T) {
	template := frame(400, 300)
	pdf, err := PDF([]drawing.Template{template}, Sheet{Size: "a4"})
	if err != nil {
		t.Fatal(err)
	}
	pages := outside.Pages(t, pdf, dots)
	tiles, err := tileUp(template, "a4")
	if err != nil {
		t.Fatal(err)
	}
	if len(pages) != len(tiles.tiles) || len(pages) < 4 {
		t.Fatalf("%d pages for %d parts, want as many and four or more", len(pages), len(tiles.tiles))
	}
	w := tiles.page.window()
	seen := 0
	for i, here := range tiles.tiles {
		// Where the frame's left edge falls on this page, if it does, away from the joins.
		x, y := side+7-here.low.X, tiles.page.low()+w.high/2
		inY := here.low.Y + w.high/2
		if x < side+lap || x > side+w.wide-lap || inY < -3 || inY > 297 {
			continue
		}
		seen++
		from, to := ends(pages[i], true, y+7, x-4, x+4)
		if got := (from + to) / 2; math.Abs(got-x) > mostOff {
			t.Errorf("page %d: the left edge lies at %.3f mm, want %.3f", i+1, got, x)
		}
	}
	if seen == 0 {
		t.Error("no page shows the left edge")
	}
}

// TestLettersAgainstPoppler: the widths by which texts are set are those of the viewer,
// and what a page says is read back as it was written.
func TestLettersAgainstPoppler(t *testing.T) {
	var all strings.Builder
	for b := byte('!'); b <= '~'; b++ {
		all.WriteByte(b)
	}
	template := frame(100, 50)
	for _, text := range []string{all.String(), "Kehlnaht-60°", "1-5/16"} {
		template.Texts = append(template.Texts, drawing.Text{At: drawing.Point{X: 0, Y: float64(10 * len(template.Texts))}, Text: text, Anchor: "start"})
	}
	pdf, err := PDF([]drawing.Template{template}, Sheet{Size: "letter", Name: "Ford & Söhne (West)", Date: "3 May 2025"})
	if err != nil {
		t.Fatal(err)
	}
	words := outside.Words(t, pdf)
	found := func(text string) *outside.Word {
		for i := range words {
			if words[i].Text == text {
				return &words[i]
			}
		}
		return nil
	}
	for _, text := range template.Texts {
		w := found(text.Text)
		if w == nil {
			t.Errorf("%q is not read back", text.Text)
			continue
		}
		if got, want := (w.End-w.Left)*point, width(text.Text, small); math.Abs(got-want) > 0.01*want {
			t.Errorf("%q is %.2f mm wide, and taken as %.2f", text.Text, got, want)
		}
	}
	for _, word := range []string{"Söhne", "(West)", "Frame", "out."} {
		if found(word) == nil {
			t.Errorf("the page does not say %q", word)
		}
	}
}

// ends are the first and the last dark place, mm, of a row or a column of a page at that
// place, looked at between two others; all from the page's lower left corner.
func ends(p outside.Page, across bool, at, from, to float64) (first, last float64) {
	first, last = math.NaN(), math.NaN()
	dot := func(v float64) int { return int(math.Round(v / 25.4 * dots)) }
	for i := dot(from); i <= dot(to); i++ {
		x, y := i, p.High-1-dot(at)
		if !across {
			x, y = dot(at), p.High-1-i
		}
		if x < 0 || y < 0 || x >= p.Wide || y >= p.High || !p.Dark(x, y) {
			continue
		}
		if v := (float64(i) + 0.5) / dots * 25.4; math.IsNaN(first) {
			first, last = v, v
		} else {
			last = v
		}
	}
	return first, last
}

func mm(n int) float64 { return float64(n) / dots * 25.4 }
