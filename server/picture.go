package server

import (
	"bytes"
	"encoding/binary"
	"image/jpeg"
	"image/png"
)

// picture is what the first bytes of a picture's file say.
type picture struct {
	mime          string
	width, height int
}

// readPicture reads the kind and the size of a picture from its file: JPEG,
// PNG or WebP, whatever anybody calls it. No pixel is decoded.
func readPicture(file []byte) (picture, bool) {
	switch {
	case bytes.HasPrefix(file, []byte("\xff\xd8\xff")):
		c, err := jpeg.DecodeConfig(bytes.NewReader(file))
		return picture{mime: "image/jpeg", width: c.Width, height: c.Height}, err == nil
	case bytes.HasPrefix(file, []byte("\x89PNG\r\n\x1a\n")):
		c, err := png.DecodeConfig(bytes.NewReader(file))
		return picture{mime: "image/png", width: c.Width, height: c.Height}, err == nil
	case len(file) >= 30 && string(file[:4]) == "RIFF" && string(file[8:12]) == "WEBP":
		w, h := webpSize(file[12:])
		return picture{mime: "image/webp", width: w, height: h}, w > 0 && h > 0
	}
	return picture{}, false
}

// webpSize reads width and height from the first chunk of a WebP file, of at
// least 18 bytes; 0 if it is none of the three that a file may begin with. RFC
// 9649, sections 2.5 to 2.7, and RFC 6386, section 9.1, for VP8.
func webpSize(chunk []byte) (w, h int) {
	data := chunk[8:]
	switch string(chunk[:4]) {
	case "VP8X": // 24 bits each, less one
		return 1 + int24(data[4:]), 1 + int24(data[7:])
	case "VP8L": // a signature byte, then 14 bits each, less one
		if data[0] != 0x2f {
			return 0, 0
		}
		bits := binary.LittleEndian.Uint32(data[1:])
		return 1 + int(bits&0x3fff), 1 + int(bits>>14&0x3fff)
	case "VP8 ": // frame tag, start code, then 14 bits each under 2 bits of scale
		if data[0]&1 != 0 || !bytes.Equal(data[3:6], []byte{0x9d, 0x01, 0x2a}) {
			return 0, 0
		}
		return int(binary.LittleEndian.Uint16(data[6:]) & 0x3fff), int(binary.LittleEndian.Uint16(data[8:]) & 0x3fff)
	}
	return 0, 0
}

func int24(b []byte) int { return int(b[0]) | int(b[1])<<8 | int(b[2])<<16 }
