package journaltest

import (
	"cmp"
	"flag"
	"os"
	"runtime"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// Laws checks a law on generated journals. The seed is 1, or what KERFSIDE_SEED
// says; one that fails is printed.
func Laws(t *testing.T, law func(*rapid.T)) {
	seed := cmp.Or(os.Getenv("KERFSIDE_SEED"), "1")
	for name, value := range map[string]string{"rapid.checks": strconv.Itoa(Cases()), "rapid.seed": seed, "rapid.nofailfile": "true"} {
		if err := flag.Set(name, value); err != nil {
			t.Fatal(err)
		}
	}
	defer func() {
		if t.Failed() {
			t.Logf("KERFSIDE_SEED=%s", seed)
			return
		}
		t.Logf("tally: %d journals drawn", Cases())
	}()
	rapid.Check(t, law)
}

// Cases is how many cases a property test runs.
func Cases() int {
	switch {
	case os.Getenv("KERFSIDE_SOAK") != "":
		return 10_000
	case os.Getenv("KERFSIDE_LONG") != "":
		return 5_000
	case testing.Short():
		return 50
	case runtime.GOOS == "js":
		return 300 // ten times slower there
	}
	return 2_000
}
