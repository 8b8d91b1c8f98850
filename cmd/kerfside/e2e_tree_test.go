package main

import (
	"slices"
	"strings"
	"testing"

	"kerfside/cmd/internal/journey"
)

// TestBrowserTree asks on every page and in every state what a screen reader is told: each control
// by a role and a name in words, each error with its field, headings in their order, one main part,
// and nothing of what lies beneath a dialog. What lies over a page passes axe-core in both looks.
func TestBrowserTree(t *testing.T) {
	t.Parallel()
	ctx, d := atPages(t, journeyLimit)
	hear := func(where string) {
		found, err := journey.Tree(ctx, d.page)
		if err != nil {
			t.Fatalf("%s: %v", where, err)
		}
		for _, one := range found {
			t.Errorf("%s: %s", where, one)
		}
	}
	inBothLooks := func(where string) {
		for _, scheme := range []string{"dark", "light"} {
			if err := d.page.Media(ctx, map[string]string{"prefers-color-scheme": scheme, "prefers-reduced-motion": "reduce"}); err != nil {
				t.Fatal(err)
			}
			if err := journey.Axe(ctx, d.page, axeCore); err != nil {
				t.Errorf("%s, %s: %v", where, scheme, err)
			}
		}
	}
	told := func(where, words string) {
		live, err := journey.Live(ctx, d.page)
		if err != nil {
			t.Fatalf("%s: %v", where, err)
		}
		if !slices.ContainsFunc(live, func(text string) bool { return strings.Contains(text, words) }) {
			t.Errorf("%s: nobody is told %q; live are %q", where, words, live)
		}
	}
	d.onStates(ctx, t, func(where string) {
		hear(where)
		var over bool
		if d.ask(ctx, t, `document.querySelector("dialog[open]") !== null`, &over); over {
			inBothLooks(where)
		}
		if words := answers[where]; words != "" {
			told(where, words)
		}
	})

	// A line with a button, and the alarm, which both go away by themselves: not while this looks.
	d.ask(ctx, t, `(globalThis.later = globalThis.setTimeout, globalThis.setTimeout = (work, ms, ...given) => (ms === 8000 ? 0 : later(work, ms, ...given)), true)`, new(bool))
	d.visit(ctx, t, "/book")
	d.ask(ctx, t, `(kerfside.journal.dispatchEvent(new CustomEvent("trouble", { detail: { kind: "emptied", msg: "The store was empty", hint: "Sync once more" } })), true)`, new(bool))
	d.stands(ctx, t, "a line with a button", `document.querySelector("[data-ref=toasts] button")`)
	hear("a line with a button")
	told("a line with a button", "The store was empty")
	inBothLooks("a line with a button")
	d.ask(ctx, t, `(document.querySelector("[data-ref=toasts] button").click(), document.querySelector(".status-bar .button").click(), true)`, new(bool))
	d.stands(ctx, t, "no fire watch", `!document.querySelector(".status-bar__row--watch")`)
	d.ask(ctx, t, `kerfside.journal.stopArc({ rig: "rig-of-the-test-000001" }).then(() => true)`, new(bool))
	d.ask(ctx, t, `kerfside.journal.tap({ kind: "watch.started", body: { ms: 1000, rig: "rig-of-the-test-000001" } }).then(() => true)`, new(bool))
	d.stands(ctx, t, "an alarm", `document.querySelector("[data-ref=flash]")`)
	hear("an alarm")
	told("an alarm", "Fire watch over")
	inBothLooks("an alarm")
}

// answers are what is said by itself where an answer has come.
var answers = map[string]string{
	"ready with a plan":   "45 A",
	"a check asked":       "Next check",
	"a stop found":        "STOP",
	"what the gate tells": "STOP",
}
