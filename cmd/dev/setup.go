package main

import (
	"fmt"
	"time"
)

// part is one piece of set-up or of checking.
type part struct {
	name string
	line string
	run  func() error
}

// setUp runs the parts in turn and stops at the first that fails.
func setUp(parts ...part) error {
	heading("set-up")
	for _, p := range parts {
		if err := p.do(); err != nil {
			return err
		}
	}
	return nil
}

// do runs the part and says so.
func (p part) do() error {
	began := time.Now()
	if err := p.run(); err != nil {
		return fmt.Errorf("%s: %w", p.name, err)
	}
	say("%-10s %s (%s)", p.name, p.line, took(began))
	return nil
}

// took returns the time since began, short enough to read.
func took(began time.Time) string {
	return time.Since(began).Round(100 * time.Millisecond).String()
}

// The parts of set-up that tasks pick from.
var (
	partCompiler   = part{name: "compiler", line: "a C compiler for SQLite", run: needCompiler}
	partWasm       = part{name: "wasm", line: "the calculators for the phone, in " + gen, run: buildWasm}
	partPack       = part{name: "pack", line: "the same as small as brotli makes it", run: packWasm}
	partBundle     = part{name: "bundle", line: "the modules of the phone joined to a few files", run: bundle}
	partNpm        = part{name: "npm", line: "TypeScript, axe-core and psychrolib, in " + checkTools, run: func() error { return npmInstall(checkTools) }}
	partNode       = part{name: "node", line: "Node for the tests of the phone's modules", run: needNode}
	partOutside    = part{name: "outside", line: "programs and libraries of others, to compare the sums with", run: needOutside}
	partChromium   = part{name: "chromium", line: "a browser for the journeys", run: needChromium}
	partFirefox    = part{name: "firefox", line: "a second engine", run: needFirefox}
	partWebKit     = part{name: "webkit", line: "a third engine", run: needWebKit}
	partPages      = part{name: "pages", line: "nginx, Caddy and what else the pages of /help run", run: needPages}
	partReaders    = part{name: "readers", line: "shells and readers of man pages", run: needReaders}
	partLighthouse = part{name: "lighthouse", line: "in " + lightTools, run: func() error { return npmInstall(lightTools) }}
	partRoots      = part{name: "certutil", line: "NSS tools, so that the browser can trust a shop's root", run: func() error { return need("certutil", onPath("certutil"), "libnss3-tools") }}
)

// browserParts are what the tests of the browser need; the long run takes the
// other engines as well.
var browserParts = []part{partCompiler, partWasm, partPack, partBundle, partNpm, partChromium, partRoots}
