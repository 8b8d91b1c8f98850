//go:build !js

// Counts are told once, not for the sums as WebAssembly again.

package registry

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/source"
	"kerfside/calc/vector"
)

// leastPublished is how many checks against printed values there are at least,
// look-ups and runs of programs not counted. It only ever rises.
const leastPublished = 649

// TestStandings counts the checks of all vectors by what they are worth.
func TestStandings(t *testing.T) {
	sum := map[vector.Standing]int{}
	by := map[string]map[vector.Standing]int{}
	missed := 0
	for name, cases := range load(t) {
		by[name] = map[vector.Standing]int{}
		for _, c := range cases {
			by[name][c.Standing()] += c.Checks()
			sum[c.Standing()] += c.Checks()
			missed += len(c.Miss)
		}
	}
	for _, s := range vector.Standings {
		t.Logf("tally: %d checks %s", sum[s], s)
		delete(sum, s)
		names := slices.DeleteFunc(names(by), func(name string) bool { return by[name][s] == 0 })
		for i, name := range names {
			names[i] = fmt.Sprintf("%s %d", name, by[name][s])
		}
		t.Logf("%s: %s", s, strings.Join(names, ", "))
	}
	t.Logf("tally: %d known misses of printed values", missed)
	if len(sum) > 0 {
		t.Errorf("standings that the list has not: %v", sum)
	}
	published := 0
	for name := range by {
		published += by[name][vector.Published]
	}
	if published < leastPublished {
		t.Errorf("%d published checks, want %d or more: replace one that goes by another", published, leastPublished)
	}
}

func names(by map[string]map[vector.Standing]int) []string {
	var list []string
	for name := range by {
		list = append(list, name)
	}
	slices.Sort(list)
	return list
}

// TestPublishedSources: a reader can find what a published check rests on, and
// the case says where in it.
func TestPublishedSources(t *testing.T) {
	for name, cases := range load(t) {
		for _, c := range cases {
			if c.Standing() != vector.Published {
				continue
			}
			s, _ := source.ForCheck(source.ID(c.From))
			if !s.Named() {
				t.Errorf("%s line %d: source %q has no author or body, no title or no edition, clause or table: name it, or call the case worked", name, c.Line, c.From)
			}
			if c.Where == "" {
				t.Errorf("%s line %d: say after %s what is printed there", name, c.Line, c.From)
			}
		}
	}
}
