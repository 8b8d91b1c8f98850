package main

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Tests that try something many times say how often, in lines that t.Log writes:
//
//	tally: 3000 histories simulated
//
// The task adds up what stands under one name and prints it at its end.
var tallyLine = regexp.MustCompile(`(?:^|\s)tally: ([0-9]+) ([A-Za-z][A-Za-z −-]*[A-Za-z])\s*$`)

// tallies are figures in the order in which they first came.
type tallies struct {
	names []string
	sums  map[string]int64
}

// read takes up a line of a test's output.
func (t *tallies) read(line string) {
	m := tallyLine.FindStringSubmatch(line)
	if m == nil {
		return
	}
	n, err := strconv.ParseInt(m[1], 10, 64)
	if err != nil {
		return
	}
	if t.sums == nil {
		t.sums = map[string]int64{}
	}
	if !slices.Contains(t.names, m[2]) {
		t.names = append(t.names, m[2])
	}
	t.sums[m[2]] += n
}

// String lists the figures: "3,000 histories simulated; 0 events lost".
func (t *tallies) String() string {
	var parts []string
	for _, name := range t.names {
		parts = append(parts, grouped(t.sums[name])+" "+name)
	}
	return strings.Join(parts, "; ")
}

// grouped writes n, which is not negative, with a comma before each three digits.
func grouped(n int64) string {
	text := strconv.FormatInt(n, 10)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}
