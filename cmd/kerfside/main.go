// Command kerfside serves the Kerfside phone app and its journal, and runs the
// calculators from the command line.
//
//	kerfside serve            serve the app on http://localhost:8480
//	kerfside calc             list the calculators
//	kerfside calc NAME -h     say what one takes and tells
//	kerfside calc NAME k=v …  run one; prints JSON
//	kerfside crew             make codes for phones, list and revoke phones
//	kerfside lan              make the certificate for a shop's network, and give it to phones
//	kerfside backup           copy the database and its pictures, and check the copy
//	kerfside restore FILE     put a backup in the place of the database
//	kerfside erase ID         take an entry, or a picture with its entry, out for good
//	kerfside demo             fill an empty store with invented data
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"kerfside/calc/problem"
)

// version is set by the release build with -ldflags "-X main.version=…".
var version = "dev"

// command is one of the words that may follow "kerfside".
type command struct {
	name, about string
	run         func(args []string, out io.Writer) error
}

var commands = []command{
	{name: "serve", about: "serve the phone app and its journal", run: serve},
	{name: "calc", about: "run a calculator; prints JSON", run: calculate},
	{name: "crew", about: "make codes for phones to join with, list and revoke phones", run: crew},
	{name: "lan", about: "make the certificate for a shop's network, and give it to phones", run: shopNetwork},
	{name: "backup", about: "copy the database and its pictures, and check the copy", run: makeBackup},
	{name: "restore", about: "put a backup in the place of the database", run: restore},
	{name: "erase", about: "take an entry, or a picture with its entry, out for good", run: erase},
	{name: "demo", about: "fill an empty store with invented data of Osier Ford Repair", run: demo},
}

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		p := problem.From(err)
		fmt.Fprintln(os.Stderr, "kerfside:", p.Msg)
		if p.Hint != "" {
			fmt.Fprintln(os.Stderr, p.Hint)
		}
		if cause := p.Unwrap(); cause != nil {
			fmt.Fprintln(os.Stderr, "cause:", cause)
		}
		os.Exit(2)
	}
}

func run(args []string, out io.Writer) error {
	if len(args) == 0 || args[0] == "help" || isHelp(args[0]) {
		usage(out)
		return nil
	}
	for _, c := range commands {
		if c.name != args[0] {
			continue
		}
		if err := c.run(args[1:], out); !errors.Is(err, flag.ErrHelp) {
			return err
		}
		return nil // it was given
	}
	usage(out)
	return problem.Newf(problem.Unknown, "", "there is no command %q", args[0]).WithHint("The commands are listed above.")
}

func usage(out io.Writer) {
	fmt.Fprintf(out, "kerfside %s\n\n", version)
	for _, c := range commands {
		fmt.Fprintf(out, "  kerfside %-8s %s\n", c.name, c.about)
	}
	fmt.Fprintln(out, "\nEach takes -h.")
}
