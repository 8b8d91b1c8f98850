package main

import (
	"fmt"
	"testing"

	"kerfside/cmd/internal/browser"
	"kerfside/cmd/internal/journey"
)

// TestBrowserBluntTaps aims a blunt, gloved finger at every control of every page, a thousand
// times each, on a phone and in the long run on a small one. No tap at a main action lands on
// another control, and at others fewer than one in a hundred do. A tap on nothing is told and
// is not wrong.
func TestBrowserBluntTaps(t *testing.T) {
	t.Parallel()
	ctx, d := atPages(t, journeyLimit)
	screens := []browser.Screen{browser.Phone}
	if long() {
		screens = append(screens, browser.Screen{Width: 320, Height: 568, Scale: 2, Touch: true})
	}
	var sum journey.Blunt
	aim := func(where string) {
		d.ask(ctx, t, `(document.querySelector("[data-ref=toasts]").replaceChildren(), true)`, new(bool)) // what lines cover has a test of its own
		for _, screen := range screens {
			if err := d.page.Resize(ctx, screen); err != nil {
				t.Fatal(err)
			}
			d.wait(ctx, t, fmt.Sprintf(`innerWidth === %d && (scrollTo(0, 0), dispatchEvent(new Event("resize")), new Promise((resolve) => requestAnimationFrame(() => resolve(true))))`, screen.Width))
			told, err := journey.BluntTaps(ctx, d.page)
			if err != nil {
				t.Fatalf("%s: %v", where, err)
			}
			if told.Controls == 0 {
				t.Errorf("%s: there is nothing to aim at", where)
			}
			for _, one := range told.Found {
				t.Errorf("%s at %dx%d: %s", where, screen.Width, screen.Height, one)
			}
			sum.Draws, sum.Missed, sum.Wrong = sum.Draws+told.Draws, sum.Missed+told.Missed, sum.Wrong+told.Wrong
			sum.Controls, sum.Main = sum.Controls+told.Controls, sum.Main+told.Main
		}
	}
	d.onStates(ctx, t, aim)
	t.Logf("tally: %d controls aimed at", sum.Controls)
	t.Logf("tally: %d main actions aimed at", sum.Main)
	t.Logf("tally: %d blunt taps aimed", sum.Draws)
	t.Logf("tally: %d blunt taps on another control", sum.Wrong)
	t.Logf("tally: %d blunt taps on nothing", sum.Missed)
}
