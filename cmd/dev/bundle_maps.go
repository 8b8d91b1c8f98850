package main

import (
	"strings"
	"unicode/utf16"
)

// moved returns the mappings of a source map after changes to the text that they are
// for. Of each place they have the column as a difference from the place before it, in a
// number that is written in figures of base 64; all else of it stays.
func moved(mappings, text string, changes []renaming) string {
	lines := strings.Split(mappings, ";")
	start := 0
	for n, line := range lines {
		end := len(text)
		if i := strings.IndexByte(text[start:], '\n'); i >= 0 {
			end = start + i
		}
		var places []string
		was, now, shift, at, column := 0, 0, 0, start, 0
		for place := range strings.SplitSeq(line, ",") {
			if place == "" {
				continue
			}
			step, rest := readNumber(place)
			was += step
			for len(changes) > 0 && changes[0].at < end {
				column += columns(text[at:changes[0].at])
				at = changes[0].at
				if column >= was {
					break
				}
				shift += len(changes[0].now) - len(changes[0].was)
				changes = changes[1:]
			}
			places = append(places, writeNumber(was+shift-now)+rest)
			now = was + shift
		}
		lines[n] = strings.Join(places, ",")
		for len(changes) > 0 && changes[0].at < end {
			changes = changes[1:]
		}
		start = min(end+1, len(text))
	}
	return strings.Join(lines, ";")
}

// columns counts as JavaScript does.
func columns(text string) int {
	n := 0
	for _, r := range text {
		n += utf16.RuneLen(r)
	}
	return n
}

const base64Figures = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/"

// readNumber reads a number and returns what follows it. Each figure has five bits, the
// lowest first, and says whether another follows; the lowest bit of all is the sign.
func readNumber(text string) (n int, rest string) {
	for i := range len(text) {
		figure := strings.IndexByte(base64Figures, text[i])
		n |= figure & 31 << (5 * i)
		if figure < 32 {
			rest = text[i+1:]
			break
		}
	}
	if n&1 != 0 {
		return -(n >> 1), rest
	}
	return n >> 1, rest
}

func writeNumber(n int) string {
	n <<= 1
	if n < 0 {
		n = -n | 1
	}
	var text []byte
	for {
		figure := n & 31
		if n >>= 5; n == 0 {
			return string(append(text, base64Figures[figure]))
		}
		text = append(text, base64Figures[figure|32])
	}
}
