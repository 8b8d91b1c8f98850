package main

import (
	"context"
	"fmt"
	"strings"
	"testing"
)

// states are what stands on a page after something was done there. What is done
// goes on from the state before where there is no path.
var states = []struct {
	name, path, done string // done is touched, one selector after the other
	shows            string // holds once it stands
}{
	{name: "ready with a plan", path: "/ready", done: "main .chips:not([hidden]) .chip:nth-child(4)", shows: `/\sin\/min/.test(document.querySelector("main").innerText)`},
	{name: "the pad", path: "", done: "[data-key=thickness] .field__value", shows: isPad},
	{name: "a pad that refuses", path: "/sum/air-tank", done: "main .field__value | .pad__key:nth-child(8) | .pad__key:nth-child(8)", shows: isPad + ` && document.querySelector(".pad .wrong").checkVisibility()`},
	{name: "a field that is wrong", path: "", done: "[data-action=done]", shows: `document.querySelector("main .field .wrong:not([hidden])")?.textContent`},
	{name: "a code refused", path: "/join", done: "[data-action=join]", shows: `document.querySelector("main .wrong:not([hidden])")?.textContent`},
	{name: "a chooser", path: "/ready", done: "[data-key=metal] .field__value", shows: isOver},
	{name: "cut with the plan", path: "/ready", done: "[data-action=begin]", shows: `location.pathname === "/cut" && /\sA/.test(document.querySelector("[data-ref=plan]")?.innerText)`},
	{name: "words to write", path: "", done: "[data-action=note]", shows: isOver},
	{name: "signs picked", path: "/fix", done: "[data-key=through] | [data-sign=unsteady] | [data-sign=cuts-out]", shows: `document.querySelector("[data-action=think]").checkVisibility()`},
	{name: "a check asked", path: "", done: "[data-action=think]", shows: `!document.querySelector("[data-ref=thought]").hidden && !document.querySelector("[data-ref=bar]").inert`},
	{name: "a stop found", path: "/gate", done: "main .choice:nth-child(3)", shows: keeps},
	{name: "the gate's last question", path: "", done: "main .choice--together", shows: `/on it\?/.test(document.querySelector("main").innerText)`},
	{name: "what the gate tells", path: "", done: "main .choice", shows: keeps + ` && document.querySelector(".dock [data-action=keep]")`},
	{name: "a guide's step", path: "/guide/torch-inspection", done: "main .dock .button--primary", shows: `/of 19/.test(document.querySelector("main").innerText)`},
	{name: "a cut of a job", path: "/job/job-of-the-test-000001", done: "[data-row=b]", shows: `document.querySelector("main .list__open .chips")`},
	{name: "a job under way", path: "/job/job-of-the-test-000001", done: "[data-action=begin]", shows: `location.pathname === "/cut" && /Cut 1 of 2/.test(document.querySelector("[data-ref=plan]")?.innerText) && !document.querySelector("[data-ref=job]").inert`},
	{name: "a wait of a job", path: "", done: "[data-why=air]", shows: `document.querySelector("[data-why=air][aria-pressed=true]")`},
	{name: "a stop on ready", path: "/gate", done: "[data-action=keep]", shows: `location.pathname === "/ready" && document.querySelector(".status-bar__row--stop")`},
	{name: "a stop on cut while an arc burns", path: "/cut", done: "[data-action=arc]", shows: `document.querySelector("[data-action=arc][aria-pressed=true]")`},
	{name: "fix while one does", path: "/fix", done: "main summary", shows: `document.querySelectorAll(".frame > .status-bar > *").length === 2`},
	{name: "a fire watch on cut", path: "/cut", done: ".cut__watch .button", shows: `document.querySelector(".cut__watch .status-bar__row--watch")`},
	{name: "a fire watch on book", path: "/book", done: "main", shows: `document.querySelectorAll(".frame > .status-bar > *").length === 3`},
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

// onStates opens every page in turn, and then every state.
func (d *device) onStates(ctx context.Context, t *testing.T, look func(where string)) {
	t.Helper()
	for _, path := range all {
		d.visit(ctx, t, path)
		look(path)
	}
	for _, s := range states {
		if s.path != "" {
			if err := d.page.Evaluate(ctx, `document.querySelector("dialog[open] [data-action=leave]")?.click()`, nil); err != nil {
				t.Fatal(err)
			}
			d.visit(ctx, t, s.path)
		}
		for _, condition := range append(touches(s.done), s.shows) {
			d.stands(ctx, t, s.name, condition)
		}
		look(s.name)
	}
}

// stands waits for a condition, and says what is there instead.
func (d *device) stands(ctx context.Context, t *testing.T, where, condition string) {
	t.Helper()
	c, cancel := context.WithTimeout(ctx, stepLimit)
	defer cancel()
	if err := d.page.Wait(c, condition); err != nil {
		var now string
		d.ask(ctx, t, `location.pathname + ": " + document.body.innerText`, &now)
		t.Fatalf("%s: %v: %s", where, err, now)
	}
}
