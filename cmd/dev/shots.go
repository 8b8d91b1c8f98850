package main

import (
	"flag"
	"path/filepath"
)

// shots runs the tour of all screens and reads them otherwise, the same that test
// checks, and keeps the pictures.
func shots(args []string) error {
	flags := flag.NewFlagSet("shots", flag.ContinueOnError)
	out := flags.String("o", "shots", "folder for the pictures")
	if err := readFlags(flags, args); err != nil {
		return err
	}
	dir, err := filepath.Abs(*out)
	if err != nil {
		return err
	}
	if err := setUp(partCompiler, partWasm, partBundle, partNpm, partChromium); err != nil {
		return err
	}
	heading("pictures into %s", dir)
	return cmd("go", "test", "-count=1", "-timeout", "30m", "-run", "^TestBrowser(Screens|ReadOtherwise)$", "./cmd/kerfside", "-args", "-shots", dir).loud()
}
