package main

import (
	"encoding/json"
	"strings"
	"testing"

	"kerfside/calc/journal/engine"
	"kerfside/calc/journal/event"
)

// The percentile is a value that was measured: the smallest that so many do not
// exceed (nearest rank).
func TestPercentile(t *testing.T) {
	ten := []float64{70, 10, 100, 20, 90, 30, 80, 40, 60, 50}
	for _, c := range []struct {
		list []float64
		p    int
		want float64
	}{{list: ten, p: 50, want: 50}, {list: ten, p: 95, want: 100}, {list: ten, p: 90, want: 90}, {list: ten, p: 91, want: 100}, {list: ten, p: 100, want: 100}, {list: ten[:1], p: 50, want: 70}, {list: []float64{3, 1, 2}, p: 50, want: 2}} {
		if got := percentile(c.list, c.p); got != c.want {
			t.Errorf("%d percent of %v do not exceed %v, want %v", c.p, c.list, got, c.want)
		}
	}
	if ten[0] != 70 {
		t.Error("the list was sorted in place")
	}
}

// What the cold start fills a phone with is what the phone could have entered: each
// line decodes, no id comes twice over all portions, and the head counts them.
func TestExportOf(t *testing.T) {
	seen := map[string]bool{}
	for _, first := range []int{0, 3} {
		lines := strings.Split(strings.TrimSpace(exportOf("rig-1", "phone-1", first, 3)), "\n")
		var head engine.ExportHead
		if err := json.Unmarshal([]byte(lines[0]), &head); err != nil || head.Count != len(lines)-1 || head.Count != 3*jobEntries {
			t.Fatalf("the head is %+v (%v) above %d lines", head, err, len(lines)-1)
		}
		for _, line := range lines[1:] {
			e, err := event.Decode([]byte(line))
			if err != nil || seen[e.ID] || e.Device != "phone-1" {
				t.Fatalf("%s: seen %v, %v", line, seen[e.ID], err)
			}
			seen[e.ID] = true
		}
	}
}
