package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kerfside/cmd/internal/browser"
	"kerfside/cmd/internal/journey"
	"kerfside/cmd/internal/process"
)

// End-to-end tests: the App that "kerfside serve" runs, in a real Chromium.
// Their names begin with TestBrowser, so that everything else can be tested
// without one. They need what the tasks of cmd/dev set up: the built wasm,
// Chromium, and axe-core.
//
//	go test ./cmd/kerfside -run TestBrowserJourneys/plan -args -keep
var (
	keep  = flag.Bool("keep", false, "leave databases, profiles and pictures of the journeys, and say where")
	shots = flag.String("shots", "", "keep the pictures of all screens in this folder")
)

const (
	journeys = "../../testdata/e2e"
	tour     = "screens" // the script that goes through all screens
	// tourOfDemo goes through those of a crew that works, for pictures alone.
	tourOfDemo = "tour/demo.txt"
	axeCore    = "../dev/npm/node_modules/axe-core/axe.min.js"

	stepLimit    = 20 * time.Second // far more than any step takes; a lost one ends here
	journeyLimit = 5 * time.Minute
)

// place makes a folder for what a journey leaves. It goes away when the
// journey ends well, unless -keep is set.
func place(t *testing.T) string {
	t.Helper()
	dir, err := os.MkdirTemp("", "kerfside-journey-")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if *keep || t.Failed() {
			t.Logf("left in %s: the database, the profiles of the phones, pictures", dir)
		} else if err := os.RemoveAll(dir); err != nil {
			t.Error(err)
		}
	})
	return dir
}

// newApp is the program on a free port of its own and a database in dir, with the
// hook of the tests.
func newApp(dir string) *App {
	app := shippedApp(dir)
	app.overlay = withHook
	return app
}

// shippedApp is the same with nothing added.
func shippedApp(dir string) *App {
	return &App{Addr: fmt.Sprintf("localhost:%d", process.OwnPort()), DB: filepath.Join(dir, "kerfside.db"), Log: slog.New(slog.DiscardHandler)}
}

// openApp opens the program on a free port and a database in dir.
func openApp(t testing.TB, dir string) *App {
	t.Helper()
	app := newApp(dir)
	if err := app.Open(); err != nil {
		t.Fatal(err)
	}
	return app
}

// readScript reads a journey by its file.
func readScript(t *testing.T, path string) journey.Script {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	script, err := journey.Parse(filepath.Base(path), string(text))
	if err != nil {
		t.Fatal(err)
	}
	return script
}

// travel runs a script against an app of its own.
func travel(t *testing.T, script journey.Script, o journey.Options) {
	t.Helper()
	travelTo(t, openApp(t, o.Dir), script, o)
}

// travelTo runs a script against an open app, and closes it.
func travelTo(t *testing.T, app journey.App, script journey.Script, o journey.Options) {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
	defer cancel()
	if err := errors.Join(journey.Run(ctx, app, script, o), app.Close()); err != nil {
		t.Error(err)
	}
}

// TestBrowserJourneys runs every script of testdata/e2e in Chromium, and in the
// long run in the other engines.
func TestBrowserJourneys(t *testing.T) {
	runJourneys(t, browser.Chromium)
	for _, engine := range others() {
		t.Run(engine.String(), func(t *testing.T) { runJourneys(t, engine) })
	}
}

// runJourneys runs every script in one engine.
func runJourneys(t *testing.T, engine browser.Engine) {
	files, err := filepath.Glob(filepath.Join(journeys, "*.txt"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no journeys in %s: %v", journeys, err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".txt")
		if name == tour || !takes(engine, name) {
			continue
		}
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			dir := place(t)
			travel(t, readScript(t, file), journey.Options{
				Engine: engine, Dir: dir, Shots: dir, Axe: axeCore, Screen: browser.Phone, Look: "sun", Step: stepLimit,
			})
		})
	}
}

// TestBrowserScreens goes through all screens in both looks. Two sizes are
// enough to find what breaks; with KERFSIDE_LONG=1 it takes all sizes, that of a
// phone in both looks, and twice the size of text, and with -shots all of them in
// both looks, and the demo's crew.
func TestBrowserScreens(t *testing.T) {
	all := *shots != "" || long()
	for _, c := range []struct {
		name   string
		screen browser.Screen
		looks  []string
		text   int
	}{
		{name: "390x844", screen: browser.Phone, looks: []string{"sun"}},
		{name: "320x568", screen: browser.Screen{Width: 320, Height: 568, Scale: 2, Touch: true}, looks: []string{"night"}},
		{name: "820x1180", screen: browser.Screen{Width: 820, Height: 1180, Scale: 1, Touch: true}},
		{name: "1280x800", screen: browser.Screen{Width: 1280, Height: 800, Scale: 1}},
		{name: "390x844-large", screen: browser.Phone, text: 200},
	} {
		switch {
		case *shots != "", all && c.name == "390x844":
			c.looks = []string{"sun", "night"}
		case all && c.looks == nil: // colours are those of the other sizes
			c.looks = []string{"sun"}
		}
		for _, look := range c.looks {
			pictures := filepath.Join(*shots, c.name+"-"+look)
			options := journey.Options{Axe: axeCore, Screen: c.screen, Look: look, Text: c.text, Step: stepLimit}
			t.Run(c.name+"-"+look, func(t *testing.T) {
				t.Parallel()
				options := options
				if options.Dir, options.Shots = place(t), pictures; *shots == "" {
					options.Shots = options.Dir
				}
				travel(t, readScript(t, filepath.Join(journeys, tour+".txt")), options)
			})
			if *shots == "" {
				continue
			}
			t.Run(c.name+"-"+look+"-demo", func(t *testing.T) {
				t.Parallel()
				options := options
				options.Dir, options.Shots = place(t), pictures
				if err := demo(newApp(options.Dir).DB, io.Discard); err != nil {
					t.Fatal(err)
				}
				travel(t, readScript(t, filepath.Join(journeys, tourOfDemo)), options)
			})
		}
	}
}
