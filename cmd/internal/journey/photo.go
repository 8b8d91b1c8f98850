package journey

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
)

// Where things lie on a made-up photo, in pixels: a drill shank from top to
// bottom, and the tip's face with its bore.
const (
	photoWidth, photoHeight = 2400, 1800
	shankLeft, shankRight   = 300, 600
	boreX, boreY, tipRadius = 1500, 900, 500
)

// photoNote stands in the file of each picture, as a camera writes where it was
// taken. headSize is the first chunk of such a file, behind which it stands.
const (
	photoNote = "taken at 54.97 N 1.61 W"
	headSize  = 25
)

// photo makes a picture of a tip and puts it into a control that takes files.
// Nothing on it is a photograph; its edges are as sharp as pixels can be.
func photo(ctx context.Context, r *run, s Step) error {
	name, what := s.sides()
	var long, short, turn float64
	if _, err := fmt.Sscanf(what, "bore %g x %g turned %g", &long, &short, &turn); err != nil || !(short > 0 && long >= short && long < tipRadius) {
		return fmt.Errorf("photo takes a bore like: bore 116 x 106 turned 30, not %q", what)
	}
	path := filepath.Join(r.dir, fmt.Sprintf("tip-%d.png", s.Line))
	if err := drawTip(path, long/2, short/2, turn*math.Pi/180); err != nil {
		return err
	}
	if err := r.until(ctx, `void fileInput(`+quote(name)+`)`); err != nil {
		return err
	}
	return r.page().SetFiles(ctx, library+`fileInput(`+quote(name)+`)`+ending, path)
}

// drawTip writes the picture.
func drawTip(path string, a, b, turn float64) error {
	sin, cos := math.Sincos(turn)
	table, shank, copper, bore := color.Gray{0x8c}, color.Gray{0xc8}, color.Gray{0x78}, color.Gray{0x10}
	m := image.NewGray(image.Rect(0, 0, photoWidth, photoHeight))
	for y := range photoHeight {
		for x := range photoWidth {
			dx, dy := float64(x)+0.5-boreX, float64(y)+0.5-boreY
			u, v := (cos*dx+sin*dy)/a, (cos*dy-sin*dx)/b
			shade := table
			switch {
			case u*u+v*v < 1:
				shade = bore
			case math.Hypot(dx, dy) < tipRadius:
				shade = copper
			case x >= shankLeft && x < shankRight:
				shade = shank
			}
			m.SetGray(x, y, shade)
		}
	}
	var file bytes.Buffer
	if err := png.Encode(&file, m); err != nil {
		return err
	}
	note := append([]byte("tEXtComment\x00"), photoNote...)
	chunk := append(binary.BigEndian.AppendUint32(nil, uint32(len(note)-len("tEXt"))), note...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(note))
	return os.WriteFile(path, slices.Insert(file.Bytes(), len("\x89PNG\r\n\x1a\n")+headSize, chunk...), 0o600)
}

// touchAt touches a control away from its middle.
func touchAt(ctx context.Context, r *run, s Step) error {
	name, where := s.sides()
	var right, down float64
	if _, err := fmt.Sscanf(where, "%g %g", &right, &down); err != nil || math.Abs(right) > 50 || math.Abs(down) > 50 {
		return fmt.Errorf("touch takes how far right and down from the middle, in hundredths of the control's width, like -37.5 0, not %q", where)
	}
	return r.touch(ctx, fmt.Sprintf(`spotOf(%s, %g, %g)`, quote(name), right, down), 0)
}
