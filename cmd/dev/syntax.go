package main

import (
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"github.com/evanw/esbuild/pkg/api"

	"kerfside/pwa"
)

// oldestEngines are the oldest browsers as the bundler knows them.
func oldestEngines() []api.Engine {
	oldest := pwa.Oldest()
	return []api.Engine{
		{Name: api.EngineChrome, Version: oldest.Chrome},
		{Name: api.EngineFirefox, Version: oldest.Firefox},
		{Name: api.EngineSafari, Version: oldest.Safari},
		{Name: api.EngineIOS, Version: oldest.Safari},
	}
}

// refuseNewSyntax finds what an old browser cannot read: there the bundler would
// write something else, which costs bytes and runs nowhere in development. A
// regular expression that it does not know is such a thing too.
func refuseNewSyntax(contents map[string][]byte) error {
	for _, name := range slices.Sorted(maps.Keys(contents)) {
		if filepath.Ext(name) != ".js" {
			continue
		}
		o := api.TransformOptions{Target: api.ESNext, Format: api.FormatESModule, LegalComments: api.LegalCommentsNone}
		asWritten := api.Transform(string(contents[name]), o)
		o.Target, o.Engines = api.DefaultTarget, oldestEngines()
		forOldest := api.Transform(string(contents[name]), o)
		if troubles := append(forOldest.Errors, forOldest.Warnings...); len(troubles) > 0 {
			return fail(fmt.Sprintf("pwa/%s:%d: %s", name, troubles[0].Location.Line, troubles[0].Text), "Write it as the browsers of pwa/browsers.json read it.")
		}
		if line, is := firstDifference(string(asWritten.Code), string(forOldest.Code)); is {
			return fail(fmt.Sprintf("pwa/%s: a browser of pwa/browsers.json cannot read: %s", name, line), "Write it in older words.")
		}
	}
	return nil
}

// firstDifference returns the first line of a text that another has nowhere.
func firstDifference(text, other string) (string, bool) {
	if text == other {
		return "", false
	}
	others := strings.Split(other, "\n")
	for line := range strings.SplitSeq(text, "\n") {
		if !slices.Contains(others, line) {
			return strings.TrimSpace(line), true
		}
	}
	return "something in it", true
}
