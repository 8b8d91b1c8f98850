package main

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"kerfside/cmd/internal/browser"
)

// long says whether the tests take their big sizes and every engine.
func long() bool { return os.Getenv("KERFSIDE_LONG") == "1" }

// soaking says whether there is time for everything in every engine.
func soaking() bool { return os.Getenv("KERFSIDE_SOAK") == "1" }

// inFirefox are the journeys that the long test takes in Firefox: what the job stands or
// falls with, and what engines have differed in. Chromium takes all, and the soak takes
// all in each.
var inFirefox = []string{
	"arc-survives", "first-rig", "fix", "gate", "guide", "job", "join", "keyboard", "large-text", "main-job",
	"offline-start", "photo-gauge", "photos", "saddle-by-chalk", "two-phones",
}

// inWebKit are those in WebKit, which is on every iPhone: all that touches what an engine
// does by itself. What is left out goes ways that others go, to sums and entries that are
// the same in each.
var inWebKit = append([]string{
	"back", "cut", "fire-watch", "pictures", "saddle", "search", "two-tabs", "upfront-ready",
}, inFirefox...)

// takes says whether an engine takes a journey in this run.
func takes(engine browser.Engine, journey string) bool {
	switch {
	case soaking():
		return true
	case engine == browser.Firefox:
		return slices.Contains(inFirefox, journey)
	case engine == browser.WebKit:
		return slices.Contains(inWebKit, journey)
	}
	return true
}

// others are the engines besides Chromium, which take the long run.
func others() []browser.Engine {
	if !long() {
		return nil
	}
	return []browser.Engine{browser.Firefox, browser.WebKit}
}

// TestTakes: what an engine is to take is there.
func TestTakes(t *testing.T) {
	for _, journey := range inWebKit {
		if _, err := os.Stat(filepath.Join(journeys, journey+".txt")); err != nil {
			t.Error(err)
		}
	}
}
