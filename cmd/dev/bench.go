package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"time"

	"kerfside/cmd/internal/browser"
	cli "kerfside/cmd/internal/command"
)

// benchPart is one kind of measurement. It says what it does and notes the figures
// that budgets name; what it noted before it failed stands.
type benchPart struct {
	name  string
	line  string
	setUp []part
	run   func(ctx context.Context, f figures) error
}

// benchParts is the list. Figures are only comparable within one run on one machine.
var benchParts []benchPart

func init() { // some parts print the list
	benchParts = []benchPart{
		{name: "sizes", line: "what goes over the air", setUp: partsOfRelease, run: benchSizes},
		{name: "go", line: "Go benchmarks of the calculators, the journal and the server", setUp: []part{partCompiler}, run: benchNative},
		{name: "wasm", line: "those of the calculators, of an arc tap and of the start, compiled for the phone, under Node", setUp: []part{partNode, partWasm}, run: benchWasm},
		{name: "cold", line: "the cold start of the app beside an almost empty page", setUp: append(partsOfRelease, partChromium), run: benchCold},
		{name: "browser", line: "timings of the real app in a real browser", setUp: append(partsOfRelease, partChromium), run: benchBrowser},
		{name: "sync", line: "how much the journal takes in and hands out, beside a raw loop of SQLite and a general-purpose server, and how it stands a kill", setUp: partsOfRelease, run: benchSync},
		{name: "lighthouse", line: "Lighthouse against the app it finds at its own server", setUp: append(partsOfRelease, partChromium, partLighthouse), run: lighthouse},
	}
}

// partsOfRelease are what a release is built from.
var partsOfRelease = []part{partCompiler, partWasm, partPack, partBundle}

// bench runs one part or all of them and ends in the table of budgets. A part that
// fails keeps no other from being measured.
func bench(args []string) error {
	flags := flag.NewFlagSet("bench", flag.ContinueOnError)
	only := flags.String("only", "", "one part: "+partNames())
	if err := readFlags(flags, args); err != nil {
		return err
	}
	parts, list := benchParts, budgets
	if *only != "" {
		parts = slices.DeleteFunc(slices.Clone(parts), func(p benchPart) bool { return p.name != *only })
		list = slices.DeleteFunc(slices.Clone(list), func(b budget) bool { return b.part != *only })
	}
	if len(parts) == 0 {
		return cli.NoSuch("part", *only, strings.Split(partNames(), ", "), "go run ./cmd/dev bench -h")
	}
	// What is measured runs in groups of its own, which end with ctx.
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	conditions := benchConditions()
	r := newResults()
	var times []string
	for _, p := range parts {
		began := time.Now()
		heading("%s: %s", p.name, p.line)
		if err := p.measure(ctx, r.of(p.name)); err != nil {
			say("%s: %v", p.name, err)
			r.of(p.name).missing("", err)
		}
		times = append(times, p.name+" "+time.Since(began).Round(time.Second).String())
	}
	heading("budgets; compare figures within this run only")
	for _, line := range append(conditions, "took: "+strings.Join(times, ", ")) {
		say("%s", line)
	}
	fmt.Println()
	return r.print(os.Stdout, list)
}

// measure sets up and runs a part.
func (p benchPart) measure(ctx context.Context, f figures) error {
	if ctx.Err() != nil {
		return errors.New("the run was broken off")
	}
	if err := setUp(p.setUp...); err != nil {
		return err
	}
	return p.run(ctx, f)
}

func partNames() string {
	var names []string
	for _, p := range benchParts {
		names = append(names, p.name)
	}
	return strings.Join(names, ", ")
}

// benchConditions tell what the figures were measured on, from the begin of the
// run: later it is itself what loads the machine.
func benchConditions() []string {
	commit, err := cmd("git", "describe", "--always", "--dirty").output()
	if err != nil {
		commit = "unknown commit"
	}
	load := "unknown"
	if text, err := os.ReadFile("/proc/loadavg"); err == nil {
		load = strings.Join(strings.Fields(string(text))[:3], " ")
	}
	return []string{
		fmt.Sprintf("%s, %s: %s/%s, %d processors, load average %s at the begin", time.Now().Format(time.DateTime), strings.TrimSpace(commit), runtime.GOOS, runtime.GOARCH, runtime.NumCPU(), load),
		fmt.Sprintf("%s; %s; Node %s", runtime.Version(), versionOf(browser.Find()), versionOf("node", nil)),
	}
}

// versionOf asks a program for its version.
func versionOf(program string, err error) string {
	if err != nil {
		return "none"
	}
	out, err := exec.Command(program, "--version").Output()
	if err != nil {
		return "none"
	}
	return strings.TrimSpace(string(out))
}

// benchSizes notes the sizes that the check of sizes holds.
func benchSizes(_ context.Context, f figures) error {
	found, err := measureSizes()
	for name, size := range found {
		f.found(name, float64(size))
	}
	return err
}

// benchNative has no budgets: its figures are for whoever works on what they measure.
func benchNative(ctx context.Context, _ figures) error {
	_, err := goBench(ctx, cmd("go", "test", "-run", "^$", "-bench", ".", "-benchtime", "200ms", "-benchmem", "./calc/...", "./server/...", "./guides/..."))
	return err
}

// benchWasm runs under Node what a phone computes.
func benchWasm(ctx context.Context, f figures) error {
	root, err := cmd("go", "env", "GOROOT").output()
	if err != nil {
		return err
	}
	onNode := func(words ...string) (map[string]float64, error) {
		c, err := slimTest(append([]string{"-run", "^$"}, words...)...)
		if err != nil {
			return nil, err
		}
		return goBench(ctx, c)
	}
	found, err := onNode("-bench", "^BenchmarkArcTap$", "-benchtime", "200ms", "./calc/journal/engine")
	short, knowsShort := found["ArcTap/1000/ms/tap"]
	long, knowsLong := found["ArcTap/100000/ms/tap"]
	if knowsShort && knowsLong {
		f.found("arc-ratio", long/short)
		f.found("arc-ms", long)
	} else if err == nil {
		err = errors.New("BenchmarkArcTap in calc/journal/engine does not tell ms/tap at 1000 and at 100000 events")
	}
	job, jobErr := onNode("-bench", "^BenchmarkJobPlan$", "-benchtime", "2s", "./calc/job")
	if ms, ok := job["JobPlan/ms/job"]; ok {
		f.found("job-ms", ms)
	}
	told, lifeErr := onNode("-bench", "^BenchmarkForecasts$/^100000$", "-benchtime", "5x", "./calc/journal/engine")
	if ms, ok := told["Forecasts/100000/ms/forecasts"]; ok {
		f.found("forecasts-ms", ms)
	}
	made, reportErr := onNode("-bench", "^BenchmarkReports$/^100000$", "-benchtime", "5x", "./calc/journal/engine")
	slowest := 0.0
	for name, ms := range made {
		if strings.HasPrefix(name, "Reports/100000/") && strings.HasSuffix(name, "/ms/report") {
			slowest = max(slowest, ms)
		}
	}
	if slowest > 0 {
		f.found("report-ms", slowest)
	}
	_, other := onNode("-bench", "Calculate|Think", "-benchtime", "200ms", "./calc/registry", "./calc/diagnose")
	return errors.Join(err, jobErr, lifeErr, reportErr, other, benchStart(ctx, f, root))
}

// benchCold measures the cold start.
func benchCold(ctx context.Context, f figures) error {
	return inBrowser(ctx, f, "^BenchmarkBrowserColdStart$", "BrowserColdStart/")
}

// benchBrowser measures all else that has a screen.
func benchBrowser(ctx context.Context, f figures) error {
	return inBrowser(ctx, f, "^BenchmarkBrowser(FirstVisit|News|Plan|Rank|Tap|Throttle)$", "Browser")
}

// inBrowser runs benchmarks of the app and notes their figures by their names
// without that beginning.
func inBrowser(ctx context.Context, f figures, which, beginning string) error {
	found, err := goBench(ctx, cmd("go", "test", "-count=1", "-run", "^$", "-bench", which, "-benchtime", "1x", "-timeout", "30m", "./cmd/kerfside"))
	for name, value := range found {
		f.found(strings.TrimPrefix(name, beginning), value)
	}
	return err
}
