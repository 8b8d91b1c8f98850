package main

import (
	"os"
	"testing"

	"kerfside/cmd/internal/browser"
)

// chromiumOnly are the journeys that need what only Chromium can do when it is
// driven from outside, with the reason.
var chromiumOnly = map[string]string{}

// TestBrowserFirefoxJourneys runs the journeys in Firefox.
func TestBrowserFirefoxJourneys(t *testing.T) { runElsewhere(t, browser.Firefox) }

// TestBrowserWebKitJourneys runs the journeys in WebKit.
func TestBrowserWebKitJourneys(t *testing.T) { runElsewhere(t, browser.WebKit) }

// runElsewhere runs the journeys in another engine, which takes KERFSIDE_LONG=1.
func runElsewhere(t *testing.T, engine browser.Engine) {
	onlyLong(t)
	runJourneys(t, engine)
}

// onlyLong leaves a test for the long run.
func onlyLong(t *testing.T) {
	t.Helper()
	if os.Getenv("KERFSIDE_LONG") != "1" {
		t.Skip("takes KERFSIDE_LONG=1")
	}
}
