package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
)

// testEvent is one line of "go test -json" (go doc test2json), with what the
// build adds to it.
type testEvent struct {
	Action      string
	Package     string
	Test        string
	Elapsed     float64 // seconds
	Output      string
	ImportPath  string
	FailedBuild string
}

// testRun gathers the events of one "go test -json". A check is a test without
// subtests; a test that failed although all its subtests passed counts as one
// more, and so does a package that failed without a failing test.
type testRun struct {
	output  map[string][]string // by package and test, until it is known whether it passed
	parents map[string]bool     // tests that have subtests
	guilty  map[string]bool     // tests and packages with a failure already counted below them
	builds  map[string][]string // what the compiler said, by import path
	passes  map[string]int      // by package
}

func newTestRun() *testRun {
	return &testRun{output: map[string][]string{}, parents: map[string]bool{}, guilty: map[string]bool{}, builds: map[string][]string{}, passes: map[string]int{}}
}

// goTest runs "go test -json" and adds its tests to the score.
func goTest(s *score, c command) {
	reader, writer := io.Pipe()
	var said bytes.Buffer
	run := newTestRun()
	finished := make(chan error, 1)
	go func() {
		err := c.start(writer, &said).Run()
		writer.Close()
		finished <- err
	}()
	failedBefore := s.failed
	if err := run.read(s, reader); err != nil {
		s.miss(fmt.Sprintf("%s: %v", c, err), "")
	}
	// Everything has been counted by now, unless the command itself was wrong.
	if err := <-finished; err != nil && s.failed == failedBefore {
		s.miss(fmt.Sprintf("%s: %v\n%s", c, err, indent(said.String())), "Read what it said above.")
	}
}

// read handles events until the stream ends.
func (r *testRun) read(s *score, stream io.Reader) error {
	lines := bufio.NewReader(stream)
	for {
		line, err := lines.ReadBytes('\n')
		if len(bytes.TrimSpace(line)) > 0 {
			var e testEvent
			if json.Unmarshal(line, &e) == nil {
				r.handle(s, e)
			} else {
				say("%s", strings.TrimRight(string(line), "\n"))
			}
		}
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

// handle counts or remembers one event.
func (r *testRun) handle(s *score, e testEvent) {
	key := e.Package + " " + e.Test
	switch e.Action {
	case "build-output":
		r.builds[e.ImportPath] = append(r.builds[e.ImportPath], e.Output)
	case "output":
		r.output[key] = append(r.output[key], e.Output)
		s.tallies.read(e.Output)
	case "run":
		for name := parent(e.Test); name != ""; name = parent(name) {
			r.parents[e.Package+" "+name] = true
		}
	case "pass", "fail", "skip":
		if e.Test == "" {
			r.endPackage(s, e)
		} else {
			r.endTest(s, e, key)
		}
	}
}

// endTest counts one test that has ended.
func (r *testRun) endTest(s *score, e testEvent, key string) {
	switch {
	case e.Action == "skip":
		s.skipped = append(s.skipped, key+": "+reason(r.output[key]))
	case e.Action == "pass" && !r.parents[key]:
		s.pass(1)
		r.passes[e.Package]++
		s.times.test(e.Test, e.Elapsed)
	case e.Action == "fail" && !r.guilty[key]:
		s.miss(key+"\n"+indent(strings.Join(r.output[key], "")), "Again alone: go test "+e.Package+" -run '"+pattern(e.Test)+"'")
	}
	if e.Action == "fail" {
		r.blame(e.Package, e.Test)
	}
	delete(r.output, key)
}

// loggedLine is a line that a test prints by t.Log or t.Skip.
var loggedLine = regexp.MustCompile(`^ +[\w-]+\.go:\d+: (.*)`)

// reason is what a test said before it was skipped, in one line.
func reason(output []string) string {
	var words []string
	for _, line := range output {
		if m := loggedLine.FindStringSubmatch(line); m != nil {
			words = append(words, m[1])
		}
	}
	return strings.Join(words, "; ")
}

// endPackage prints a package that has ended and counts a failure that no
// test owns: it did not build, panicked, or ran out of time.
func (r *testRun) endPackage(s *score, e testEvent) {
	key := e.Package + " "
	switch {
	case e.Action == "fail" && !r.guilty[key]:
		open, last := r.unended(e.Package)
		text := strings.Join(r.builds[e.FailedBuild], "") + last + strings.Join(r.output[key], "")
		s.miss(key+open+"\n"+indent(text), "Again alone: go test "+e.Package)
	case e.Action == "pass" && r.passes[e.Package] > 0:
		say("%-36s %5d passed  %.1f s", e.Package, r.passes[e.Package], e.Elapsed)
	}
	delete(r.output, key)
}

// unended returns a line with the names of a package's tests that began and did
// not end, and what they said: whatever ran out of time or panicked is among them.
func (r *testRun) unended(pkg string) (names, said string) {
	var open []string
	for key := range r.output {
		if name, ok := strings.CutPrefix(key, pkg+" "); ok && name != "" {
			open = append(open, name)
		}
	}
	slices.Sort(open)
	for _, name := range open {
		said += strings.Join(r.output[pkg+" "+name], "")
		delete(r.output, pkg+" "+name)
	}
	if len(open) > 0 {
		names = "did not end: " + strings.Join(open, ", ")
	}
	return names, said
}

// blame marks everything above a failed test as failed for a known reason.
func (r *testRun) blame(pkg, test string) {
	for name := parent(test); name != ""; name = parent(name) {
		r.guilty[pkg+" "+name] = true
	}
	r.guilty[pkg+" "] = true
}

// parent returns the name of the test that a subtest belongs to, or "".
func parent(test string) string {
	if i := strings.LastIndex(test, "/"); i >= 0 {
		return test[:i]
	}
	return ""
}

// pattern returns what -run takes to select exactly that test.
func pattern(test string) string {
	return "^" + strings.ReplaceAll(test, "/", "$/^") + "$"
}
