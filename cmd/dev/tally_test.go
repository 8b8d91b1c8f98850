package main

import (
	"strings"
	"testing"
)

func TestTallies(t *testing.T) {
	var s score
	stream := `
{"Action":"run","Package":"a","Test":"TestX"}
{"Action":"output","Package":"a","Test":"TestX","Output":"    x_test.go:9: tally: 1200 events acknowledged\n"}
{"Action":"output","Package":"a","Test":"TestX","Output":"    x_test.go:9: tally: 0 events lost\n"}
{"Action":"output","Package":"a","Test":"TestX","Output":"    x_test.go:9: a tally: that is none\n"}
{"Action":"output","Package":"a","Test":"TestX","Output":"    x_test.go:9: tally: 126 comparisons with GNU Units\n"}
{"Action":"pass","Package":"a","Test":"TestX"}
{"Action":"output","Package":"b","Test":"TestY","Output":"    y_test.go:9: tally: 1000034 events acknowledged\n"}
{"Action":"fail","Package":"b","Test":"TestY"}`
	captured(t, func() { // or whoever reads this test's output would count it too
		if err := newTestRun().read(&s, strings.NewReader(stream)); err != nil {
			t.Fatal(err)
		}
	})
	if got, want := s.tallies.String(), "1,001,234 events acknowledged; 0 events lost; 126 comparisons with GNU Units"; got != want {
		t.Errorf("tallies = %q, want %q", got, want)
	}
}
