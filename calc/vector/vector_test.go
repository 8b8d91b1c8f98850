package vector

import (
	"strings"
	"testing"
)

// TestStanding: what a from line makes of a case.
func TestStanding(t *testing.T) {
	for from, want := range map[string]Standing{
		"sp811 4.233 333 E-04":             Published,
		"lookup usc15-206 the law's inch":  LookUp,
		"run gnu-units wiregauge":          Run,
		"worked 2 × 3":                     Worked,
		"law":                              Law,
		"refusal":                          Refusal,
		"common-practice half of it":       CommonPractice,
		"from-memory 8 h":                  Memory,
		"lookup aws-f2-2 below 20 A: 4":    Memory,
		"kerfside-judgement the tip first": Judgement,
	} {
		cases, err := Parse("case a\nfrom " + from + "\nin convert {}\nwant number 1 exact\nwant number 2 exact\nwant word is b\n")
		if err != nil {
			t.Errorf("from %s: %v", from, err)
			continue
		}
		if got := cases[0].Standing(); got != want {
			t.Errorf("from %s is %s, want %s", from, got, want)
		}
		if got := cases[0].Checks(); got != 2 {
			t.Errorf("from %s: %d checks, want its 2 numbers", from, got)
		}
	}
}

// TestMissIsNoCheck: what is known to be missed is not counted as held.
func TestMissIsNoCheck(t *testing.T) {
	cases, err := Parse("case a\nfrom sp811 1\nin convert {}\nmiss number 1 ×1.5 by 2\n")
	if err != nil {
		t.Fatal(err)
	}
	if got := cases[0].Checks(); got != 0 {
		t.Errorf("%d checks, want none", got)
	}
}

// TestUnknownFrom: a from line that names nothing is refused, and so is a mark
// before what is no source.
func TestUnknownFrom(t *testing.T) {
	for _, from := range []string{"nobody", "lookup", "lookup worked 2 × 3", "run nobody"} {
		if _, err := Parse("case a\nfrom " + from + "\nin convert {}\nsays caution b\n"); err == nil || !strings.Contains(err.Error(), "line 2") {
			t.Errorf("from %s: error %v, want one for line 2", from, err)
		}
	}
}
