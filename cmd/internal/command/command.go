// Package command holds the words of a command line as data: what there is, what
// each command takes, and how it is explained. Reading a line, help, complaints
// about what was mistyped, the man page and completion are all made from that one
// declaration, and none of them runs a command to know it.
package command

import (
	"flag"
	"io"
	"strings"
)

// Command is one word of a command line, with what may follow it: either Verbs,
// or flags and Words.
type Command struct {
	Name  string // as it is typed, one word
	About string // what it does, to stand after its name: "copy the database"
	More  string // what else is to be known, in sentences; paragraphs are parted by an empty line
	Words []Word // what follows besides flags, in order

	// Declare declares the flags in a set and returns what runs once they are read.
	// It does nothing else, so that help and the like may call it too.
	Declare func(flags *flag.FlagSet) Action

	// Explain, if there is one, prints the help on -h behind words; the command's own
	// help is printed where there is none or no words are there.
	Explain func(words []string, out io.Writer) error

	Examples []Example
	Verbs    []Command
}

// Word is something that may follow a command and is no flag.
type Word struct {
	Name     string          // how usage shows it: "FILE"
	What     string          // what it is, to stand in a sentence: "the file of one backup"
	Optional bool            // it may be left out; those behind it are optional too
	Many     bool            // more of its kind may follow; only for the last
	Offers   func() []string // all that it may be, where that is a short list; nil otherwise
}

// Example is a line as one would type it, with what it does.
type Example struct{ Line, Does string }

// Action runs a command whose flags were read. words are as many as its
// declaration has.
type Action func(words []string, out io.Writer) error

// Program is a command line as a whole; Name is what the program is called.
type Program struct {
	Command
	Settle func(flags *flag.FlagSet) error // looks at flags that many commands have, once they are read; nil for none
}

// place is a command where it stands: behind the words that lead to it.
type place struct {
	*Command
	path  string   // "kerfside crew list"
	flags declared // of a command without verbs
}

// declared are the flags of one command in a set, and what runs once they are
// read.
type declared struct {
	Flags *flag.FlagSet
	Run   Action
}

// declare makes the flags of c anew.
func (c *Command) declare(path string) declared {
	d := declared{Flags: flag.NewFlagSet(path, flag.ContinueOnError)}
	d.Flags.SetOutput(io.Discard) // package flag would add all its help to a word about one flag
	d.Flags.Usage = func() {}
	if c.Declare != nil {
		d.Run = c.Declare(d.Flags)
	}
	return d
}

// Walk calls visit for the program and every command below it, with the words
// that lead there and with its flags.
func (p *Program) Walk(visit func(path string, c *Command, flags *flag.FlagSet)) {
	walk(p.Name, &p.Command, visit)
}

func walk(path string, c *Command, visit func(string, *Command, *flag.FlagSet)) {
	visit(path, c, c.declare(path).Flags)
	for i := range c.Verbs {
		walk(path+" "+c.Verbs[i].Name, &c.Verbs[i], visit)
	}
}

// verb finds a verb by its name; nil if there is none.
func (c *Command) verb(name string) *Command {
	for i := range c.Verbs {
		if c.Verbs[i].Name == name {
			return &c.Verbs[i]
		}
	}
	return nil
}

// verbNames lists the verbs.
func (c *Command) verbNames() []string {
	var names []string
	for _, v := range c.Verbs {
		names = append(names, v.Name)
	}
	return names
}

// form shows how a command is written, behind the words that lead to it.
func (c *Command) form() string {
	if len(c.Verbs) > 0 {
		return "COMMAND"
	}
	var parts []string
	for _, w := range c.Words {
		shown := w.Name
		if w.Many {
			shown += "…"
		}
		if w.Optional {
			shown = "[" + shown + "]"
		}
		parts = append(parts, shown)
	}
	return strings.Join(parts, " ")
}
