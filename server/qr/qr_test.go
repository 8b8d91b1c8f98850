package qr

import (
	"encoding/xml"
	"fmt"
	"image"
	"image/color"
	"strings"
	"testing"

	qrcode "github.com/piglig/go-qr"
)

const link = "https://shop.local:8443/join#Qk3vZ0mJ8cW1xT5rLb2hYA"

// scale is how many pixels a module gets when a drawing is read back.
const scale = 6

// readBack paints the dark modules of a drawing, its margin included, and
// decodes the picture as a camera would.
func readBack(t *testing.T, size int, dark func(x, y int) bool) {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, size*scale, size*scale))
	for y := range size * scale {
		for x := range size * scale {
			if !dark(x/scale, y/scale) {
				img.SetGray(x, y, color.Gray{Y: 255})
			}
		}
	}
	if got, err := qrcode.Decode(img); err != nil || got != link {
		t.Errorf("read back %q, %v; want %q", got, err, link)
	}
}

func encode(t *testing.T) Code {
	t.Helper()
	code, err := Encode(link)
	if err != nil {
		t.Fatal(err)
	}
	return code
}

func TestRows(t *testing.T) {
	code := encode(t)
	rows := code.Rows()
	if len(rows) != code.Size {
		t.Fatalf("%d rows, want %d", len(rows), code.Size)
	}
	readBack(t, code.Size+2*quiet, func(x, y int) bool {
		x, y = x-quiet, y-quiet
		return y >= 0 && y < code.Size && x >= 0 && x < code.Size && rows[y][x] == '1'
	})
}

func TestTerminal(t *testing.T) {
	code := encode(t)
	lines := strings.Split(code.Terminal(), "\n")
	readBack(t, code.Size+2*quiet, func(x, y int) bool {
		switch []rune(lines[y/2])[x] {
		case ' ':
			return true
		case '▀':
			return y%2 == 1
		case '▄':
			return y%2 == 0
		}
		return false
	})
}

func TestSVG(t *testing.T) {
	code := encode(t)
	var drawing struct {
		Box   string `xml:"viewBox,attr"`
		Paths []struct {
			D string `xml:"d,attr"`
		} `xml:"path"`
	}
	if err := xml.Unmarshal([]byte(code.SVG()), &drawing); err != nil {
		t.Fatal(err)
	}
	side := code.Size + 2*quiet
	if want := fmt.Sprintf("0 0 %d %d", side, side); drawing.Box != want || len(drawing.Paths) != 2 {
		t.Fatalf("box %q with %d paths, want %q with ground and modules", drawing.Box, len(drawing.Paths), want)
	}
	readBack(t, side, func(x, y int) bool {
		return strings.Contains(drawing.Paths[1].D, fmt.Sprintf("M%d %dh1v1h-1z", x, y))
	})
}

func TestEncodeTooLong(t *testing.T) {
	if _, err := Encode(strings.Repeat("x", 4000)); err == nil {
		t.Error("4000 characters fit no QR code, yet there was no error")
	}
}
