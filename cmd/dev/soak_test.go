package main

import (
	"strings"
	"testing"
)

// TestEndedInTime: that a fuzzer's time was over is no finding, and all else is.
func TestEndedInTime(t *testing.T) {
	const before = "fuzz: elapsed: 30s, execs: 89463 (0/sec), new interesting: 235 (total: 242)\n"
	over := before + "--- FAIL: FuzzConvert (31.03s)\n    context deadline exceeded\nFAIL\nexit status 1\nFAIL\tkerfside/calc/handling\t31.044s\n"
	found := before + "--- FAIL: FuzzReply (12.24s)\n    --- FAIL: FuzzReply (0.00s)\n        fuzz_test.go:91: put 9 past the cursor 0\n    \n    Failing input written to testdata/fuzz/FuzzReply/8bc9\nFAIL\n"
	for said, want := range map[string]bool{
		over: true, found: false, before + "PASS\nok  \tkerfside/calc/handling\t31.0s\n": false, "": false,
		strings.Replace(found, "put 9 past the cursor 0", "context deadline exceeded", 1):                             false,
		strings.Replace(over, "exceeded\n", "exceeded\n    \n    Failing input written to testdata/fuzz/F/8bc9\n", 1): false,
	} {
		if endedInTime(said) != want {
			t.Errorf("%q: %v", said, !want)
		}
	}
}
