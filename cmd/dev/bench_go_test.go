package main

import (
	"maps"
	"testing"
)

// The lines are what Go 1.26 prints.
func TestReadBench(t *testing.T) {
	got := readBench("goos: linux\n" +
		"BenchmarkBrowserTap/6x-2         \t       1\t6012345678 ns/op\t        41.50 p95-ms\n" +
		"BenchmarkArcTap/100000           \t      38\t   4105000 ns/op\t         2.052 ms/tap\t       0 B/op\n" +
		"    tap_test.go:9: BenchmarkArcTap/1000 1 2 ns/op\n" +
		"PASS\nok  \tkerfside/cmd/kerfside\t12.1s\n")
	want := map[string]float64{
		"BrowserTap/6x/ns/op": 6012345678, "BrowserTap/6x/p95-ms": 41.5,
		"ArcTap/100000/ns/op": 4105000, "ArcTap/100000/ms/tap": 2.052, "ArcTap/100000/B/op": 0,
	}
	if !maps.Equal(got, want) {
		t.Errorf("read %v, want %v", got, want)
	}
}
