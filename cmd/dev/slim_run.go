package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"

	"kerfside/cmd/internal/process"
)

// slimRun is the word after which this program makes a linked wasm slim and runs it
// under Node: go test -exec has it do so with each program of tests.
const slimRun = "slim-run"

// namesStay has go test leave the names of functions to programs that it throws away.
const namesStay = "-ldflags=-s=false"

// slimTest is go test for the phone: its programs are built and made slim as calc.wasm
// is. They keep their functions' names, so that a trace says which one is reached that
// was emptied, and whence.
func slimTest(words ...string) (command, error) {
	us, err := os.Executable()
	if err != nil {
		return command{}, err
	}
	root, err := cmd("go", "env", "GOROOT").output()
	if err != nil {
		return command{}, err
	}
	run := fmt.Sprintf("'%s' %s '%s'", us, slimRun, nodeLoader(root))
	all := append([]string{"test", "-count=1", namesStay, "-exec", run}, wasmInlining...)
	return cmd("go", append(all, words...)...).with("GOOS=js", "GOARCH=wasm"), nil
}

// nodeLoader is the toolchain's own program that runs a wasm test under Node.
func nodeLoader(goroot string) string {
	return filepath.Join(strings.TrimSpace(goroot), "lib", "wasm", "go_js_wasm_exec")
}

// runSlim runs a program of tests, made slim, in the folder that it is called in, and
// says what it ended with. The first argument is the loader, the second the program,
// and the others are the program's own. There is no GODEBUG in a browser.
func runSlim(args []string, stdout, stderr io.Writer) (code int, err error) {
	if len(args) < 2 {
		return 2, fail(slimRun+" takes a loader and a wasm", "Leave it to go test -exec.")
	}
	dir, err := os.MkdirTemp("", "kerfside-slim-")
	if err != nil {
		return 2, err
	}
	defer os.RemoveAll(dir)
	path := filepath.Join(dir, filepath.Base(args[1]))
	if err := slimFile(args[1], path); err != nil {
		return 2, err
	}
	var said bytes.Buffer
	node := cmd(args[0], append([]string{path}, args[2:]...)...).with("GODEBUG=").start(stdout, io.MultiWriter(stderr, &said))
	process.EndWithUs(node)
	err = node.Run()
	var ended *exec.ExitError
	if errors.As(err, &ended) {
		if name := reachedIdle(said.String()); name != "" {
			fmt.Fprintf(stderr, "\n%s is emptied in calc.wasm, and is reached: take it out of idleParts in cmd/dev/slim_idle.go.\n", name)
		}
		return ended.ExitCode(), nil
	}
	return 0, err
}

var (
	endedAt  = regexp.MustCompile(`RuntimeError: unreachable\n\s+at (\S+)`)
	notNamed = regexp.MustCompile(`[^\w.]`) // what the linker writes as _ in a name
)

// reachedIdle reads a trace for the idle function that ended the program; "" if it
// ended otherwise. The runtime too ends it where it has nowhere to go on.
func reachedIdle(trace string) string {
	m := endedAt.FindStringSubmatch(trace)
	if m == nil {
		return ""
	}
	for _, part := range idleParts {
		if strings.HasPrefix(m[1], notNamed.ReplaceAllString(part, "_")) {
			return m[1]
		}
	}
	return ""
}
