package main

import (
	"os"

	"kerfside/cmd/internal/browser"
)

// long says whether the tests take their big sizes and every engine.
func long() bool { return os.Getenv("KERFSIDE_LONG") == "1" }

// others are the engines besides Chromium, which take the long run.
func others() []browser.Engine {
	if !long() {
		return nil
	}
	return []browser.Engine{browser.Firefox, browser.WebKit}
}
