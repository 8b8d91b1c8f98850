// Package qr draws QR codes in the three ways that Kerfside shows them: as rows
// for the phone to paint, as an SVG for a page without scripts, and as half
// blocks for a console.
package qr

import (
	"fmt"
	"strings"

	qrcode "github.com/piglig/go-qr"
)

// quiet is the empty margin in modules that readers need around a code
// (ISO/IEC 18004).
const quiet = 4

// Code is one QR code. The dark modules are true.
type Code struct {
	Size    int
	modules *qrcode.QrCode
}

// Encode makes the code of a text, at most a few hundred characters if a phone
// is to read it. It bears the loss of 15 % of its modules: screens are dirty.
func Encode(text string) (Code, error) {
	code, err := qrcode.EncodeText(text, qrcode.Medium)
	if err != nil {
		return Code{}, fmt.Errorf("qr code of %d characters: %w", len(text), err)
	}
	return Code{Size: code.Size(), modules: code}, nil
}

// Rows returns the code from top to bottom, a dark module as 1, without the
// quiet margin.
func (c Code) Rows() []string {
	rows := make([]string, c.Size)
	for y := range rows {
		row := make([]byte, c.Size)
		for x := range row {
			row[x] = '0'
			if c.modules.Module(x, y) {
				row[x] = '1'
			}
		}
		rows[y] = string(row)
	}
	return rows
}

// Terminal returns the code for a console, two rows of modules to a line. Light
// modules are drawn and dark ones left empty, since most consoles are dark; on
// a light one the code is inverted, which most phones read as well.
func (c Code) Terminal() string {
	light := func(x, y int) bool { return !c.modules.Module(x, y) } // outside is light
	var b strings.Builder
	for y := -quiet; y < c.Size+quiet; y += 2 {
		for x := -quiet; x < c.Size+quiet; x++ {
			switch upper, lower := light(x, y), light(x, y+1); {
			case upper && lower:
				b.WriteString("█")
			case upper:
				b.WriteString("▀")
			case lower:
				b.WriteString("▄")
			default:
				b.WriteString(" ")
			}
		}
		b.WriteString("\n")
	}
	return b.String()
}

// SVG returns the code as an element for a page, dark on white, as large as its
// place.
func (c Code) SVG() string {
	side := c.Size + 2*quiet
	var path strings.Builder
	for y := range c.Size {
		for x := range c.Size {
			if c.modules.Module(x, y) {
				fmt.Fprintf(&path, "M%d %dh1v1h-1z", x+quiet, y+quiet)
			}
		}
	}
	return fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" role="img" shape-rendering="crispEdges">`+
		`<path fill="#fff" d="M0 0h%dv%dH0z"/><path d="%s"/></svg>`, side, side, side, side, path.String())
}
