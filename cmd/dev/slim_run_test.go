package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// slimTests are tests of which the first runs slim as it is linked, and the second
// needs what calc.wasm does without.
const slimTests = `package slim

import (
	"os"
	"runtime/metrics"
	"testing"
)

func TestGood(t *testing.T) {
	if here, err := os.Getwd(); err != nil || os.Getenv("GODEBUG") != "" {
		t.Fatal(here, err)
	}
}

func TestMetrics(t *testing.T) {
	metrics.Read([]metrics.Sample{{Name: "/gc/cycles/total:gc-cycles"}})
}

func TestBad(t *testing.T) { t.Fatal("as it should") }
`

// A program of tests runs slim, and says which emptied function it reaches.
func TestRunSlim(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"slim_test.go": slimTests, "go.mod": "module slim\n\ngo 1.24\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	root, err := cmd("go", "env", "GOROOT").output()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "slim.wasm")
	if err := cmd("go", "test", "-c", namesStay, "-o", path, ".").in(dir).with("GOOS=js", "GOARCH=wasm", "GOFLAGS=").quiet(); err != nil {
		t.Fatal(err)
	}
	t.Setenv("GODEBUG", "tracebackancestors=3")
	const reached = "runtime.initMetrics is emptied"
	for _, c := range []struct {
		test string
		good bool
		says string
	}{{test: "TestGood", good: true, says: "PASS"}, {test: "TestBad", says: "as it should"}, {test: "TestMetrics", says: reached}} {
		var out, trouble bytes.Buffer // written at the same time
		code, err := runSlim([]string{nodeLoader(root), path, "-test.run", c.test}, &out, &trouble)
		if err != nil {
			t.Fatal(err)
		}
		text := out.String() + trouble.String()
		if (code == 0) != c.good || !strings.Contains(text, c.says) || strings.Contains(text, reached) != (c.says == reached) {
			t.Errorf("%s ended with %d and said:\n%s", c.test, code, text)
		}
	}
}

func TestReachedIdle(t *testing.T) {
	const where = " (wasm://wasm/01634aaa:wasm-function[2174]:0x187e43)\n    at main.main"
	for trace, want := range map[string]string{
		"RuntimeError: unreachable\n    at runtime.__profBuf_.read" + where:                 "runtime.__profBuf_.read",
		"RuntimeError: unreachable\n    at crypto_internal_fips140_aes.newOutlined" + where: "crypto_internal_fips140_aes.newOutlined",
		"RuntimeError: unreachable\n    at runtime.abort" + where:                           "",
		"RuntimeError: memory access out of bounds\n    at runtime.initMetrics" + where:     "",
		"exit status 1": "",
	} {
		if got := reachedIdle(trace); got != want {
			t.Errorf("reachedIdle(%q) = %q", trace, got)
		}
	}
}
