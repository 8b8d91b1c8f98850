package main

import (
	"context"
	"runtime"
	"strings"
	"sync"
	"time"
)

// fuzzTarget is one fuzz test.
type fuzzTarget struct{ pkg, name string }

// run looks for inputs that break t.
func (t fuzzTarget) run(each time.Duration) error {
	say("%s %s for %v", t.pkg, t.name, each)
	said, err := cmd("go", "test", "-run", "^$", "-fuzz", "^"+t.name+"$", "-parallel", "1", "-fuzztime", each.String(), t.pkg).output()
	if endedInTime(said) {
		return nil
	}
	return err
}

// endedInTime reports whether all that went wrong with a fuzzer is that its time was
// over. Package internal/fuzz takes the end for a failure if the context of its
// workers has not heard of it when it looks, which happens on a busy machine.
func endedInTime(said string) bool {
	_, failure, failed := strings.Cut(said, "\n--- FAIL: ")
	lines := strings.Split(failure, "\n")
	return failed && len(lines) > 2 && strings.TrimSpace(lines[1]) == context.DeadlineExceeded.Error() && lines[2] == "FAIL"
}

// fuzzTargets finds every fuzz test of the module.
func fuzzTargets() ([]fuzzTarget, error) {
	out, err := cmd("go", "list", "-f", "{{.ImportPath}}", "./calc/...", "./server/...", "./guides/...").output()
	if err != nil {
		return nil, err
	}
	var targets []fuzzTarget
	for _, pkg := range strings.Fields(out) {
		listed, err := cmd("go", "test", "-list", "^Fuzz", pkg).output()
		if err != nil {
			return nil, err
		}
		for _, name := range strings.Fields(listed) {
			if strings.HasPrefix(name, "Fuzz") {
				targets = append(targets, fuzzTarget{pkg, name})
			}
		}
	}
	if len(targets) == 0 {
		return nil, fail("no fuzz test in calc, server or guides", "Every parser has one: see \"Tests\" in DEVELOPERS.md.")
	}
	return targets, nil
}

// atOnce is how many fuzzers run side by side, each with one worker: starting them
// takes half of the time of short ones, and one processor.
var atOnce = runtime.GOMAXPROCS(0)

// fuzzAll runs all of them, each for that long, and returns what each found, in
// their order.
func fuzzAll(targets []fuzzTarget, each time.Duration) []error {
	found := make([]error, len(targets))
	var work sync.WaitGroup
	slots := make(chan struct{}, atOnce)
	for i, t := range targets {
		slots <- struct{}{}
		work.Go(func() {
			found[i] = t.run(each)
			<-slots
		})
	}
	work.Wait()
	return found
}
