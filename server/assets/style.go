package assets

import (
	"bytes"
	"maps"
	"slices"
	"strings"
)

const (
	styleFile   = "css/app.css"
	styleLayers = "css/layers.css" // declares the order of the layers, so it comes first
)

// isStylePart reports whether a file is a part of the style sheet.
func isStylePart(name string) bool {
	return strings.HasPrefix(name, "css/") && name != styleFile
}

// styleSheet joins the parts of the style sheet.
func styleSheet(raw map[string][]byte) []byte {
	var style bytes.Buffer
	style.Write(raw[styleLayers])
	for _, name := range slices.Sorted(maps.Keys(raw)) {
		if isStylePart(name) && name != styleLayers {
			style.Write(raw[name])
		}
	}
	return style.Bytes()
}
