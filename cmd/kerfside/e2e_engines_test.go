package main

import (
	"os"
	"slices"

	"kerfside/cmd/internal/browser"
)

// long says whether the tests take their big sizes and every engine.
func long() bool { return os.Getenv("KERFSIDE_LONG") == "1" }

// soaking says whether there is time for everything in every engine.
func soaking() bool { return os.Getenv("KERFSIDE_SOAK") == "1" }

// inFirefox are the journeys that the long test takes in Firefox: what the job stands or
// falls with, and what engines have differed in. WebKit, which is on every iPhone, takes
// all, and the soak takes all in both.
var inFirefox = []string{
	"arc-survives", "first-rig", "fix", "gate", "guide", "join", "keyboard", "large-text", "main-job",
	"offline-start", "photo-gauge", "photos", "two-phones",
}

// takes says whether an engine takes a journey in this run.
func takes(engine browser.Engine, journey string) bool {
	return engine != browser.Firefox || soaking() || slices.Contains(inFirefox, journey)
}

// others are the engines besides Chromium, which take the long run.
func others() []browser.Engine {
	if !long() {
		return nil
	}
	return []browser.Engine{browser.Firefox, browser.WebKit}
}
