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
	partCompiler   = part{"compiler", "a C compiler for SQLite", needCompiler}
	partWasm       = part{"wasm", "the calculators for the phone, in " + gen, buildWasm}
	partPack       = part{"pack", "the same as small as brotli makes it", packWasm}
	partBundle     = part{"bundle", "the modules of the phone joined to a few files", bundle}
	partNpm        = part{"npm", "TypeScript, axe-core and psychrolib, in " + checkTools, func() error { return npmInstall(checkTools) }}
	partNode       = part{"node", "Node for the tests of the phone's modules", needNode}
	partOutside    = part{"outside", "programs and libraries of others, to compare the sums with", needOutside}
	partChromium   = part{"chromium", "a browser for the journeys", needChromium}
	partFirefox    = part{"firefox", "a second engine", needFirefox}
	partWebKit     = part{"webkit", "a third engine", needWebKit}
	partLighthouse = part{"lighthouse", "in " + lightTools, func() error { return npmInstall(lightTools) }}
	partRoots      = part{"certutil", "NSS tools, so that the browser can trust a shop's root", func() error { return need("certutil", onPath("certutil"), "libnss3-tools") }}
)

// browserParts are what the tests of the browser need; the long run takes the
// other engines as well.
var browserParts = []part{partCompiler, partWasm, partPack, partBundle, partNpm, partChromium, partRoots}
