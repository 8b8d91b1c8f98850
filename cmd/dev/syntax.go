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

// refuseNewSyntax finds what an old browser cannot read in modules and in a page: there the bundler would
// write something else, which costs bytes and runs nowhere in development. A
// regular expression that it does not know is such a thing too.
func refuseNewSyntax(contents map[string][]byte) error {
	for _, name := range slices.Sorted(maps.Keys(contents)) {
		text, target, engines := string(contents[name]), api.DefaultTarget, oldestEngines()
		if filepath.Ext(name) == ".html" { // what stands in the page speaks to browsers of any age
			_, text, _ = strings.Cut(text, "<script>")
			text, _, _ = strings.Cut(text, "</script>")
			target, engines = api.ES5, nil
		}
		o := api.TransformOptions{Target: api.ESNext, LegalComments: api.LegalCommentsNone}
		asWritten := api.Transform(text, o)
		o.Target, o.Engines = target, engines
		forOldest := api.Transform(text, o)
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
