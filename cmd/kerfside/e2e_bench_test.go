package main

import (
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"kerfside/calc/diagnose"
	"kerfside/cmd/internal/browser"
)

// Timings of the real app in a real browser, run by "go run ./cmd/dev bench".
// A slowed figure slows the whole browser, workers and all. Compare figures of
// one run only; over its budget a timing fails.

//go:embed testdata/bench.js
var benchScript string

// benchLimit ends a timing that hangs.
const benchLimit = 15 * time.Minute

// bench is one phone with the app.
type bench struct {
	*testing.B
	ctx     context.Context
	profile string
}

func newBench(b *testing.B) *bench {
	b.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), benchLimit)
	b.Cleanup(cancel)
	return &bench{b, ctx, filepath.Join(b.TempDir(), "phone")}
}

// launch starts the phone's browser and opens a page.
func (b *bench) launch() (*browser.Browser, *browser.Page) {
	b.Helper()
	phone, err := browser.Launch(b.ctx, browser.Options{Profile: b.profile})
	if err != nil {
		b.Fatal(err)
	}
	return phone, b.page(phone)
}

// page opens a page.
func (b *bench) page(phone *browser.Browser) *browser.Page {
	b.Helper()
	page, err := phone.Page(b.ctx, browser.Phone)
	if err != nil {
		b.Fatal(err)
	}
	return page
}

// preload runs a script in every document of the page from the next on.
func (b *bench) preload(page *browser.Page, script string) {
	b.Helper()
	if err := page.Preload(b.ctx, script); err != nil {
		b.Fatal(err)
	}
}

// open opens an address and waits until its first useful screen.
func (b *bench) open(page *browser.Page, url string) {
	b.Helper()
	if err := page.Open(b.ctx, url); err != nil {
		b.Fatal(err)
	}
	b.wait(page, `performance.getEntriesByName("kerfside:useful").length > 0`)
}

func (b *bench) wait(page *browser.Page, condition string) {
	b.Helper()
	if err := page.Wait(b.ctx, condition); err != nil {
		b.Fatal(err)
	}
}

// ask runs a function of bench.js, or anything else, on the page.
func (b *bench) ask(page *browser.Page, expression string, result any) {
	b.Helper()
	if err := page.Evaluate(b.ctx, "(() => {"+benchScript+"\nreturn "+expression+"; })()", result); err != nil {
		b.Fatal(err)
	}
}

// useful returns the time from the start of the navigation to the first useful
// screen, in milliseconds.
func (b *bench) useful(page *browser.Page) float64 {
	b.Helper()
	var ms float64
	b.ask(page, `performance.getEntriesByName("kerfside:useful")[0].startTime`, &ms)
	return ms
}

// within reports a figure and fails if it is over its budget.
func (b *bench) within(got, budget float64, name string) {
	b.Helper()
	b.ReportMetric(got, name)
	if got > budget {
		b.Errorf("%s is %.1f, over the budget of %.1f", name, got, budget)
	}
}

// BenchmarkBrowserFirstVisit opens the app for the first time over a line of
// 1.6 Mbit/s and 150 ms.
func BenchmarkBrowserFirstVisit(b *testing.B) {
	t := newBench(b)
	app := openApp(b, b.TempDir())
	defer app.Close()
	phone, page := t.launch()
	defer phone.Kill()
	if err := page.Line(t.ctx, 150, 1.6e6/8); err != nil {
		b.Fatal(err)
	}
	t.open(page, app.URL()+"/ready")
	t.within(t.useful(page), 2000, "useful-ms")
}

// BenchmarkBrowserTap taps entries until each is on the disk.
func BenchmarkBrowserTap(b *testing.B) {
	for times, budget := range map[float64]float64{1: 20, 6: 100} {
		b.Run(fmt.Sprintf("%gx", times), func(b *testing.B) {
			t := newBench(b)
			phone, page := t.ready()
			defer phone.Throttle(times)()
			var ms []float64
			t.ask(page, "taps(100)", &ms)
			t.within(percentile(ms, 95), budget, "p95-ms")
		})
	}
}

// BenchmarkBrowserPlan closes the number pad until the new plan is drawn, six
// times slower.
func BenchmarkBrowserPlan(b *testing.B) {
	t := newBench(b)
	phone, page := t.ready()
	t.ask(page, `document.querySelector("[data-action=example]").click()`, nil)
	t.wait(page, `[...document.querySelectorAll("button")].some((one) => /^Thickness/.test(one.textContent) && one.offsetParent)`)
	var ms []float64
	t.ask(page, "plans(3)", &ms) // the first sums of a fresh worker
	defer phone.Throttle(6)()
	t.ask(page, "plans(40)", &ms)
	t.within(percentile(ms, 95), 50, "p95-ms")
}

// BenchmarkBrowserRank ranks the causes with every sign answered, six times
// slower, by the wasm in its worker. The way through the worker and back is within the
// figure.
func BenchmarkBrowserRank(b *testing.B) {
	t := newBench(b)
	phone, page := t.ready()
	var faults []string
	for _, sign := range diagnose.Signs {
		if sign.NoFault == "" {
			faults = append(faults, sign.Key)
		}
	}
	list, err := json.Marshal(faults)
	if err != nil {
		b.Fatal(err)
	}
	var ms []float64
	t.ask(page, fmt.Sprintf("ranks(20, %s)", list), &ms) // the first sums of a fresh worker
	t.ask(page, fmt.Sprintf("ranks(40, %s)", list), &ms)
	b.ReportMetric(median(ms), "p50-ms-1x")
	defer phone.Throttle(6)()
	t.ask(page, fmt.Sprintf("ranks(40, %s)", list), &ms)
	b.ReportMetric(percentile(ms, 95), "p95-ms-6x")
	t.within(median(ms), 30, "p50-ms-6x")
}

// ready opens the app on a fresh phone.
func (b *bench) ready() (*browser.Browser, *browser.Page) {
	b.Helper()
	app := openApp(b.B, b.TempDir())
	b.Cleanup(func() { app.Close() })
	phone, page := b.launch()
	b.Cleanup(phone.Kill)
	b.open(page, app.URL()+"/ready")
	b.wait(page, `document.documentElement.dataset.offline === "ready"`)
	return phone, page
}

func median(list []float64) float64 { return percentile(list, 50) }

// percentile returns the smallest value that p percent do not exceed.
func percentile(list []float64, p int) float64 {
	sorted := slices.Sorted(slices.Values(list))
	return sorted[(len(sorted)*p+99)/100-1]
}
