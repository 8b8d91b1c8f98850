package main

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/color"
	"image/jpeg"
	"math"

	"kerfside/server/store"
)

// photo draws the tip as it is now, enters it, and returns the id of the entry.
func (t *demoTruck) photo(in body) string {
	const side, thumb = 320, 64
	worn := t.parts["tip"].used
	picture, err := demoPicture(side, worn, 80)
	small, thumbErr := demoPicture(thumb, worn, 50)
	if t.err == nil && err != nil {
		t.err = err
	}
	if t.err == nil && thumbErr != nil {
		t.err = thumbErr
	}
	t.photos = append(t.photos, picture)
	return t.tap("photo.added", in, body{"sha256": store.PictureName(picture), "bytes": len(picture), "w": side, "h": side,
		"thumb": "data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(small)})
}

// demoPicture draws a round face with an oval hole in it that grows as it wears. It is
// plainly a drawing, and of nothing.
func demoPicture(side int, worn float64, quality int) ([]byte, error) {
	const face, hole = 0.42, 0.17 // shares of the side, when new
	wide := hole * (1 + demoGrowth*worn)
	narrow := hole * (1 + demoRound*demoGrowth*worn)
	img := image.NewRGBA(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			u, v := (float64(x)+0.5)/float64(side)-0.5, (float64(y)+0.5)/float64(side)-0.5
			at := color.RGBA{R: 232, G: 228, B: 216, A: 255}
			switch r := math.Hypot(u, v); {
			case math.Hypot(u/wide, v/narrow) < 1:
				at = color.RGBA{R: 26, G: 24, B: 24, A: 255}
			case r < face && r > face-0.02, math.Hypot(u/wide, v/narrow) < 1.08:
				at = color.RGBA{R: 120, G: 72, B: 44, A: 255}
			case r < face:
				soot := uint8(60 * worn * max(0, 1-(r-hole)/0.12))
				at = color.RGBA{R: 198 - soot, G: 132 - soot, B: 88 - soot, A: 255}
			}
			img.Set(x, y, at)
		}
	}
	var file bytes.Buffer
	err := jpeg.Encode(&file, img, &jpeg.Options{Quality: quality})
	return file.Bytes(), err
}
