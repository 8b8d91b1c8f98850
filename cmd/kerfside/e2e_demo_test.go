package main

import (
	"path/filepath"
	"testing"

	"kerfside/cmd/internal/browser"
	"kerfside/cmd/internal/journey"
)

// TestBrowserDemo visits what "kerfside serve -demo" serves.
func TestBrowserDemo(t *testing.T) {
	for _, engine := range append([]browser.Engine{browser.Chromium}, others()...) {
		t.Run(engine.String(), func(t *testing.T) {
			t.Parallel()
			dir := place(t)
			app := newApp(dir)
			app.Demo = true
			if err := app.Open(); err != nil {
				t.Fatal(err)
			}
			travelTo(t, app, readScript(t, filepath.Join(journeys, "demo", "visit.txt")), journey.Options{
				Engine: engine, Dir: dir, Shots: dir, Axe: axeCore, Screen: browser.Phone, Look: "sun", Step: stepLimit,
			})
		})
	}
}
