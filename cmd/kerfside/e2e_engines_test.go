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

// leftOut are the journeys that an engine cannot run when it is driven from
// outside, with the reason.
var leftOut = map[browser.Engine]map[string]string{
	browser.Firefox: {
		"photo-gauge":    chooses,
		"photos":         chooses,
		"fire-watch":     moves,
		"large-text":     moves,
		"gate-left-open": moves,
	},
	browser.WebKit: {
		"photo-gauge":    chooses,
		"photos":         chooses,
		"erase":          hears,
		"taken-off":      hears,
		"fire-watch":     moves,
		"large-text":     moves,
		"gate-left-open": moves,
	},
}

const (
	chooses = "it takes files, which only the driver of Chromium can choose"
	moves   = "it moves the clock, which takes a script that runs before those of the page"
	hears   = "it expects an answer that is an error, of which the engine says nothing"
)
