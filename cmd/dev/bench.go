package main

import (
	"flag"
	"fmt"
	"slices"
)

// benchParts are the kinds of measurement. Figures are only comparable within
// one run on one machine. What has a target is held to it.
var benchParts = []part{
	{"go", "Go benchmarks of the calculators, the journal and the server", func() error {
		return cmd("go", "test", "-run", "^$", "-bench", ".", "-benchmem", "./calc/...", "./server/...", "./guides/...").loud()
	}},
	{"wasm", "the same calculators compiled for the phone, under Node", func() error {
		root, err := cmd("go", "env", "GOROOT").output()
		if err != nil {
			return err
		}
		return cmd("go", "test", "-run", "^$", "-bench", "Calculate|Think", "-benchtime", "200ms", "-exec", nodeLoader(root), "./calc/registry", "./calc/diagnose").with("GOOS=js", "GOARCH=wasm").loud()
	}},
	{"browser", "timings of the real app in a real browser", func() error {
		if err := setUp(partCompiler, partWasm, partPack, partBundle, partChromium); err != nil {
			return err
		}
		return cmd("go", "test", "-count=1", "-run", "^$", "-bench", "^BenchmarkBrowser", "-benchtime", "1x", "-timeout", "30m", "./cmd/kerfside").loud()
	}},
	{"sync", "how much the journal takes in and hands out, beside a general-purpose server, and how it stands a kill", benchSync},
	{"lighthouse", "Lighthouse against the app it finds at its own server", lighthouse},
}

// bench runs one part or all of them.
func bench(args []string) error {
	flags := flag.NewFlagSet("bench", flag.ContinueOnError)
	only := flags.String("only", "", "go, wasm, browser, sync or lighthouse")
	if err := flags.Parse(args); err != nil {
		return err
	}
	if *only != "" && !slices.ContainsFunc(benchParts, func(p part) bool { return p.name == *only }) {
		return fail("there is nothing to measure named "+*only, "Take go, wasm, browser, sync or lighthouse.")
	}
	for _, p := range benchParts {
		if *only != "" && p.name != *only {
			continue
		}
		heading("%s: %s", p.name, p.line)
		if err := p.run(); err != nil {
			return fmt.Errorf("%s: %w", p.name, err)
		}
	}
	return nil
}
