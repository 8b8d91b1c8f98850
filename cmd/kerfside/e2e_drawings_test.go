package main

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"maps"
	"strings"
	"testing"

	"kerfside/guides"
	"kerfside/pwa"
)

//go:embed testdata/drawings.js
var drawAll string

// drawnStep is a drawing of a guide's step; drawnSum is a calculation that may have pictures.
type (
	drawnStep struct {
		Where  string         `json:"where"`
		Name   string         `json:"name"`
		Params map[string]any `json:"params"`
	}
	drawnSum struct {
		Where  string          `json:"where"`
		Name   string          `json:"name"`
		Values json.RawMessage `json:"values"`
	}
)

// stepsDrawn are the drawings of all guides, with those that name sizes drawn to readings
// as well: a hole far past its limit, and a torch whose figures are long.
func stepsDrawn(t *testing.T) []drawnStep {
	t.Helper()
	lib, err := guides.Load(guides.Files)
	if err != nil {
		t.Fatal(err)
	}
	var all []drawnStep
	for _, e := range lib.Index() {
		g, err := lib.Guide(e.ID)
		if err != nil {
			t.Fatal(err)
		}
		for _, step := range g.Steps {
			d := step.Drawing
			if d == nil {
				continue
			}
			where := e.ID + "#" + step.ID
			all = append(all, drawnStep{Where: where, Name: d.Name, Params: d.Params})
			read := maps.Clone(d.Params)
			for key, value := range map[string]float64{"new": 1.05, "limit": 1.2075, "dmax": 1.375, "dmin": 1.151, "pit": 1.85, "insert": 2.54, "kerf": 2.35, "cup": 31.75, "gap": 3.175, "length": 152.4} {
				if _, ok := read[key].(float64); ok {
					read[key] = value
				}
			}
			all = append(all, drawnStep{Where: where + " as read", Name: d.Name, Params: read})
		}
	}
	return all
}

// sumsDrawn are the inputs of all vectors.
func sumsDrawn(t *testing.T) []drawnSum {
	t.Helper()
	var all []drawnSum
	for _, c := range vectors(t) {
		if c.Fail == nil {
			all = append(all, drawnSum{Where: c.Name, Name: c.Call, Values: c.Input})
		}
	}
	return all
}

// TestBrowserDrawingsFit draws every picture of the guides, the rating plate and what stands
// beside the answer to each vector, in both systems of units: all words lie within the frame.
func TestBrowserDrawingsFit(t *testing.T) {
	t.Parallel()
	ctx, d := atPages(t, journeyLimit)
	steps, err := json.Marshal(stepsDrawn(t))
	if err != nil {
		t.Fatal(err)
	}
	sums, err := json.Marshal(sumsDrawn(t))
	if err != nil {
		t.Fatal(err)
	}
	script := strings.ReplaceAll(strings.TrimSpace(drawAll), "SOURCE", pwa.SourceFolder)
	var told struct {
		Seen  int
		Found []string
	}
	d.ask(ctx, t, fmt.Sprintf("(%s)(%s, %s)", script[strings.Index(script, "(async"):], steps, sums), &told)
	for _, one := range told.Found {
		t.Error(one)
	}
	if told.Seen < 5000 {
		t.Errorf("%d words looked at, which cannot be all", told.Seen)
	}
}
