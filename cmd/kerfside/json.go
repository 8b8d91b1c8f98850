package main

import (
	"encoding/json"
	"flag"
	"io"
)

// jsonFlag declares -json.
func jsonFlag(flags *flag.FlagSet, to *bool) {
	flags.BoolVar(to, "json", false, "print one JSON value instead of text")
}

// printJSON prints v as one JSON value.
func printJSON(out io.Writer, v any) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}
