// Command dev is the project's task runner. Without a task it prints the list:
//
//	go run ./cmd/dev
//
// Every task sets up what it needs by itself (the wasm, the npm tools that
// check the phone app, Chromium) and says in plain words what it does, what
// failed and what to do about it. The tasks are small Go programs so that they
// work the same on every machine that has Go.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"kerfside/calc/problem"
	cli "kerfside/cmd/internal/command"
)

// task is one thing that a developer can ask for. Its arguments are whatever
// stood after its name.
type task struct {
	name string
	args string // how its arguments are written, for the list
	line string // what it does, in one line
	run  func(args []string) error
}

// tasks is the list in the order in which it is printed. It is filled in init
// because some tasks print it.
var tasks []task

func init() {
	tasks = []task{
		{name: "serve", args: "[FLAGS]", line: "build everything and run it on http://localhost:8480; flags go to kerfside serve", run: serve},
		{name: "test", args: "[-long] [-only STEP,…]", line: "run every check; -long adds the big sizes, the race detector, the fuzzers and wasm under Node", run: test},
		{name: "build", args: "[-o FILE]", line: "build the one binary for this machine into dist/", run: build},
		{name: "release", args: "[-twice] [-only MACHINE,…]", line: "build the last commit for every machine into dist/, packed, with sums; -twice compares two builds", run: makeRelease},
		{name: "bench", args: "[-only PART]", line: "measure sizes, sums, cold start, taps, sync and Lighthouse, and end in the table of budgets", run: bench},
		{name: "shots", args: "[-o FOLDER]", line: "take a picture of every screen in both looks and three sizes into shots/", run: shots},
		{name: "soak", args: "[-for 10m]", line: "run fuzzers, kills of the browser and tests with growing seeds for that long", run: soak},
		{name: "faults", line: "print what the fault finder knows, sign by sign, cause by cause and check by check", run: faults},
		{name: "types", line: "write anew what pwa/types tells of the types in Go, and the version of the fold", run: writeTypes},
		{name: "notices", line: "write anew the licences of what is linked in, which kerfside notices prints", run: writeNotices},
		{name: "new", args: "PACKAGE NAME", line: "start a calculator: its Go file, its vectors and its place in the list", run: scaffold},
	}
}

func main() {
	if len(os.Args) > 1 && os.Args[1] == slimRun {
		code, err := runSlim(os.Args[2:], os.Stdout, os.Stderr)
		if err != nil {
			fmt.Fprintln(os.Stderr, "dev: "+err.Error())
		}
		os.Exit(code)
	}
	os.Exit(complain(os.Stderr, dispatch(os.Args[1:], os.Stdout)))
}

// errCounted is the failure of a task that has said all there is to say, and
// errMistyped that of a program which it ran on the words that were typed.
var (
	errCounted  = errors.New("failed, as counted above")
	errMistyped = errors.New("mistyped, as said above")
)

// complain says what went wrong and returns the exit status.
func complain(to io.Writer, err error) int {
	var mistake *cli.Mistake
	switch {
	case err == nil, errors.Is(err, flag.ErrHelp):
		return cli.Done
	case errors.Is(err, errMistyped):
		return cli.Usage
	case errors.As(err, &mistake):
		p := problem.From(err)
		fmt.Fprintf(to, "dev: %s\n%s\n", p.Msg, p.Hint)
		return cli.Usage
	case !errors.Is(err, errCounted):
		fmt.Fprintln(to, "\ndev: "+err.Error())
	}
	return cli.Failed
}

// dispatch runs the task named by the first argument, from the top of the
// module wherever it was called from.
func dispatch(args []string, out io.Writer) error {
	if len(args) == 0 || args[0] == "-h" || args[0] == "--help" || args[0] == "help" {
		list(out)
		return nil
	}
	for _, t := range tasks {
		if t.name != args[0] {
			continue
		}
		if err := enterRoot(); err != nil {
			return err
		}
		if t.args == "" {
			if err := readFlags(flag.NewFlagSet(t.name, flag.ContinueOnError), args[1:]); err != nil {
				return err
			}
		}
		return t.run(args[1:])
	}
	var names []string
	for _, t := range tasks {
		names = append(names, t.name)
	}
	return cli.NoSuch("task", args[0], names, typed)
}

// typed is what one types before a task.
const typed = "go run ./cmd/dev"

// readFlags reads the flags of a task, which takes no words besides.
func readFlags(flags *flag.FlagSet, args []string) error {
	return cli.ReadFlags(typed+" "+flags.Name(), flags, args, os.Stdout)
}

// list prints every task with its one line.
func list(out io.Writer) {
	fmt.Fprint(out, typed+" TASK\n\n")
	for _, t := range tasks {
		fmt.Fprintf(out, "  %-28s %s\n", strings.TrimSpace(t.name+" "+t.args), t.line)
	}
}
