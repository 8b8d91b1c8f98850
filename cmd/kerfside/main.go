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
//	kerfside version          say what this program was built from
//	kerfside notices          print the licences of all that is in this program
//	kerfside completion SHELL print what lets a shell complete command lines
//	kerfside man              print the man page
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"kerfside/calc/problem"
	"kerfside/cmd/internal/command"
	"kerfside/server/store"
)

// program is the whole command line; each command is declared in the file that
// runs it.
var program = command.Program{
	Command: command.Command{
		Name:  "kerfside",
		About: "a phone app for mobile repair welders, with its server",
		More:  "It serves the app to phones, which work without signal, and keeps the journal of their crews. It runs the app's calculators on the command line too.\n\nFlags may stand before, between and behind words. What stands behind -- is a word, whatever it begins with.",
		Verbs: []command.Command{
			serveCommand, calcCommand, crewCommand, lanCommand, backupCommand, restoreCommand, eraseCommand, demoCommand,
			versionCommand, noticesCommand, completionCommand, manCommand,
		},
	},
	Settle: settleDB,
}

func main() {
	args := os.Args[1:]
	if len(args) == 1 && (args[0] == "-version" || args[0] == "--version") {
		args = []string{versionCommand.Name}
	}
	if err := program.Run(args, os.Stdout); err != nil {
		os.Exit(complain(os.Stderr, err))
	}
}

// complain tells what went wrong and what to do, unless that was told already, and
// returns the exit status.
func complain(to io.Writer, err error) int {
	status := command.StatusOf(err)
	if status == command.NotAll {
		return status
	}
	p := problem.From(err)
	fmt.Fprintln(to, "kerfside:", p.Msg)
	if p.Hint != "" {
		fmt.Fprintln(to, p.Hint)
	}
	if cause := p.Unwrap(); cause != nil {
		fmt.Fprintln(to, "cause:", cause)
	}
	return status
}

// settleDB makes -db the file that a link leads to, and refuses what is no file.
func settleDB(flags *flag.FlagSet) error {
	db := flags.Lookup("db")
	if db == nil {
		return nil
	}
	name := db.Value.String()
	if name == "" || name == ":memory:" || strings.HasPrefix(name, "file:") {
		return problem.Newf(problem.Malformed, "db", "%q is no name of a file", name).WithHint("Write the name alone, like -db kerfside.db.")
	}
	path, err := store.RealPath(name)
	if err != nil {
		return err
	}
	return db.Value.Set(path)
}

// dbFlag declares the flag that names the database.
func dbFlag(flags *flag.FlagSet, to *string, more string) {
	flags.StringVar(to, "db", "kerfside.db", "`file` of the database"+more)
}
