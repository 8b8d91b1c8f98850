package main

import (
	"os"
	"strings"
	"time"
)

// Tests that need the browser have a step of their own, so that the others
// can run without it.
const (
	browserTests    = "^TestBrowser"
	browserPackages = "./cmd/internal/... ./cmd/kerfside/..."

	// browserRest is left to the long run, so that the short one stays short: what
	// walks over everything once more, kills and waits, and journeys whose way
	// others go too.
	browserRest = "^TestBrowser(AsTheyLie|BluntTaps|DrawingsFit|KilledWhileJoining|PagesEnd|Print|PrintCard|ReadOtherwise|RestoredServer|StuckStore|Updates)$" +
		"|^TestBrowserJourneys$/^(erase|forgotten|guide-kept|guide-sizes|photos|pictures|taken-off|two-crews|two-plates)$"
)

// steps is everything that test checks, in the order in which trouble is
// cheapest to find.
var steps = []step{
	{name: "format", line: "gofmt -l on every Go file", run: checkFormat},
	{name: "vet", line: "go vet, native and for wasm", run: checkVet},
	{name: "static", line: "staticcheck, native and for wasm", run: checkStatic},
	{name: "go", line: "go test of every package, without the browser", run: checkGo},
	{name: "types", line: "TypeScript reads the JSDoc of every module of the phone", run: checkTypes},
	{name: "browsers", line: "nothing that ships is newer than the oldest browsers", run: checkBrowsers},
	{name: "js", line: "unit tests of the phone's modules under Node", run: checkNode},
	{name: "sizes", line: "what goes over the air, against its budget", run: checkSizes},
	{name: "journeys", line: "the real app in a real browser, really offline", run: checkJourneys},
	{name: "race", line: "the server and its store under the race detector", long: true, run: checkRace},
	{name: "fuzz", line: "each fuzzer for a fifth of a minute", long: true, run: checkFuzz},
	{name: "wasm", line: "the tests of calc compiled and made slim for the phone, under Node", long: true, run: checkWasm},
	{name: "release", line: "the package in a fresh Debian, and tests compiled for an ARM board", long: true, run: checkRelease},
}

// checkFormat lists Go files that gofmt would change.
func checkFormat(s *score, _ bool) {
	var files []string
	for _, dir := range []string{"calc", "cmd", "guides", "pwa", "server"} {
		if _, err := os.Stat(dir); err != nil {
			continue // not there yet: the go step finds out whether it is missed
		}
		err := walkFiles(dir, func(path string) error {
			if strings.HasSuffix(path, ".go") && !strings.Contains(path, "node_modules") {
				files = append(files, path)
			}
			return nil
		})
		if err != nil {
			s.check("format", err)
			return
		}
	}
	out, err := cmd("gofmt", append([]string{"-l"}, files...)...).output()
	if err == nil && out != "" {
		err = fail("not formatted: "+strings.Join(strings.Fields(out), " "), "Run: gofmt -w "+strings.Join(strings.Fields(out), " "))
	}
	s.check("format", err)
}

// checkVet runs go vet for this machine and for the phone.
func checkVet(s *score, _ bool) {
	s.check("vet native", cmd("go", "vet", "./...").quiet())
	s.check("vet wasm", cmd("go", "vet", "./cmd/wasm", "./calc/...").with("GOOS=js", "GOARCH=wasm").quiet())
}

// checkGo runs all Go tests but those of the browser. The long run compares sums
// with programs of others, which the Go command knows nothing of: it takes no
// answer from the test cache.
func checkGo(s *score, long bool) {
	words := []string{"test", "-json", "-skip", browserTests + "|" + installedTests}
	var env []string
	if long {
		words = append(words, "-timeout", "40m", "-count=1")
		env = append(env, "KERFSIDE_LONG=1", "KERFSIDE_COMPARE=1")
	}
	goTest(s, cmd("go", append(words, "./...")...).with(env...))
}

// checkJourneys runs the tests of the browser. They are never answered from
// the test cache, since the browser is no file that the Go command knows of.
func checkJourneys(s *score, long bool) {
	words := append([]string{"test", "-json", "-count=1", "-timeout", "40m", "-run", browserTests}, strings.Fields(browserPackages)...)
	var env []string
	if long {
		env = append(env, "KERFSIDE_LONG=1")
	} else {
		words = append(words, "-skip", browserRest)
	}
	goTest(s, cmd("go", words...).with(env...))
}

// checkRace runs what has more than one goroutine under the race detector. Most
// pages of help run programs, which are built without it; of the tasks only some
// do two things at once, and what reads the whole module is ten times slower there.
func checkRace(s *score, _ bool) {
	const others = "^TestPlantedBugs$|^TestPage(Backups|Command|Form|Proxy|Public|SQLite|Shop|Standby|Stream|Try|Watch)"
	goTest(s, cmd("go", "test", "-race", "-json", "-timeout", "20m", "-skip", browserTests+"|"+others, "./server/...", "./guides/...", "./cmd/internal/...", "./cmd/kerfside/...", "./cmd/dev/release/..."))
	goTest(s, cmd("go", "test", "-race", "-json", "-timeout", "20m", "-run", "^Test(Join|JournalSize|GoTest|RanOut|Faults|EndedIn)", "./cmd/dev"))
}

// checkFuzz lets each fuzzer look for new inputs; those already found run with
// the Go tests.
func checkFuzz(s *score, _ bool) {
	targets, err := fuzzTargets()
	if err != nil {
		s.check("fuzz", err)
		return
	}
	for i, err := range fuzzAll(targets, 12*time.Second) {
		s.check("fuzz "+targets[i].pkg+" "+targets[i].name, err)
	}
}

// checkWasm runs the tests of calc as the phone would compute them.
func checkWasm(s *score, _ bool) {
	c, err := slimTest("-json", "-timeout", "20m", "./calc/...")
	if err != nil {
		s.check("wasm", err)
		return
	}
	goTest(s, c)
}
