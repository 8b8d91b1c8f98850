package unit

import "testing"

func TestCount(t *testing.T) {
	for _, c := range []struct {
		n    any
		want string
	}{{0, "0 entries"}, {1, "1 entry"}, {int64(1), "1 entry"}, {"1", "1 entry"}, {2, "2 entries"}, {11, "11 entries"}, {21, "21 entries"}} {
		if got := Count(c.n, "entry", "entries"); got != c.want {
			t.Errorf("%v: %q, want %q", c.n, got, c.want)
		}
	}
}
