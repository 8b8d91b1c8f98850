package main

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"kerfside/cmd/internal/browser"
	"kerfside/cmd/internal/journey"
)

// states are what stands on a page after something was done there. What is done
// goes on from the state before where there is no path.
var states = []struct {
	name, path, done string // done is touched, one selector after the other
	shows            string // holds once it stands
}{
	{name: "ready with a plan", path: "/ready", done: "main .chips:not([hidden]) .chip:nth-child(4)", shows: `/\sin\/min/.test(document.querySelector("main").innerText)`},
	{name: "the pad", path: "", done: "[data-key=thickness] .field__value", shows: isPad},
	{name: "a chooser", path: "/ready", done: "[data-key=metal] .field__value", shows: isOver},
	{name: "cut with the plan", path: "/ready", done: "[data-action=begin]", shows: `location.pathname === "/cut" && /\sA/.test(document.querySelector("[data-ref=plan]")?.innerText)`},
	{name: "words to write", path: "", done: "[data-action=note]", shows: isOver},
	{name: "signs picked", path: "/fix", done: "[data-key=through] | [data-sign=unsteady] | [data-sign=cuts-out]", shows: `document.querySelector("[data-action=think]").checkVisibility()`},
	{name: "a check asked", path: "", done: "[data-action=think]", shows: `!document.querySelector("[data-ref=thought]").hidden && !document.querySelector("[data-ref=bar]").inert`},
	{name: "a stop found", path: "/gate", done: "main .choice:nth-child(3)", shows: keeps},
	{name: "the gate's last question", path: "", done: "main .choice--together", shows: `/on it\?/.test(document.querySelector("main").innerText)`},
	{name: "what the gate tells", path: "", done: "main .choice", shows: keeps + ` && document.querySelector(".dock [data-action=keep]")`},
	{name: "a guide's step", path: "/guide/torch-inspection", done: "main .dock .button--primary", shows: `/of 19/.test(document.querySelector("main").innerText)`},
	{name: "a stop on ready", path: "/gate", done: "[data-action=keep]", shows: `location.pathname === "/ready" && document.querySelector(".status-bar__row--stop")`},
	{name: "a stop on cut while an arc burns", path: "/cut", done: "[data-action=arc]", shows: `document.querySelector("[data-action=arc][aria-pressed=true]")`},
	{name: "fix while one does", path: "/fix", done: "main summary", shows: `document.querySelectorAll(".frame > .status-bar > *").length === 2`},
	{name: "a fire watch on cut", path: "/cut", done: "[data-action=arc] | .cut__watch .button", shows: `document.querySelector(".cut__watch .status-bar__row--watch")`},
	{name: "a fire watch on book", path: "/book", done: ".day__session", shows: `document.querySelectorAll(".frame > .status-bar > *").length === 2`},
}

const (
	isOver = `document.querySelector("dialog[open]")`
	keeps  = `document.querySelector("[data-action=keep]").checkVisibility() && !document.querySelector("[data-action=keep]").inert`
	isPad  = `document.querySelector("dialog.pad[open]")`
)

// touches are the conditions that hold once what they name was touched.
func touches(done string) (all []string) {
	for _, selector := range strings.Split(done, " | ") {
		all = append(all, fmt.Sprintf(touch, selector))
	}
	return all
}

// touch touches what a selector finds first of what can be seen.
const touch = `(() => {
	const el = [...document.querySelectorAll(%q)].find((one) => one.checkVisibility({ visibilityProperty: true }));
	el?.click();
	return el !== undefined;
})()`

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
	for _, path := range all {
		d.visit(ctx, t, path)
		aim(path)
	}
	for _, s := range states {
		if s.path != "" {
			if err := d.page.Evaluate(ctx, `document.querySelector("dialog[open] [data-action=leave]")?.click()`, nil); err != nil {
				t.Fatal(err)
			}
			d.visit(ctx, t, s.path)
		}
		for _, condition := range append(touches(s.done), s.shows) {
			c, cancel := context.WithTimeout(ctx, stepLimit)
			err := d.page.Wait(c, condition)
			cancel()
			if err != nil {
				var now string
				d.ask(ctx, t, `location.pathname + ": " + document.body.innerText`, &now)
				t.Fatalf("%s: %v: %s", s.name, err, now)
			}
		}
		aim(s.name)
	}
	t.Logf("tally: %d controls aimed at", sum.Controls)
	t.Logf("tally: %d main actions aimed at", sum.Main)
	t.Logf("tally: %d blunt taps aimed", sum.Draws)
	t.Logf("tally: %d blunt taps on another control", sum.Wrong)
	t.Logf("tally: %d blunt taps on nothing", sum.Missed)
}
