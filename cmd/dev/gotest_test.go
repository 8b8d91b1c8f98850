package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Streams as "go test -json" writes them, shortened to the fields that count.
func TestGoTestCounts(t *testing.T) {
	for _, c := range []struct {
		name           string
		stream         string
		passed, failed int
		skipped        int
	}{
		{name: "one test", stream: `
{"Action":"run","Package":"a","Test":"TestX"}
{"Action":"pass","Package":"a","Test":"TestX"}
{"Action":"pass","Package":"a"}`, passed: 1, failed: 0, skipped: 0},
		{name: "a test with subtests counts by them", stream: `
{"Action":"run","Package":"a","Test":"TestX"}
{"Action":"run","Package":"a","Test":"TestX/one"}
{"Action":"run","Package":"a","Test":"TestX/two"}
{"Action":"pass","Package":"a","Test":"TestX/one"}
{"Action":"fail","Package":"a","Test":"TestX/two"}
{"Action":"fail","Package":"a","Test":"TestX"}
{"Action":"fail","Package":"a"}`, passed: 1, failed: 1, skipped: 0},
		{name: "a test that fails after its subtests passed", stream: `
{"Action":"run","Package":"a","Test":"TestX"}
{"Action":"run","Package":"a","Test":"TestX/one"}
{"Action":"pass","Package":"a","Test":"TestX/one"}
{"Action":"fail","Package":"a","Test":"TestX"}
{"Action":"fail","Package":"a"}`, passed: 1, failed: 1, skipped: 0},
		{name: "a package that does not build", stream: `
{"ImportPath":"a","Action":"build-output","Output":"a.go:3: undefined: x\n"}
{"ImportPath":"a","Action":"build-fail"}
{"Action":"fail","Package":"a","FailedBuild":"a"}`, passed: 0, failed: 1, skipped: 0},
		{name: "a package whose tests run out of time", stream: `
{"Action":"run","Package":"a","Test":"TestX"}
{"Action":"output","Package":"a","Output":"panic: test timed out\n"}
{"Action":"fail","Package":"a"}`, passed: 0, failed: 1, skipped: 0},
		{name: "a package without tests", stream: `{"Action":"skip","Package":"a"}`, passed: 0, failed: 0, skipped: 0},
		{name: "a test that did not run is told", stream: `
{"Action":"run","Package":"a","Test":"TestX"}
{"Action":"skip","Package":"a","Test":"TestX"}
{"Action":"pass","Package":"a"}`, passed: 0, failed: 0, skipped: 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			var s score
			if err := newTestRun().read(&s, strings.NewReader(c.stream)); err != nil {
				t.Fatal(err)
			}
			skipped := 0
			for _, line := range s.skipped {
				if strings.Contains(line, "TestX") {
					skipped++
				}
			}
			if s.passed != c.passed || s.failed != c.failed || skipped != c.skipped {
				t.Errorf("counted %d passed, %d failed, %d not run, want %d, %d, %d", s.passed, s.failed, skipped, c.passed, c.failed, c.skipped)
			}
		})
	}
}

// TestRanOutOfTime: a package that fails without a failing test names the tests
// that did not end and prints what they said. The stream is one of Go 1.26,
// shortened.
func TestRanOutOfTime(t *testing.T) {
	var s score
	said := captured(t, func() {
		if err := newTestRun().read(&s, strings.NewReader(`
{"Action":"run","Package":"a","Test":"TestA"}
{"Action":"output","Package":"a","Test":"TestA","Output":"=== RUN   TestA\n"}
{"Action":"pass","Package":"a","Test":"TestA"}
{"Action":"run","Package":"a","Test":"TestSub"}
{"Action":"output","Package":"a","Test":"TestSub","Output":"=== RUN   TestSub\n"}
{"Action":"run","Package":"a","Test":"TestSub/two"}
{"Action":"output","Package":"a","Test":"TestSub/two","Output":"panic: test timed out after 2s\n"}
{"Action":"output","Package":"a","Test":"TestSub/two","Output":"\t/a_test.go:5 +0x4f\n"}
{"Action":"output","Package":"a","Output":"FAIL\ta\t2.006s\n"}
{"Action":"fail","Package":"a"}`)); err != nil {
			t.Fatal(err)
		}
	})
	if s.failed != 1 || s.troubles[0] != "a did not end: TestSub, TestSub/two" {
		t.Errorf("%d failed, with %q in the summary", s.failed, s.troubles)
	}
	if !strings.Contains(said, "timed out after 2s") || !strings.Contains(said, "a_test.go:5") || strings.Contains(said, "TestA") {
		t.Errorf("it says\n%s", said)
	}
}

// captured returns what is printed while do runs.
func captured(t *testing.T, do func()) string {
	t.Helper()
	into, err := os.Create(filepath.Join(t.TempDir(), "printed"))
	if err != nil {
		t.Fatal(err)
	}
	defer into.Close()
	before := os.Stdout
	os.Stdout = into
	defer func() { os.Stdout = before }()
	do()
	said, err := os.ReadFile(into.Name())
	if err != nil {
		t.Fatal(err)
	}
	return string(said)
}

func TestTapCounts(t *testing.T) {
	passed, failed, err := tapCounts("TAP version 13\nok 1 - x\n# tests 4\n# pass 2\n# fail 1\n# cancelled 1\n# skipped 0\n")
	if err != nil || passed != 2 || failed != 2 {
		t.Errorf("tapCounts = %d, %d, %v, want 2, 2, nil", passed, failed, err)
	}
	if _, _, err := tapCounts("Error: cannot find module"); err == nil {
		t.Error("output without totals was counted without an error")
	}
}

func TestModuleFlags(t *testing.T) {
	for version, needed := range map[string]bool{
		"v18.19.0": true, "v20.18.1": true, "v20.19.2": false, "v21.7.0": true, "v22.6.0": true, "v22.12.0": false, "v24.1.0": false,
	} {
		if got := len(moduleFlags(version)) > 0; got != needed {
			t.Errorf("moduleFlags(%s) gives flags: %v, want %v", version, got, needed)
		}
	}
}

func TestRunFlags(t *testing.T) {
	for version, known := range map[string]bool{"v18.20.4": false, "v20.10.0": false, "v20.11.0": true, "v21.1.0": false, "v21.2.0": true, "v22.0.0": true, "v26.0.0\n": true, "": false, "node": false} {
		if got := len(runFlags(version)) > 0; got != known {
			t.Errorf("runFlags(%q) gives flags: %v, want %v", version, got, known)
		}
	}
}

func TestFlagValue(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{nil, "def"},
		{[]string{"-addr", "localhost:1"}, "localhost:1"},
		{[]string{"--addr=localhost:2", "-dev"}, "localhost:2"},
		{[]string{"-db", "addr"}, "def"},
		{[]string{"-dev", "-addr"}, "def"},
	} {
		if got := flagValue(c.args, "addr", "def"); got != c.want {
			t.Errorf("flagValue(%q) = %q, want %q", c.args, got, c.want)
		}
	}
}

func TestReasonOfASkip(t *testing.T) {
	var s score
	stream := `
{"Action":"run","Package":"a","Test":"TestX"}
{"Action":"output","Package":"a","Test":"TestX","Output":"=== RUN   TestX\n"}
{"Action":"output","Package":"a","Test":"TestX","Output":"    x_test.go:39: root may open every file\n"}
{"Action":"output","Package":"a","Test":"TestX","Output":"--- SKIP: TestX (0.00s)\n"}
{"Action":"skip","Package":"a","Test":"TestX"}`
	if err := newTestRun().read(&s, strings.NewReader(stream)); err != nil {
		t.Fatal(err)
	}
	if want := "a TestX: root may open every file"; len(s.skipped) != 1 || s.skipped[0] != want {
		t.Errorf("told %q, want %q", s.skipped, want)
	}
}

func TestTimesOfSteps(t *testing.T) {
	if got := shareOf(200*time.Second, 1000*time.Second); got != "3m20s (20 %)" {
		t.Errorf("told %q", got)
	}
}
