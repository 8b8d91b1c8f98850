package main

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// slowTests is how many of the slowest tests are named at the end.
const slowTests = 10

// times are what a run was spent on: whoever adds to it sees what is left of its hour.
type times struct {
	steps, tests []spent
}

type spent struct {
	name string
	time time.Duration
}

func (t *times) step(name string, took time.Duration) {
	t.steps = append(t.steps, spent{name, took})
}

// test notes a test without subtests; seconds are those that it ran for.
func (t *times) test(name string, seconds float64) {
	t.tests = append(t.tests, spent{name, time.Duration(seconds * float64(time.Second))})
}

// print says each step's share of the whole, and which tests took longest. Tests that
// ran side by side have the time of the others in theirs.
func (t *times) print(all time.Duration) {
	if len(t.steps) > 1 {
		var parts []string
		for _, s := range t.steps {
			parts = append(parts, s.name+" "+shareOf(s.time, all))
		}
		say("time: %s", strings.Join(parts, ", "))
	}
	slowest := slices.SortedStableFunc(slices.Values(t.tests), func(a, b spent) int { return int(b.time - a.time) })
	var parts []string
	for _, s := range slowest[:min(slowTests, len(slowest))] {
		if s.time >= time.Second {
			parts = append(parts, s.name+" "+s.time.Round(time.Second).String())
		}
	}
	if len(parts) > 0 {
		say("slowest: %s", strings.Join(parts, ", "))
	}
}

// shareOf tells a time and how much of the whole it is: "3m20s (12 %)".
func shareOf(part, all time.Duration) string {
	return fmt.Sprintf("%v (%.0f %%)", part.Round(time.Second), 100*part.Seconds()/all.Seconds())
}
