package journey

import (
	"embed"
	"strings"
)

// pageFiles are the functions that steps call in the page.
//
//go:embed page/*.js
var pageFiles embed.FS

// library and ending stand around every expression, so that the functions are
// there for it alone and the app's own names are left alone.
var library, ending = wrap()

func wrap() (string, string) {
	var all strings.Builder
	all.WriteString("(() => { \"use strict\";\n")
	entries, err := pageFiles.ReadDir("page")
	if err != nil {
		panic(err) // the folder is compiled in
	}
	for _, e := range entries {
		data, err := pageFiles.ReadFile("page/" + e.Name())
		if err != nil {
			panic(err)
		}
		all.Write(data)
	}
	all.WriteString("\nreturn ")
	return all.String(), "; })()"
}
