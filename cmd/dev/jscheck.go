package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"time"
)

// checkTypes has TypeScript read the JSDoc of the phone's modules. There are
// two worlds with different globals: pages, and workers.
func checkTypes(s *score, _ bool) {
	tsc := npmTool(checkTools, "typescript", "bin", "tsc")
	for _, config := range []string{"tsconfig.json", "tsconfig.worker.json"} {
		s.check("types "+config, cmd("node", tsc, "--noEmit", "--project", filepath.Join(checkTools, config)).quiet())
	}
}

// nodeTests is where the unit tests of the phone's modules stand.
const nodeTests = "testdata/js"

// checkNode runs the unit tests of the phone's modules.
func checkNode(s *score, _ bool) {
	var files []string
	err := walkFiles(nodeTests, func(path string) error {
		if strings.HasSuffix(path, ".test.js") || strings.HasSuffix(path, ".test.mjs") {
			files = append(files, path)
		}
		return nil
	})
	if err == nil && len(files) == 0 {
		err = fmt.Errorf("no *.test.js in %s", nodeTests)
	}
	if err != nil {
		s.check("js", err)
		return
	}
	version, err := cmd("node", "--version").output()
	if err != nil {
		s.check("js", err)
		return
	}
	words := append(append(moduleFlags(version), "--test", "--test-reporter=tap"), runFlags(version)...)
	out, runErr := cmd("node", append(words, files...)...).output()
	passed, failed, err := tapCounts(out)
	if err != nil {
		s.check("js", fmt.Errorf("%w; %v", err, runErr))
		return
	}
	s.pass(passed)
	for i := 0; i < failed; i++ {
		s.failed++
	}
	if failed > 0 {
		s.troubles = append(s.troubles, fmt.Sprintf("js: %d tests of the phone's modules", failed))
		os.Stdout.WriteString(indent(tapFailures(out)) + "\n")
		say("Again alone: node %s", strings.Join(append(append(moduleFlags(version), "--test"), files...), " "))
	} else if runErr != nil {
		s.check("js", runErr)
	}
}

// moduleFlags returns what an older Node needs to take a .js file without a
// package.json for an ES module. From 20.19 and 22.7 on it sees that itself.
func moduleFlags(version string) []string {
	major, minor, known := nodeVersion(version)
	if known && (major < 20 || major == 20 && minor < 19 || major == 21 || major == 22 && minor < 7) {
		return []string{"--experimental-default-type=module"}
	}
	return nil
}

// runFlags has Node end a file of tests that waits for ever, and name it, and take
// every processor: of two it would leave one idle.
// Older ones, before 20.11 and 21.2, cannot.
func runFlags(version string) []string {
	major, minor, known := nodeVersion(version)
	if !known || major < 20 || major == 20 && minor < 11 || major == 21 && minor < 2 {
		return nil
	}
	return []string{fmt.Sprintf("--test-timeout=%d", (10 * time.Minute).Milliseconds()), fmt.Sprintf("--test-concurrency=%d", runtime.NumCPU())}
}

// nodeVersion reads what node --version prints, "v20.19.1".
func nodeVersion(version string) (major, minor int, known bool) {
	_, err := fmt.Sscanf(version, "v%d.%d.", &major, &minor)
	return major, minor, err == nil
}

var tapCount = regexp.MustCompile(`(?m)^# (pass|fail|cancelled) (\d+)$`)

// tapCounts reads the totals that Node prints at the end of its TAP output.
func tapCounts(out string) (passed, failed int, err error) {
	found := tapCount.FindAllStringSubmatch(out, -1)
	if len(found) < 3 {
		return 0, 0, fmt.Errorf("node --test printed no totals")
	}
	for _, m := range found {
		n, err := strconv.Atoi(m[2])
		if err != nil {
			return 0, 0, err
		}
		if m[1] == "pass" {
			passed += n
		} else {
			failed += n
		}
	}
	return passed, failed, nil
}

var (
	tapNotOK = regexp.MustCompile(`^\s*not ok `)
	tapOK    = regexp.MustCompile(`^\s*(ok |# Subtest)`)
)

// tapFailures returns the failed tests of a TAP stream with what they said.
func tapFailures(out string) string {
	var kept []string
	keeping := false
	for _, line := range strings.Split(out, "\n") {
		switch {
		case tapNotOK.MatchString(line):
			keeping = true
		case tapOK.MatchString(line):
			keeping = false
		}
		if keeping {
			kept = append(kept, line)
		}
	}
	return strings.Join(kept, "\n")
}
