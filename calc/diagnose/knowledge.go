package diagnose

import (
	"slices"
	"strings"
	"sync"
)

// tables are what a network is built from: all signs, then all checks.
type tables struct {
	keys, labels []string
	leaks        []float64
	frequency    [][]float64 // how often each cause shows each finding, by finding, then by cause
}

// knowledge returns the tables, which are made when they are first asked for.
var knowledge = sync.OnceValue(func() tables {
	var k tables
	for _, s := range Signs {
		k.keys, k.labels, k.leaks = append(k.keys, s.Key), append(k.labels, s.Label), append(k.leaks, s.Leak)
	}
	for _, c := range Checks {
		k.keys, k.labels, k.leaks = append(k.keys, c.Key), append(k.labels, c.Label), append(k.leaks, c.Leak)
	}
	k.frequency = make([][]float64, len(k.keys))
	for f := range k.frequency {
		k.frequency[f] = make([]float64, len(Causes))
	}
	for line := range strings.Lines(frequencies) {
		groups := strings.Split(line, "|")
		c := cause(strings.TrimSpace(groups[0]))
		for _, group := range groups[1:] {
			words := strings.Fields(group)
			for _, key := range words[1:] {
				k.frequency[k.finding(key)][c] = steps[words[0]]
			}
		}
	}
	return k
})

// finding is the place of a sign or check, −1 if there is none of that key.
func (k tables) finding(key string) int { return slices.Index(k.keys, key) }

func signKeys() []string { return knowledge().keys[:len(Signs)] }

func checkKeys() []string { return knowledge().keys[len(Signs):] }

func causeKeys() []string {
	keys := make([]string, len(Causes))
	for i, c := range Causes {
		keys[i] = c.Key
	}
	return keys
}

// isStep reports whether a guide step looks for a cause or makes a check.
func isStep(step string) bool {
	return slices.ContainsFunc(Causes, func(c Cause) bool { return c.shownIn() == step }) ||
		slices.ContainsFunc(Checks, func(c Check) bool { return c.shownIn() == step || slices.Contains(c.Same, step) })
}

// frequency is how often a cause shows a sign, or a check brings it out.
func frequency(finding, ofCause string) float64 {
	know := knowledge()
	return know.frequency[know.finding(finding)][cause(ofCause)]
}

// cause is the place of a cause, −1 if there is none of that key.
func cause(key string) int {
	return slices.IndexFunc(Causes, func(c Cause) bool { return c.Key == key })
}

// build makes the network of what is known.
func build(s Seen) *Net {
	know := knowledge()
	net := &Net{Priors: s.priors(), Leaks: know.leaks}
	for f, row := range know.frequency {
		for c, p := range row {
			if p > 0 {
				net.Links = append(net.Links, Link{Cause: c, Finding: f, P: p})
			}
		}
	}
	return net
}
