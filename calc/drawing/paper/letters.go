package paper

import (
	"fmt"
	"strings"
)

// instead are signs that the fonts of a PDF have not, or that need not be there, and what
// stands for them.
var instead = strings.NewReplacer("−", "-", "≈", "~", "→", "->", "←", "<-", "≤", "<=", "≥", ">=", "⌀", "dia. ", "∅", "dia. ", "\u00a0", " ", "\u202f", " ", "′", "'", "″", "\"", "√", "root of ", "π", "pi")

// winAnsi are the signs of WinAnsiEncoding that stand elsewhere than in Unicode: ISO
// 32000-1:2008, D.2.
var winAnsi = map[rune]byte{'€': 0x80, '‚': 0x82, '…': 0x85, 'Š': 0x8a, 'Œ': 0x8c, 'Ž': 0x8e, '‘': 0x91, '’': 0x92, '“': 0x93, '”': 0x94, '•': 0x95, '–': 0x96, '—': 0x97, 'š': 0x9a, 'œ': 0x9c, 'ž': 0x9e, 'Ÿ': 0x9f}

// coded returns a text in WinAnsiEncoding; a letter that it has not is a question mark.
func coded(text string) []byte {
	var out []byte
	for _, r := range instead.Replace(text) {
		switch b, is := winAnsi[r]; {
		case is:
			out = append(out, b)
		case r >= ' ' && r < 0x7f, r > 0xa0 && r <= 0xff:
			out = append(out, byte(r))
		default:
			out = append(out, '?')
		}
	}
	return out
}

// literal writes a text as it stands between the brackets of a PDF, in ASCII: ISO
// 32000-1:2008, 7.3.4.2.
func literal(text string) string {
	var s strings.Builder
	for _, b := range coded(text) {
		switch {
		case b == '(' || b == ')' || b == '\\':
			s.WriteByte('\\')
			s.WriteByte(b)
		case b > '~':
			fmt.Fprintf(&s, "\\%03o", b)
		default:
			s.WriteByte(b)
		}
	}
	return s.String()
}

// widths are those of Helvetica from the space on, thousandths of its size; from memory
// of the metrics of the fonts that every PDF viewer has. A test asks a viewer.
var widths = [...]uint16{278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
	556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
	1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
	667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
	333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
	556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584}

// width is how wide a text is at that size, in the size's unit. Letters beyond ASCII are
// taken as wide as most, but for the sign of a degree and the dot between words.
func width(text string, size float64) float64 {
	sum := 0
	for _, b := range coded(text) {
		switch i := int(b) - ' '; {
		case i < len(widths):
			sum += int(widths[i])
		case b == 0xb0:
			sum += 400
		case b == 0xb7:
			sum += 278
		default:
			sum += 556
		}
	}
	return float64(sum) / 1000 * size
}

// wrap breaks a text into lines no wider than that.
func wrap(text string, size, wide float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		switch longer := strings.TrimPrefix(line+" "+word, " "); {
		case line != "" && width(longer, size) > wide:
			lines = append(lines, line)
			line = word
		default:
			line = longer
		}
	}
	return append(lines, line)
}
