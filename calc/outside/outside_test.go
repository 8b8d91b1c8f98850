//go:build !js

package outside

import (
	"fmt"
	"runtime"
	"testing"
)

// told takes the place of a test and remembers how it ended.
type told struct {
	testing.TB
	end string
}

func (*told) Helper() {}

func (t *told) Fatalf(format string, args ...any) {
	t.end = "failed: " + fmt.Sprintf(format, args...)
	runtime.Goexit()
}

func (t *told) Skipf(format string, args ...any) {
	t.end = "skipped: " + fmt.Sprintf(format, args...)
	runtime.Goexit()
}

// TestMissing: what is not installed fails where comparing is asked for, and is
// skipped elsewhere; either way the package to install is named.
func TestMissing(t *testing.T) {
	nothing := Tool{Name: "Nothing", Module: "no_such_module_anywhere", Debian: "python3-nothing"}
	const why = ": not compared: Nothing is missing (on Debian: apt-get install python3-nothing; test -long does that)"
	for compare, want := range map[string]string{"1": "failed" + why, "": "skipped" + why} {
		t.Setenv("KERFSIDE_COMPARE", compare)
		ended := make(chan string)
		go func() {
			it := &told{TB: t}
			defer func() { ended <- it.end }()
			Python(it, nothing, "none.py", 1, nil)
		}()
		if got := <-ended; got != want {
			t.Errorf("KERFSIDE_COMPARE=%q: %q, want %q", compare, got, want)
		}
	}
}
