package main

import (
	"flag"
	"fmt"
	"slices"
	"strings"
	"time"

	cli "kerfside/cmd/internal/command"
)

// score counts checks and remembers what failed. A check is one test without
// subtests, one formatted tree, one budget.
type score struct {
	passed, failed int
	troubles       []string // what failed, one short line each
	skipped        []string // tests that did not run, which is never silent
	tallies        tallies
	times          times
}

// pass counts n checks that held.
func (s *score) pass(n int) { s.passed += n }

// miss counts one check that failed and prints it with what to do.
func (s *score) miss(what, do string) {
	s.failed++
	first, _, _ := strings.Cut(what, "\n")
	s.troubles = append(s.troubles, first)
	say("FAILED %s", what)
	if do != "" {
		say("       %s", do)
	}
}

// check counts one check by its error.
func (s *score) check(name string, err error) {
	if err != nil {
		s.miss(name+": "+err.Error(), "")
		return
	}
	s.pass(1)
}

// step is one independent part of the test task.
type step struct {
	name string
	line string
	long bool // only with -long
	run  func(s *score, long bool)
}

// test runs every check. A step that fails does not stop the next; the last
// line always reads "N passed, N failed".
func test(args []string) error {
	flags := flag.NewFlagSet("test", flag.ContinueOnError)
	long := flags.Bool("long", false, "big sizes, race detector, wasm under Node")
	only := flags.String("only", "", "run only these steps, separated by commas: "+stepNames())
	if err := readFlags(flags, args); err != nil {
		return err
	}
	chosen, err := chooseSteps(*only, *long)
	if err != nil {
		return err
	}
	began := time.Now()
	var total score
	heading("set-up")
	parts := append([]part{partNode}, browserParts...)
	if *long {
		parts = append(parts, partOutside, partReaders, partFirefox, partWebKit, partPages)
	}
	for _, p := range parts {
		if err := p.do(); err != nil {
			total.miss("set-up "+err.Error(), "The steps that need it will fail; the others run.")
		}
	}
	for _, st := range chosen {
		heading("%s: %s", st.name, st.line)
		at, before := time.Now(), total.passed
		st.run(&total, *long)
		say("%d passed (%s)", total.passed-before, took(at))
		total.times.step(st.name, time.Since(at))
	}
	return total.end(time.Since(began))
}

// end prints the summary and its last line, and returns an error if anything
// failed. The error has no text of its own so that the count stays last.
func (s *score) end(all time.Duration) error {
	heading("summary (%s)", all.Round(time.Second))
	for _, t := range s.skipped {
		say("not run: %s", t)
	}
	for _, t := range s.troubles {
		say("failed: %s", t)
	}
	if text := s.tallies.String(); text != "" {
		say("%s", text)
	}
	s.times.print(all)
	fmt.Printf("%d passed, %d failed\n", s.passed, s.failed)
	if s.failed > 0 {
		return errCounted
	}
	return nil
}

// chooseSteps returns the steps that run, in order.
func chooseSteps(only string, long bool) ([]step, error) {
	var chosen []step
	if only == "" {
		for _, st := range steps {
			if long || !st.long {
				chosen = append(chosen, st)
			}
		}
		return chosen, nil
	}
	for _, name := range strings.Split(only, ",") {
		i := slices.IndexFunc(steps, func(st step) bool { return st.name == name })
		if i < 0 {
			return nil, cli.NoSuch("step", name, strings.Split(stepNames(), ", "), "go run ./cmd/dev test -h")
		}
		chosen = append(chosen, steps[i])
	}
	return chosen, nil
}

// stepNames lists the steps for a hint.
func stepNames() string {
	var names []string
	for _, st := range steps {
		names = append(names, st.name)
	}
	return strings.Join(names, ", ")
}
