package main

import (
	"errors"
	"strings"
	"testing"
)

// Each budget gets a line, whatever became of its figure, and only a run in which
// all of them are held is a good one.
func TestVerdicts(t *testing.T) {
	list := []budget{
		{part: "a", name: "low", line: "a wait", limit: 20, unit: inMilliseconds},
		{part: "a", name: "high", line: "a rate", limit: 100, least: true, unit: aSecond},
		{part: "a", name: "dream", line: "a wish", limit: 1, unit: inMilliseconds, aim: true},
		{part: "b", name: "none", line: "a part that broke", limit: 1, unit: asRatio},
		{part: "b", name: "own", line: "a figure that cannot be had", limit: 1, unit: asRatio},
		{part: "c", name: "mute", line: "a part that said nothing", limit: 1, unit: asRatio},
	}
	for _, c := range []struct {
		name      string
		low, high float64
		list      []budget
		want      []string
		bad       string
	}{
		{name: "at the limit", low: 20, high: 100, list: list[:3], want: []string{
			"a wait  20 ms     ≤ 20 ms       held",
			"a rate  100/s     ≥ 100/s       held",
			"a wish  3 ms      ≤ 1 ms (aim)  missed",
		}},
		{name: "beyond it", low: 20.2, high: 99, list: list[:2], want: []string{
			"a wait  20.2 ms   ≤ 20 ms  missed",
			"a rate  99/s      ≥ 100/s  missed",
		}, bad: "2 are missed and 0 were not"},
		{name: "not measured", low: 1, high: 200, list: list, want: []string{
			"a part that broke            ≤ 1.00 ×      not measured: it fell over",
			"a figure that cannot be had            ≤ 1.00 ×      not measured: no such thing here",
			"a part that said nothing               ≤ 1.00 ×      not measured: the part did not tell it",
		}, bad: "of 6 budgets 0 are missed and 3 were not measured"},
	} {
		r := newResults()
		r.of("a").found("low", c.low)
		r.of("a").found("high", c.high)
		r.of("a").found("dream", 3)
		r.of("a").found("extra", 1)
		r.of("b").missing("", errors.New("it fell\n\tover"))
		r.of("b").missing("own", errors.New("no such thing here"))
		var out strings.Builder
		err := r.print(&out, c.list)
		if (err == nil) != (c.bad == "") || err != nil && !strings.Contains(err.Error(), c.bad) {
			t.Errorf("%s: the error is %v, want one with %q", c.name, err, c.bad)
		}
		lines := strings.Split(strings.TrimSpace(out.String()), "\n")
		if len(lines) != len(c.list)+1 {
			t.Errorf("%s: the table has %d lines for %d budgets:\n%s", c.name, len(lines)-1, len(c.list), &out)
		}
		for _, want := range c.want {
			if !hasLine(lines, want) {
				t.Errorf("%s: no line reads %q:\n%s", c.name, want, &out)
			}
		}
	}
}

// hasLine says whether a line reads so, however wide its columns are.
func hasLine(lines []string, want string) bool {
	for _, line := range lines {
		if strings.Join(strings.Fields(line), " ") == strings.Join(strings.Fields(want), " ") {
			return true
		}
	}
	return false
}

// No two budgets are told apart by nothing, each is of a part that runs, and what
// the check of sizes lets through is never stricter than the target.
func TestBudgets(t *testing.T) {
	parts := map[string]bool{}
	for _, p := range benchParts {
		parts[p.name] = true
	}
	seen := map[string]bool{}
	for _, b := range budgets {
		key := b.part + "/" + b.name
		if seen[key] || !parts[b.part] || b.line == "" || b.unit == nil {
			t.Errorf("budget %s: seen before %v, part runs %v, says %q", key, seen[key], parts[b.part], b.line)
		}
		seen[key] = true
	}
}
