package main

import (
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"kerfside/calc/diagnose"
	"kerfside/cmd/internal/browser"
)

// Timings of the real app in a real browser, run by "go run ./cmd/dev bench",
// which knows the budgets. A slowed figure slows the whole browser, workers and
// all. Compare figures of one run only.

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
	return &bench{B: b, ctx: ctx, profile: filepath.Join(b.TempDir(), "phone")}
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
	if err := page.Evaluate(b.ctx, benchCall("%s", expression), result); err != nil {
		b.Fatal(err)
	}
}

// benchCall is an expression that may call the functions of bench.js.
func benchCall(format string, words ...any) string {
	return "(() => {" + benchScript + "\nreturn " + fmt.Sprintf(format, words...) + "; })()"
}

// BenchmarkBrowserThrottle asks the throttle to make a page and a worker six times
// slower and tells what it did: how much longer a loop took. It goes by all that
// is measured slowed in the same run.
func BenchmarkBrowserThrottle(b *testing.B) {
	t := newBench(b)
	url, closing := serveEmpty(t)
	defer closing()
	phone, page := t.launch()
	defer phone.Kill()
	t.open(page, url)
	loops := func(where string) (ms []float64) {
		t.ask(page, fmt.Sprintf("loops(%q, 7)", where), &ms)
		return ms
	}
	least, most := math.Inf(1), 0.0
	for _, where := range []string{"page", "worker"} {
		loops(where) // compiled by now
		before := loops(where)
		end := phone.Throttle(6)
		slowed := loops(where)
		end()
		came := median(slowed) / median(before)
		b.Logf("%s: %.0f ms, slowed %.0f", where, before, slowed)
		b.ReportMetric(came, where+"-x")
		least, most = min(least, came), max(most, came)
	}
	puts := func() (ms []float64) {
		t.askCold(page, "puts(100)", &ms)
		return ms
	}
	puts()
	before := puts()
	end := phone.Throttle(6)
	slowed := puts()
	end()
	b.Logf("a record until it is on the disk: %.1f ms, slowed %.1f", before, slowed)
	b.ReportMetric(mean(slowed)/mean(before), "store-x") // the disk keeps its speed, the ways to it do not
	b.ReportMetric(least, "least-x")
	b.ReportMetric(most, "most-x")
}

// BenchmarkBrowserFirstVisit opens the app for the first time over a line of
// 1.6 Mbit/s and 150 ms.
func BenchmarkBrowserFirstVisit(b *testing.B) {
	t := newBench(b)
	app := openApp(b, b.TempDir())
	defer app.Close()
	phone, page := t.launch()
	defer phone.Kill()
	t.preload(page, "globalThis.isNew = true;")
	t.preload(page, watchScript)
	if err := page.Line(t.ctx, 150, 1.6e6/8); err != nil {
		b.Fatal(err)
	}
	got := t.opened(page, app.URL()+"/ready")
	b.ReportMetric(got.Drawn, "useful-ms")
}

// BenchmarkBrowserTap taps entries until each is on the disk.
func BenchmarkBrowserTap(b *testing.B) {
	for _, times := range []float64{1, 6} {
		b.Run(fmt.Sprintf("%gx", times), func(b *testing.B) {
			t := newBench(b)
			phone, page := t.ready()
			defer phone.Throttle(times)()
			var ms []float64
			t.ask(page, "taps(100)", &ms)
			b.ReportMetric(median(ms), "p50-ms")
			b.ReportMetric(percentile(ms, 95), "p95-ms")
		})
	}
}

// BenchmarkBrowserNews taps on one phone until it shows on another of the crew that
// is online and that nobody touches, to and fro.
func BenchmarkBrowserNews(b *testing.B) {
	ctx := newBench(b).ctx
	dir := b.TempDir()
	app := openApp(b, dir)
	defer app.Close()
	phones := []*device{{profile: filepath.Join(dir, "phone-A")}, {profile: filepath.Join(dir, "phone-B")}}
	for _, d := range phones {
		d.start(ctx, b, app)
		defer d.browser.Kill()
	}
	var ms []float64
	for i := range newsTaps + 2 {
		taps, sees := phones[i%2], phones[(i+1)%2]
		rig := fmt.Sprintf("rig-%d", i)
		shown := make(chan error, 1)
		var tapped, seen float64
		go func() { shown <- sees.page.Evaluate(ctx, benchCall("sees(%q)", rig), &seen) }()
		taps.ask(ctx, b, benchCall("begins(%q)", rig), &tapped)
		if err := <-shown; err != nil {
			b.Fatal(err)
		}
		if i >= 2 { // each has waited for news before
			ms = append(ms, seen-tapped)
		}
	}
	b.Logf("%.0f ms", ms)
	b.ReportMetric(median(ms), "p50-ms")
	b.ReportMetric(percentile(ms, 100), "most-ms")
}

const newsTaps = 10

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
	b.ReportMetric(median(ms), "p50-ms-6x")
	b.ReportMetric(percentile(ms, 95), "p95-ms-6x")
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
	b.ReportMetric(median(ms), "p50-ms-6x")
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

// mean is for waits of which some hit a pause of the throttle and others none.
func mean(list []float64) (sum float64) {
	for _, v := range list {
		sum += v
	}
	return sum / float64(len(list))
}

func median(list []float64) float64 { return percentile(list, 50) }

// percentile returns the smallest value of a list that p percent do not exceed.
func percentile(list []float64, p int) float64 {
	sorted := slices.Sorted(slices.Values(list))
	return sorted[(len(sorted)*p+99)/100-1]
}
