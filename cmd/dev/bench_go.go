package main

import (
	"bytes"
	"context"
	"regexp"
	"strconv"
	"strings"
)

// benchLine is a line in which "go test -bench" tells what it measured. The name
// may end in the number of processors.
var benchLine = regexp.MustCompile(`^Benchmark(\S+?)(?:-\d+)?\s+\d+\t(.*)$`)

// goBench runs Go benchmarks, shows what they say and returns their figures by name
// and unit: "ArcTap/1000/ms/tap". Those come back too that were told before one
// failed.
func goBench(ctx context.Context, c command) (map[string]float64, error) {
	var said bytes.Buffer
	err := c.loudUntil(ctx, &said)
	return readBench(said.String()), err
}

func readBench(text string) map[string]float64 {
	found := map[string]float64{}
	for line := range strings.Lines(text) {
		m := benchLine.FindStringSubmatch(strings.TrimSpace(line))
		if m == nil {
			continue
		}
		words := strings.Fields(m[2])
		for i := 0; i+1 < len(words); i += 2 {
			if v, err := strconv.ParseFloat(words[i], 64); err == nil {
				found[m[1]+"/"+words[i+1]] = v
			}
		}
	}
	return found
}
