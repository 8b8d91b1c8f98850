package main

import "regexp"

// execFile is the toolchain's door between JavaScript and the sums.
const execFile = "gen/wasm_exec.js"

var (
	refusedCall = regexp.MustCompile(`(?m)^\t*\w+\([^)]*\) \{ (?:callback\(enosys\(\)\)|throw enosys\(\)); \},?\n`)
	askedFor    = regexp.MustCompile(`(?m)^\tif \(!globalThis\.\w+\) \{\n\t\tthrow new Error\("[^"]* polyfill required[^"]*"\);\n\t\}\n`)
)

// slimExec takes out of execFile what never runs in a phone's worker: the calls of
// files that only refuse, for calc does no I/O, and the questions whether the browser
// has what the app could not start without. One that is called all the same stops
// the sums with its name.
func slimExec(text string) (string, error) {
	for _, idle := range []*regexp.Regexp{refusedCall, askedFor} {
		if !idle.MatchString(text) {
			return "", fail("pwa/"+execFile+" has another layout than cmd/dev/slim_exec.go knows", "Compare it with the toolchain's lib/wasm/wasm_exec.js.")
		}
		text = idle.ReplaceAllString(text, "")
	}
	return text, nil
}
