package server

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"slices"
	"testing"

	"kerfside/calc/problem"
)

// segment returns a segment of a JPEG file.
func segment(marker byte, data string) []byte {
	return append(binary.BigEndian.AppendUint16([]byte{0xff, marker}, uint16(2+len(data))), data...)
}

// pngChunk returns a chunk of a PNG file.
func pngChunk(kind, data string) []byte {
	b := append(binary.BigEndian.AppendUint32(nil, uint32(len(data))), kind+data...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}

// webp returns a WebP file of these chunks.
func webp(chunks ...[]byte) []byte {
	body := append([]byte("WEBP"), bytes.Join(chunks, nil)...)
	return append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body))), body...)
}

// webpChunk returns a chunk of a WebP file.
func webpChunk(kind, data string) []byte {
	b := append(binary.LittleEndian.AppendUint32([]byte(kind), uint32(len(data))), data...)
	return append(b, make([]byte, len(data)&1)...)
}

// exifOf returns Exif of two directories, big end first: tag, type and value of
// each entry. more goes behind.
func exifOf(first, inner [][3]uint32, next uint32, more string) string {
	b := []byte("MM\x00*\x00\x00\x00\x08")
	directory := func(list [][3]uint32, next uint32) {
		b = binary.BigEndian.AppendUint16(b, uint16(len(list)))
		for _, e := range list {
			b = binary.BigEndian.AppendUint16(b, uint16(e[0]))
			b = binary.BigEndian.AppendUint16(b, uint16(e[1]))
			b = binary.BigEndian.AppendUint32(b, 1)
			b = binary.BigEndian.AppendUint32(b, e[2])
		}
		b = binary.BigEndian.AppendUint32(b, next)
	}
	directory(first, next)
	if inner != nil {
		directory(inner, 0)
	}
	return "Exif\x00\x00" + string(b) + more
}

const asShort, asLong = 3, 4 // types of Exif

// TestPictureWithMore: a picture that may say where it was taken is refused for
// good, wherever it says it, and the same without it is taken.
func TestPictureWithMore(t *testing.T) {
	jpeg, png := asJPEG(t, gray(64, 48, 1)), asPNG(t, gray(64, 48, 1))
	in := func(parts ...[]byte) []byte { return slices.Concat(jpeg[:2], bytes.Join(parts, nil), jpeg[2:]) }
	inPNG := func(chunk []byte) []byte { return slices.Concat(png[:33], chunk, png[33:]) }
	endOfPNG := png[:len(png)-12]
	lossless := webpChunk("VP8L", "\x2f\x00\x00\x00\x10\x07\x10\x11\x11\x88\x88\xfe\x07")
	extended := webpChunk("VP8X", "\x08\x00\x00\x00\x00\x00\x00\x00\x00\x00")
	size := [][3]uint32{{0xa001, asShort, 1 << 16}, {0xa002, asLong, 64}, {0xa003, asLong, 48}}
	inner := [][3]uint32{{0x8769, asLong, 26}}
	place := [][3]uint32{{0x8825, asLong, 26}}
	for _, c := range []struct {
		name  string
		file  []byte
		plain bool
	}{
		{name: "JPEG", file: jpeg, plain: true},
		{name: "JPEG with JFIF, a colour profile and its coding", file: in(segment(0xe0, "JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x00\x00"), segment(0xe2, "ICC_PROFILE\x00\x01\x01profile"), segment(0xee, "Adobe\x00\x64\x00\x00\x00\x00\x01")), plain: true},
		{name: "JPEG as an iPhone's canvas writes it", file: in(segment(0xe0, "JFIF\x00\x01\x01\x00\x00\x48\x00\x48\x00\x00"), segment(0xe1, exifOf(inner, size, 0, "")), segment(0xed, noNotes)), plain: true},
		{name: "JPEG with a place", file: in(segment(0xe1, exifOf(place, [][3]uint32{{1, 2, 'N' << 24}}, 0, "")))},
		{name: "JPEG with a place behind its size", file: in(segment(0xe1, exifOf([][3]uint32{{0x8769, asLong, 38}, {0x8825, asLong, 26}}, size, 0, "")))},
		{name: "JPEG with a time", file: in(segment(0xe1, exifOf(inner, [][3]uint32{{0x9003, 2, 0}}, 0, "")))},
		{name: "JPEG with a small picture in a second directory", file: in(segment(0xe1, exifOf(inner, size, 26, "")))},
		{name: "JPEG with words behind its size", file: in(segment(0xe1, exifOf(inner, size, 0, "54.97 N 1.61 W")))},
		{name: "JPEG with a fill byte before a place", file: in([]byte{0xff}, segment(0xe1, exifOf(place, nil, 0, "")), nil)},
		{name: "JPEG with XMP", file: in(segment(0xe1, "http://ns.adobe.com/xap/1.0/\x00<x:xmpmeta/>"))},
		{name: "JPEG with notes", file: in(segment(0xed, "Photoshop 3.0\x008BIM\x04\x04\x00\x00\x00\x00\x00\x0b\x1c\x02\x5a\x00\x06Morpeth"))},
		{name: "JPEG with a comment", file: in(segment(0xfe, "54.97 N 1.61 W"))},
		{name: "JPEG with a list of further pictures", file: in(segment(0xe2, "MPF\x00"))},
		{name: "JPEG with a small picture in JFIF", file: in(segment(0xe0, "JFXX\x00\x10"))},
		{name: "JPEG with a comment behind its lines", file: slices.Concat(jpeg[:len(jpeg)-2], segment(0xfe, "54.97 N"), jpeg[len(jpeg)-2:])},
		{name: "JPEG with a film behind it", file: slices.Concat(jpeg, []byte("\x00\x00\x00\x18ftypmp42"))},
		{name: "JPEG without an end", file: jpeg[:len(jpeg)-2]},
		{name: "PNG", file: png, plain: true},
		{name: "PNG with its density", file: inPNG(pngChunk("pHYs", "\x00\x00\x0b\x13\x00\x00\x0b\x13\x01")), plain: true},
		{name: "PNG with a place", file: inPNG(pngChunk("eXIf", exifOf(place, nil, 0, "")[6:]))},
		{name: "PNG with words", file: inPNG(pngChunk("tEXt", "Comment\x0054.97 N"))},
		{name: "PNG with packed words", file: inPNG(pngChunk("zTXt", "Comment\x00\x00"))},
		{name: "PNG with XMP", file: inPNG(pngChunk("iTXt", "XML:com.adobe.xmp\x00\x00\x00\x00\x00<x/>"))},
		{name: "PNG with a time", file: inPNG(pngChunk("tIME", "\x07\xea\x01\x01\x00\x00\x00"))},
		{name: "PNG with a chunk of nobody's", file: inPNG(pngChunk("plAc", "54.97 N"))},
		{name: "PNG with more behind it", file: slices.Concat(png, []byte("54.97 N"))},
		{name: "PNG without an end", file: endOfPNG},
		{name: "WebP", file: webp(lossless), plain: true},
		{name: "WebP with a colour profile", file: webp(extended, webpChunk("ICCP", "profile"), lossless), plain: true},
		{name: "WebP with a place", file: webp(extended, lossless, webpChunk("EXIF", exifOf(place, nil, 0, "")[6:]))},
		{name: "WebP with XMP", file: webp(extended, lossless, webpChunk("XMP ", "<x/>"))},
		{name: "WebP with more behind it", file: slices.Concat(webp(lossless), []byte("54.97 N."))},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, h := photoServer(t, 1e6)
			w, kind := ask(h, "PUT", photoPath(c.file), bytes.NewReader(c.file))
			kept := len(s.photos.files(t))
			if c.plain && (w.Code != 204 || kept != 1) {
				t.Errorf("PUT: %d %s, want it taken", w.Code, kind)
			}
			if !c.plain && (w.Code != 422 || kind != problem.Refused || kept != 0) {
				t.Errorf("PUT: %d %s and %d kept, want it refused for good", w.Code, kind, kept)
			}
		})
	}
}

// FuzzOnlyPicture: whatever the bytes, the walk ends within them.
func FuzzOnlyPicture(f *testing.F) {
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x10Exif\x00\x00MM\x00*\x00\x00\x00\x08"))
	f.Add([]byte("\x89PNG\r\n\x1a\n\xff\xff\xff\xffIHDR"))
	f.Add(webp(webpChunk("VP8L", "\x2f\x00\x00\x00\x10\x07\x10\x11\x11\x88\x88\xfe\x07")))
	f.Fuzz(func(t *testing.T, file []byte) {
		for mime, head := range map[string]int{"image/jpeg": 3, "image/png": 8, "image/webp": 30} {
			if len(file) >= head {
				onlyPicture(file, mime)
			}
		}
		isPlainExif(file)
	})
}
