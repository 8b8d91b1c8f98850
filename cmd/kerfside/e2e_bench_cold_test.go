package main

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kerfside/calc/journal/engine"
	"kerfside/calc/journal/event"
	"kerfside/cmd/internal/browser"
)

// The cold start: a phone with a used journal opens the app with no server and
// in a new process. Beside it, in turns, an almost empty page does the least that
// an app of this kind can, in an origin of its own, with a store that holds the
// same records.

//go:embed testdata/cold.js
var coldScript string

//go:embed testdata/watch.js
var watchScript string

const (
	coldStarts  = 9 // of each page, at a sixth of the speed
	coldQuick   = 3 // at full speed, to be told only
	jobEntries  = 50
	lastJobCuts = 10
	settling    = 1500 * time.Millisecond // a browser's own start would be measured with the page's
)

// BenchmarkBrowserColdStart measures until a person sees and can press what the
// screen is for: the arc button on Cut, the plan on Ready.
func BenchmarkBrowserColdStart(b *testing.B) {
	for _, entries := range []int{10_000, 100_000} {
		b.Run(fmt.Sprint(entries), func(b *testing.B) {
			t := newBench(b)
			pages := t.usedPhone(entries)
			for _, times := range []float64{1, 6} {
				t.coldStarts(pages, times)
			}
			t.logSizes("after the starts")
			t.pressAtOnce(pages[0].url)
		})
	}
}

// coldPage is one of the pages that take turns; the last is the almost empty one.
type coldPage struct{ name, url string }

// usedPhone fills the phone's store and the almost empty page's with as many
// entries as asked, and takes the servers away.
func (b *bench) usedPhone(entries int) []coldPage {
	b.Helper()
	app := openApp(b.B, b.TempDir())
	empty, closeEmpty := serveEmpty(b)
	phone, page := b.launch()
	pages := []coldPage{{"cut", app.URL() + "/cut"}, {"ready", app.URL() + "/ready"}, {"empty", empty}}
	began := time.Now()

	b.open(page, app.URL()+"/ready")
	b.ask(page, `document.querySelector("[data-action=example]").click()`, nil)
	b.wait(page, `[...document.querySelectorAll("button")].some((one) => /^Thickness/.test(one.textContent) && one.offsetParent)`)
	b.ask(page, "plans(1)", nil)
	b.wait(page, `document.querySelector("[data-ref=told]").checkVisibility() && document.documentElement.dataset.offline === "ready"`)
	var who struct{ Rig, Device string }
	b.ask(page, "whose()", &who)
	for first := 0; first < entries; first += 10_000 {
		var added int
		text, err := json.Marshal(exportOf(who.Rig, who.Device, first/jobEntries, min(entries-first, 10_000)/jobEntries))
		if err != nil {
			b.Fatal(err)
		}
		b.ask(page, fmt.Sprintf("bring(%s)", text), &added)
	}
	var folded int
	b.ask(page, "kerfside.journal.stateHash().then((state) => state.events)", &folded)
	b.wait(page, b.cold("isKept()"))
	b.Logf("%d entries brought in, folded and kept in %v", folded, time.Since(began).Round(time.Second))

	other := b.page(phone)
	b.open(other, empty)
	b.wait(other, `document.documentElement.dataset.offline === "ready"`)
	b.copyStore(page, other)
	for _, p := range []*browser.Page{page, other} {
		b.askCold(p, "settle()", nil)
	}
	// The last job before the phone was put away: the other store gets its entries
	// too. What the app writes beside them is its own doing.
	before := time.Now().UnixMilli()
	b.ask(page, fmt.Sprintf("work(%q, %d)", who.Rig, lastJobCuts), nil)
	b.wait(page, b.cold("isKept()"))
	var last json.RawMessage
	b.askCold(page, fmt.Sprintf("since(%q)", event.StampOf(before)), &last)
	b.askCold(other, fmt.Sprintf("restoreEach(%s)", last), nil)
	phone.Close(b.ctx)
	if err := app.Close(); err != nil {
		b.Fatal(err)
	}
	closeEmpty()
	b.logSizes("before the starts")
	return pages
}

// exportOf writes an export of jobs as months of work would leave them, fifty
// entries each: the job is opened, twenty-four cuts, the job is closed.
func exportOf(rig, device string, first, jobs int) string {
	var text strings.Builder
	head, _ := json.Marshal(engine.ExportHead{Kerfside: 1, Device: device, Now: time.Now().UnixMilli(), Count: jobs * jobEntries})
	text.Write(append(head, '\n'))
	start := time.Now().Add(-300 * 24 * time.Hour).UnixMilli()
	for job := first; job < first+jobs; job++ {
		at := start + int64(job)*int64(3*time.Hour/time.Millisecond) // 2,000 jobs take 250 days
		inside := fmt.Sprintf("job-%d", job)
		line := 0
		put := func(after int64, kind, where string, body any) (id string) {
			id = fmt.Sprintf("timing%08d%08d", job, line)
			line++
			data, _ := json.Marshal(body)
			fmt.Fprintf(&text, `{"id":%q,"t":%q,"wall":[%d,0],"device":%q,"kind":%q,"v":1,%s,"body":%s}`+"\n",
				id, event.StampOf(at+after), at+after, device, kind, where, data)
			return id
		}
		in, about := fmt.Sprintf(`"in":%q`, inside), fmt.Sprintf(`"about":%q`, inside)
		put(0, "session.opened", about, map[string]any{"rig": rig, "title": fmt.Sprintf("Job %d", job)})
		for cut := range int64(jobEntries/2 - 1) {
			started := put(cut*60_000+1, "arc.started", in, map[string]any{"rig": rig})
			put(cut*60_000+20_000, "arc.stopped", in, map[string]any{"of": started})
		}
		put(25*60_000, "session.closed", about, map[string]any{})
	}
	return text.String()
}

// copyStore gives the other page's store the same records.
func (b *bench) copyStore(from, to *browser.Page) {
	b.Helper()
	for store, page := range map[string]int{"event": 2000, "meta": 1, "view": 10, "snapshot": 10} {
		after := json.RawMessage("null")
		for {
			var records []struct {
				Key   json.RawMessage `json:"key"`
				Value json.RawMessage `json:"value"`
			}
			b.askCold(from, fmt.Sprintf("dump(%q, %s, %d)", store, after, page), &records)
			if len(records) == 0 {
				break
			}
			after = records[len(records)-1].Key
			list, err := json.Marshal(records)
			if err != nil {
				b.Fatal(err)
			}
			b.askCold(to, fmt.Sprintf("restore(%q, %s)", store, list), nil)
		}
	}
}

// coldStarts starts the pages by turns, so that what else the machine does falls
// on all, and reports the medians and their ratios to the last page's.
func (b *bench) coldStarts(pages []coldPage, times float64) {
	b.Helper()
	rounds := coldStarts
	if times == 1 {
		rounds = coldQuick
	}
	drawn, marked := map[string][]float64{}, map[string][]float64{}
	for range rounds {
		for _, p := range pages {
			got := b.coldStart(p.url, times)
			drawn[p.name], marked[p.name] = append(drawn[p.name], got.Drawn), append(marked[p.name], got.Marked)
		}
	}
	least := median(drawn["empty"])
	for _, p := range pages {
		b.Logf("%s at %g×: drawn %.0f, marked %.0f ms", p.name, times, drawn[p.name], marked[p.name])
		b.ReportMetric(median(drawn[p.name]), fmt.Sprintf("%s-ms-%gx", p.name, times))
		if p.name != "empty" {
			b.ReportMetric(median(drawn[p.name])/least, fmt.Sprintf("%s-ratio-%gx", p.name, times))
		}
	}
}

// useful is when a page said that its first useful screen is there and when that
// was drawn, in milliseconds from the start of the navigation.
type useful struct {
	Marked, Drawn float64
	IsTrue        bool // when it said so
}

// coldStart starts a browser and opens a page in it.
func (b *bench) coldStart(url string, times float64) (got useful) {
	b.Helper()
	phone, page := b.launch()
	defer phone.Close(b.ctx)
	b.preload(page, watchScript)
	time.Sleep(settling)
	defer phone.Throttle(times)()
	return b.opened(page, url)
}

// opened opens an address on a page that watch.js watches, until its first useful
// screen is drawn.
func (b *bench) opened(page *browser.Page, url string) (got useful) {
	b.Helper()
	if err := page.Open(b.ctx, url); err != nil {
		b.Fatal(err)
	}
	if err := page.Evaluate(b.ctx, "useful", &got); err != nil { // one question: asking again and again would take of the page's time
		b.Fatal(err)
	}
	if !got.IsTrue {
		b.Errorf("%s says that it is useful before it is", url)
	}
	return got
}

// pressAtOnce presses the arc button in the very step in which Cut says that it
// is useful: it has to start an arc.
func (b *bench) pressAtOnce(cut string) {
	b.Helper()
	phone, page := b.launch()
	defer phone.Close(b.ctx)
	b.preload(page, "globalThis.pressAtOnce = true;")
	b.preload(page, watchScript)
	if err := page.Open(b.ctx, cut); err != nil {
		b.Fatal(err)
	}
	b.wait(page, `document.querySelector("[data-action=arc]")?.getAttribute("aria-pressed") === "true"`)
	b.wait(page, b.cold(`inStore("readonly", (tx) => tx.objectStore("meta").get("meta")).then(({ arc }) => Object.keys(arc).length === 1)`))
}

// cold is an expression that may call the functions of cold.js.
func (b *bench) cold(expression string) string {
	return "(() => {" + coldScript + "\nreturn " + expression + "; })()"
}

func (b *bench) askCold(page *browser.Page, expression string, result any) {
	b.Helper()
	if err := page.Evaluate(b.ctx, b.cold(expression), result); err != nil {
		b.Fatal(err)
	}
}

// logSizes tells what each origin's IndexedDB weighs, and how much of that a
// start has to replay.
func (b *bench) logSizes(when string) {
	b.Helper()
	stores, err := filepath.Glob(filepath.Join(b.profile, "Default", "IndexedDB", "*.leveldb"))
	if err != nil || len(stores) == 0 {
		b.Logf("the stores are not found: %v", err)
	}
	for _, store := range stores {
		var all, log int64
		err := filepath.WalkDir(store, func(path string, entry fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			info, err := entry.Info()
			if err != nil {
				return err
			}
			all += info.Size()
			if filepath.Ext(path) == ".log" {
				log += info.Size()
			}
			return nil
		})
		if err != nil && !os.IsNotExist(err) {
			b.Fatal(err)
		}
		b.Logf("%s, %s: %.1f MB, of which the log has %.2f", when, filepath.Base(store), float64(all)/1e6, float64(log)/1e6)
	}
}

// serveEmpty serves the almost empty page.
func serveEmpty(b *bench) (url string, closing func()) {
	b.Helper()
	l, err := net.Listen("tcp", "localhost:0")
	if err != nil {
		b.Fatal(err)
	}
	server := &http.Server{Handler: http.FileServer(http.Dir("testdata/empty"))}
	go server.Serve(l)
	return "http://" + l.Addr().String() + "/", func() { server.Close() }
}
