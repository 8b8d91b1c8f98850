package server

import (
	"bytes"
	"encoding/binary"
	"slices"
)

// onlyPicture reports whether a file holds nothing but a picture: no place, no
// time, no words, no second picture, nothing behind its end. A camera writes all
// of these; the app draws each picture anew and writes none. What is not known
// to be harmless counts as more, and so does a file whose parts cannot be told.
func onlyPicture(file []byte, mime string) bool {
	switch mime {
	case "image/jpeg":
		return onlyJPEG(file)
	case "image/png":
		return onlyChunks(file[8:], readPNGChunk, pngChunks, "IEND")
	case "image/webp":
		size := 8 + int(binary.LittleEndian.Uint32(file[4:]))
		return size == len(file) && onlyChunks(file[12:], readWebPChunk, webpChunks, "")
	}
	return false
}

// Markers of JPEG, ITU-T T.81, table B.1.
const (
	startOfScan = 0xda
	endOfImage  = 0xd9
)

// onlyJPEG walks the segments of a JPEG file.
func onlyJPEG(file []byte) bool {
	rest := file[2:]
	for len(rest) >= 2 {
		marker := rest[1]
		switch {
		case rest[0] != 0xff:
			return false
		case marker == 0xff: // a fill byte
			rest = rest[1:]
			continue
		case marker == endOfImage:
			return len(rest) == 2
		case len(rest) < 4:
			return false
		}
		size := int(binary.BigEndian.Uint16(rest[2:]))
		if size < 2 || 2+size > len(rest) || !isPlainSegment(marker, rest[4:2+size]) {
			return false
		}
		rest = rest[2+size:]
		if marker == startOfScan {
			rest = afterScan(rest)
		}
	}
	return false
}

// afterScan returns what follows the coded lines: the next marker that neither
// restarts them nor stands for a byte of theirs.
func afterScan(rest []byte) []byte {
	for {
		i := bytes.IndexByte(rest, 0xff)
		if i < 0 || i+1 >= len(rest) {
			return nil
		}
		if next := rest[i+1]; next != 0 && (next < 0xd0 || next > 0xd7) {
			return rest[i:]
		}
		rest = rest[i+2:]
	}
}

// isPlainSegment reports whether a segment of a JPEG file has a place in a mere
// picture.
func isPlainSegment(marker byte, data []byte) bool {
	switch {
	case marker == 0xe0: // JFIF, without a small picture: five letters, version, unit, density, its size
		return len(data) == 14 && bytes.HasPrefix(data, []byte("JFIF\x00")) && data[12] == 0 && data[13] == 0
	case marker == 0xe1:
		exif, ok := bytes.CutPrefix(data, []byte("Exif\x00\x00"))
		return ok && isPlainExif(exif)
	case marker == 0xe2:
		return bytes.HasPrefix(data, []byte("ICC_PROFILE\x00"))
	case marker == 0xed:
		return string(data) == noNotes
	case marker == 0xee:
		return len(data) == 12 && bytes.HasPrefix(data, []byte("Adobe")) // how the colours are coded
	case marker >= 0xc0 && marker <= 0xcf, marker >= startOfScan && marker <= 0xdf:
		return true // tables, the frame and its scans
	}
	return false // other data of programs, and comments
}

// The canvas of an iPhone writes the picture's own size as Exif, and notes that
// are empty with the sum of nothing. Pictures of such phones are on servers
// already and come anew after a restore.
const noNotes = "Photoshop 3.0\x00" +
	"8BIM\x04\x04\x00\x00\x00\x00\x00\x00" +
	"8BIM\x04\x25\x00\x00\x00\x00\x00\x10\xd4\x1d\x8c\xd9\x8f\x00\xb2\x04\xe9\x80\x09\x98\xec\xf8\x42\x7e"

// mostExif is more bytes than plain Exif takes.
const mostExif = 256

// exifPart is the tag that leads from the first directory to the one of Exif.
const exifPart = 0x8769

// Tags of plain Exif and the bytes of their values: which way is up, how dense
// the pixels are, the colour space, width and height. Exif 2.32, sections 4.6.4
// and 4.6.5.
var (
	imageTags = map[uint16]int{0x0112: 2, 0x011a: 8, 0x011b: 8, 0x0128: 2, exifPart: 4}
	exifTags  = map[uint16]int{0xa001: 2, 0xa002: 4, 0xa003: 4}
)

// isPlainExif reports whether Exif says nothing but how to show the picture.
func isPlainExif(exif []byte) bool {
	if len(exif) < 8 || len(exif) > mostExif {
		return false
	}
	var order binary.ByteOrder
	switch string(exif[:4]) {
	case "MM\x00*":
		order = binary.BigEndian
	case "II*\x00":
		order = binary.LittleEndian
	default:
		return false
	}
	inner, room, ok := plainDirectory(exif, order, order.Uint32(exif[4:]), imageTags)
	if !ok {
		return false
	}
	said := 8 + room
	if inner != 0 {
		if _, room, ok = plainDirectory(exif, order, inner, exifTags); !ok {
			return false
		}
		said += room
	}
	return len(exif) <= said+1 // nothing hides between: a byte may even out
}

// plainDirectory reads one directory of Exif: where the inner one begins, 0 if
// it names none, how many bytes it takes with its values, and whether it has
// nothing but tags and is the last of its chain.
func plainDirectory(exif []byte, order binary.ByteOrder, at uint32, tags map[uint16]int) (inner uint32, room int, ok bool) {
	if int64(at)+2 > int64(len(exif)) {
		return 0, 0, false
	}
	entries := exif[at+2:]
	n := int(order.Uint16(exif[at:]))
	if len(entries) < 12*n+4 || order.Uint32(entries[12*n:]) != 0 {
		return 0, 0, false
	}
	room = 2 + 12*n + 4
	for ; n > 0; n, entries = n-1, entries[12:] {
		tag := order.Uint16(entries)
		size, known := tags[tag]
		if !known || order.Uint32(entries[4:]) != 1 { // each has one value
			return 0, 0, false
		}
		if size > 4 {
			room += size // it stands elsewhere
		}
		if tag == exifPart {
			inner = order.Uint32(entries[8:])
		}
	}
	return inner, room, true
}

// Chunks of a mere picture that stands still, colour profiles included. PNG, third
// edition, section 5.6; RFC 9649, section 2.7.
var (
	pngChunks  = []string{"IHDR", "PLTE", "IDAT", "IEND", "tRNS", "cHRM", "gAMA", "iCCP", "sBIT", "sRGB", "cICP", "bKGD", "pHYs"}
	webpChunks = []string{"VP8X", "VP8 ", "VP8L", "ALPH", "ICCP"}
)

// onlyChunks reports whether a file's chunks are all of kinds, the last of them
// one of kind last if that is given, with nothing behind it.
func onlyChunks(rest []byte, read func([]byte) (kind string, size int), kinds []string, last string) bool {
	kind := ""
	for len(rest) > 0 && (kind == "" || kind != last) {
		if len(rest) < 8 {
			return false
		}
		var size int
		if kind, size = read(rest); size > len(rest) || !slices.Contains(kinds, kind) {
			return false
		}
		rest = rest[size:]
	}
	return len(rest) == 0 && (last == "" || kind == last)
}

// readPNGChunk reads the head of a chunk of PNG: its kind, and its bytes in all.
func readPNGChunk(b []byte) (kind string, size int) {
	return string(b[4:8]), 12 + int(binary.BigEndian.Uint32(b))
}

// readWebPChunk does the same for WebP, whose chunks begin at even places.
func readWebPChunk(b []byte) (kind string, size int) {
	n := int(binary.LittleEndian.Uint32(b[4:]))
	return string(b[:4]), 8 + n + n&1
}
