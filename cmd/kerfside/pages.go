package main

import (
	"flag"
	"io"
	"strings"

	"kerfside/cmd/internal/command"
)

var completionCommand = command.Command{
	Name: "completion", About: "print what lets a shell complete command lines",
	Words:   []command.Word{{Name: "SHELL", What: "the name of a shell: " + strings.Join(command.Shells(), ", "), Offers: command.Shells}},
	Declare: func(*flag.FlagSet) command.Action { return printCompletion },
	Examples: []command.Example{
		{Line: "kerfside completion bash", Does: "print it for bash"},
	},
}

var manCommand = command.Command{
	Name: "man", About: "print the man page",
	Declare:  func(*flag.FlagSet) command.Action { return printMan },
	Examples: []command.Example{{Line: "kerfside man", Does: "print it, for man -l - or a file kerfside.1"}},
}

// Both go through variables: the declaration of the whole program has them in it.
func init() { whole = &program }

var whole *command.Program

func printCompletion(words []string, out io.Writer) error { return whole.Completion(words[0], out) }

func printMan(_ []string, out io.Writer) error {
	b := thisBuild()
	day, _, _ := strings.Cut(b.Committed, "T")
	return whole.Man(out, command.Manual{Date: day, Version: b.Version, More: []command.Section{
		{Title: "FILES", Text: "DB stands for the file of the database. The flag -db names it; without that it is kerfside.db in the working folder. " +
			"The pictures of the crews lie in DB.photos. The list of what was erased is DB.erased. Certificates of a shop's network lie in DB.lan, those that were fetched in DB.acme. Backups lie in DB.backups unless a flag names another folder."},
		{Title: "SEE ALSO", Text: "A running server has pages for whoever runs it at /help."},
	}})
}
