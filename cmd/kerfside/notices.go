package main

import (
	"embed"
	"flag"
	"fmt"
	"io"

	"kerfside/cmd/internal/command"
)

// noticeFiles are the licences of what is linked in: linked.txt is made by the task
// notices of cmd/dev, libc.txt is kept by hand.
//
//go:embed notices/*.txt
var noticeFiles embed.FS

var noticesCommand = command.Command{
	Name: "notices", About: "print the licences of all that is in this program",
	Declare:  func(*flag.FlagSet) command.Action { return printNotices },
	Examples: []command.Example{{Line: "kerfside notices", Does: "print them"}},
}

// ofKerfside stands before the licences of others.
const ofKerfside = `Kerfside
No licence has been chosen for Kerfside itself.

What follows is in the program, or in what it sends to phones.
The licence of each stands with it.

`

func printNotices(_ []string, out io.Writer) error {
	fmt.Fprint(out, ofKerfside)
	for _, name := range []string{"linked.txt", "libc.txt"} {
		text, err := noticeFiles.ReadFile("notices/" + name)
		if err != nil {
			return err
		}
		if _, err := out.Write(text); err != nil {
			return err
		}
	}
	return nil
}
