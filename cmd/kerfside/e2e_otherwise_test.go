package main

import (
	"context"
	_ "embed"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/cmd/internal/browser"
)

// readOtherwise tells what is lost when the app is read otherwise.
//
//go:embed testdata/otherwise.js
var readOtherwise string

// ways are those of reading the app other than upright, in its own size and colours.
var ways = []struct {
	name   string
	screen browser.Screen
	text   int    // percent
	colour string // forced-colors
	looks  []string
}{
	{name: "large", screen: browser.Phone, text: 200, colour: "none", looks: []string{fmt.Sprintf(widerThanScreen, browser.Phone.Width), "otherwise.broken()"}},
	{name: "landscape", screen: browser.Screen{Width: 844, Height: 390, Scale: 2, Touch: true}, text: 100, colour: "none", looks: []string{fmt.Sprintf(widerThanScreen, 844), "otherwise.broken()", "otherwise.reach()"}},
	{name: "forced", screen: browser.Phone, text: 100, colour: "active", looks: []string{"otherwise.chosen()", "otherwise.signs()", "otherwise.faint()"}},
}

// fileName makes one of a page or a state.
var fileName = strings.NewReplacer("/", "-", " ", "-", "'", "")

// TestBrowserReadOtherwise takes every page and every state as somebody reads it who needs
// large text, holds the phone on its side, or has the system paint in its own colours. With
// -shots it keeps a picture of each. The soak takes all engines.
func TestBrowserReadOtherwise(t *testing.T) {
	engines := []browser.Engine{browser.Chromium}
	if soaking() { // the journey large-text runs in all of them besides
		engines = append(engines, others()...)
	}
	for _, engine := range engines {
		t.Run(engine.String(), func(t *testing.T) {
			t.Parallel()
			testReadOtherwise(t, engine)
		})
	}
}

func testReadOtherwise(t *testing.T, engine browser.Engine) {
	ctx, d := atPagesIn(t, engine, 2*journeyLimit)
	d.ask(ctx, t, "(globalThis.otherwise = "+readOtherwise+", true)", new(bool))
	d.onStates(ctx, t, func(where string) {
		d.ask(ctx, t, `(document.querySelector("[data-ref=toasts]").replaceChildren(), true)`, new(bool)) // what lines cover has a test of its own
		for _, way := range ways {
			if engine == browser.WebKit && way.colour == "active" {
				continue // it knows no such thing
			}
			d.readAs(ctx, t, engine, way.screen, way.text, way.colour)
			for _, look := range way.looks {
				var found []string
				d.ask(ctx, t, look, &found)
				for _, one := range found {
					t.Errorf("%s, %s: %s", where, way.name, one)
				}
			}
			if *shots != "" && engine == browser.Chromium {
				d.picture(ctx, t, filepath.Join(*shots, way.name, strings.Trim(fileName.Replace(where), "-")+".png"))
			}
		}
		d.readAs(ctx, t, engine, browser.Phone, 100, "none")
	})
	// What only waits, and moves nothing, comes where motion is not wanted too.
	d.wait(ctx, t, `(document.querySelector("main").replaceChildren(), matchMedia("(prefers-reduced-motion: reduce)").matches) && getComputedStyle(document.querySelector("main"), "::before").opacity === "1"`)
	if engine == browser.WebKit {
		return
	}
	var pairs int
	d.ask(ctx, t, "otherwise.chosen.pairs", &pairs)
	if pairs < 30 {
		t.Errorf("only %d things were chosen beside others in forced colours", pairs)
	}
	if engine == browser.Chromium {
		if err := d.page.Media(ctx, map[string]string{"prefers-contrast": "more"}); err != nil {
			t.Fatal(err)
		}
		d.wait(ctx, t, `getComputedStyle(document.documentElement).getPropertyValue("--stroke") === "4px"`)
	}
	t.Logf("tally: %d things chosen beside others in forced colours", pairs)
}

// readAs shows the page that stands in another way, from its top.
func (d *device) readAs(ctx context.Context, t *testing.T, engine browser.Engine, screen browser.Screen, text int, colour string) {
	t.Helper()
	if err := d.page.Resize(ctx, screen); err != nil {
		t.Fatal(err)
	}
	if engine != browser.WebKit {
		if err := d.page.Media(ctx, map[string]string{"forced-colors": colour, "prefers-reduced-motion": "reduce"}); err != nil {
			t.Fatal(err)
		}
	}
	d.wait(ctx, t, fmt.Sprintf(`(document.documentElement.style.fontSize = "%d%%", scrollTo(0, 0), new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(() => resolve(true)))))`, text))
}

// picture keeps one of what the phone shows.
func (d *device) picture(ctx context.Context, t *testing.T, path string) {
	t.Helper()
	data, err := d.page.Picture(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
}
