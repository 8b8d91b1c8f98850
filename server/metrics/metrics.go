// Package metrics counts what a server does and tells it in the text format of
// Prometheus, version 0.0.4: https://prometheus.io/docs/instrumenting/exposition_formats/.
//
// A label has few values, all of them ours: a route, a status, a reason. Names, ids,
// tokens and entries never stand in one.
package metrics

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// Set is what is told together. Its methods may be called from any goroutine.
type Set struct {
	mu       sync.Mutex
	families []*family // in the order in which they were made
}

// family is all that has one name.
type family struct {
	name, help, kind string
	labels           []string
	counts           map[string]int64 // by the text of its labels
	read             func() (value float64, ok bool)
}

// Counter only ever grows.
type Counter struct {
	set *Set
	f   *family
}

// Counter adds one with these labels. Its name ends with _total.
func (s *Set) Counter(name, help string, labels ...string) *Counter {
	c := &Counter{set: s, f: &family{name: name, help: help, kind: "counter", labels: labels, counts: map[string]int64{}}}
	if len(labels) == 0 {
		c.f.counts[""] = 0
	}
	s.add(c.f)
	return c
}

// Add counts n more with these values of its labels. A nil Counter counts nothing.
func (c *Counter) Add(n int64, values ...string) {
	if c == nil || n == 0 {
		return
	}
	if len(values) != len(c.f.labels) {
		panic(fmt.Sprintf("%s has the labels %v and is given %v", c.f.name, c.f.labels, values))
	}
	key := c.f.text(values)
	c.set.mu.Lock()
	defer c.set.mu.Unlock()
	c.f.counts[key] += n
}

// text writes labels as they stand in braces.
func (f *family) text(values []string) string {
	var pairs []string
	for i, v := range values {
		pairs = append(pairs, f.labels[i]+`="`+strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`).Replace(v)+`"`)
	}
	if pairs == nil {
		return ""
	}
	return "{" + strings.Join(pairs, ",") + "}"
}

// Gauge adds a value that is read when it is asked for; where it cannot be, ok is
// false and it is left out.
func (s *Set) Gauge(name, help string, read func() (value float64, ok bool)) {
	s.add(&family{name: name, help: help, kind: "gauge", read: read})
}

// Grows adds a counter that somebody else keeps.
func (s *Set) Grows(name, help string, read func() (value float64, ok bool)) {
	s.add(&family{name: name, help: help, kind: "counter", read: read})
}

func (s *Set) add(f *family) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.families = append(s.families, f)
}

// Text is all of it as Prometheus reads it.
func (s *Set) Text() []byte {
	s.mu.Lock()
	families := slices.Clone(s.families)
	s.mu.Unlock()
	var out bytes.Buffer
	for _, f := range families {
		lines := s.lines(f)
		if len(lines) == 0 {
			continue
		}
		fmt.Fprintf(&out, "# HELP %s %s\n# TYPE %s %s\n", f.name, strings.NewReplacer(`\`, `\\`, "\n", `\n`).Replace(f.help), f.name, f.kind)
		for _, line := range lines {
			out.WriteString(line)
		}
	}
	return out.Bytes()
}

// lines are the values of a family. What is read may take a while, and is read
// without the lock.
func (s *Set) lines(f *family) (lines []string) {
	if f.read != nil {
		if v, ok := f.read(); ok {
			lines = append(lines, f.name+" "+strconv.FormatFloat(v, 'g', -1, 64)+"\n")
		}
		return lines
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, key := range slices.Sorted(maps.Keys(f.counts)) {
		lines = append(lines, fmt.Sprintf("%s%s %d\n", f.name, key, f.counts[key]))
	}
	return lines
}

// Type is the media type of Text.
const Type = "text/plain; version=0.0.4; charset=utf-8"
