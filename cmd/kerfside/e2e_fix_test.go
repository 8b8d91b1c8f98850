package main

import (
	"context"
	"path/filepath"
	"testing"

	"kerfside/cmd/internal/browser"
)

// seenOfFix is what a thumb needs to find on Fix: the question, where the caution ends, the controls'
// places, and the room between the strip and the controls.
type seenOfFix struct {
	Question   string
	Last       float64 // how far down the question reaches, with the caution before it
	Top, Floor float64
	Dead       bool
	Places     map[string][4]float64
}

const seeFix = `(() => {
	const at = (name) => document.querySelector("[data-ref=" + name + "]");
	const box = (el) => el.getBoundingClientRect();
	const isDead = !at("dead").hidden;
	return {
		Question: at("next").hidden ? "" : at("check").textContent, Dead: isDead,
		Last: Math.max(box(at("check")).bottom, isDead ? box(at("cautions")).bottom : 0),
		Top: box(document.querySelector(".strip")).bottom, Floor: box(at("bar")).top,
		Places: Object.fromEntries(["yes", "no", "skip"].map((name) => [name, Object.values(box(at(name)).toJSON()).slice(0, 4)])),
	};
})()`

// TestBrowserFixStands: while one ranking follows another, the answers keep their places whatever
// the question's length, and question, caution and answers stand on the first screenful.
func TestBrowserFixStands(t *testing.T) {
	t.Parallel()
	for name, screen := range map[string]browser.Screen{"usual": browser.Phone, "small": {Width: 320, Height: 568, Scale: 2, Touch: true}} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
			defer cancel()
			dir := place(t)
			app := openApp(t, dir)
			defer app.Close()
			phone, err := browser.Launch(ctx, browser.Options{Profile: filepath.Join(dir, "phone")})
			if err != nil {
				t.Fatal(err)
			}
			defer phone.Kill()
			page, err := phone.Page(ctx, screen)
			if err != nil {
				t.Fatal(err)
			}
			do := func(err error) {
				t.Helper()
				if err != nil {
					t.Fatal(err)
				}
			}
			do(page.Open(ctx, app.URL()+"/fix"))
			do(page.Wait(ctx, `document.querySelector("[data-key=through]")`))
			do(page.Evaluate(ctx, `document.querySelector("[data-key=through]").click()`, nil))
			do(page.Wait(ctx, `document.querySelector("[data-sign=unsteady]")`))
			do(page.Evaluate(ctx, `["unsteady", "cuts-out"].forEach((key) => document.querySelector("[data-sign=" + key + "]").click()), document.querySelector("[data-action=think]").click()`, nil))
			var first, now seenOfFix
			asked, dead := 0, 0
			for question := ""; ; question = now.Question {
				do(page.Wait(ctx, `(() => {
					const at = (name) => document.querySelector("[data-ref=" + name + "]");
					return !at("thought").hidden && !at("bar").inert && scrollY === 0 && (at("next").hidden ? "" : at("check").textContent) !== `+"`"+question+"`"+`;
				})()`))
				do(page.Evaluate(ctx, seeFix, &now))
				if now.Question == "" {
					break
				}
				if asked++; asked == 1 {
					first = now
				}
				for control, at := range now.Places {
					if at != first.Places[control] {
						t.Errorf("%q has %s at %v; %q had it at %v", now.Question, control, at, first.Question, first.Places[control])
					}
				}
				if now.Last > now.Floor || now.Floor < now.Top {
					t.Errorf("%q reaches down to %.0f px, the answers begin at %.0f", now.Question, now.Last, now.Floor)
				}
				if now.Dead {
					dead++
				}
				no := now.Places["no"]
				do(page.Tap(ctx, no[0]+no[2]/2, no[1]+no[3]/2))
			}
			if asked < 6 || dead < 2 {
				t.Errorf("only %d checks were asked, %d with the torch dead", asked, dead)
			}
			for _, f := range page.Faults() {
				t.Errorf("the page had a fault: %+v", f)
			}
		})
	}
}
