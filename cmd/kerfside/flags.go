package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"regexp"
	"strings"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// readFlags reads the flags of a command before, between and after its words. A
// database that is named by a link is the file that the link leads to. Asked for
// help, it prints that and returns flag.ErrHelp.
func readFlags(flags *flag.FlagSet, args []string, out io.Writer) (words []string, err error) {
	help := flags.Usage
	if help == nil {
		help = func() {
			fmt.Fprintf(out, "%s takes:\n", flags.Name())
			flags.PrintDefaults()
		}
	}
	flags.Usage = func() {}
	flags.SetOutput(io.Discard) // package flag would add all its help to a word about one flag
	defer func() {
		flags.SetOutput(out)
		flags.Usage = help
		if errors.Is(err, flag.ErrHelp) {
			help()
		}
	}()
	for {
		if err := flags.Parse(args); err != nil {
			return nil, flagTrouble(flags, err)
		}
		if flags.NArg() == 0 {
			break
		}
		words, args = append(words, flags.Arg(0)), flags.Args()[1:]
	}
	if db := flags.Lookup("db"); db != nil {
		if name := db.Value.String(); name == "" || name == ":memory:" || strings.HasPrefix(name, "file:") {
			return nil, problem.Newf(problem.Malformed, "db", "%q is no name of a file", name).WithHint("Write the name alone, like -db kerfside.db.")
		}
		path, err := store.RealPath(db.Value.String())
		if err != nil {
			return nil, err
		}
		return words, db.Value.Set(path)
	}
	return words, nil
}

// readOnlyFlags is readFlags for a command that takes no words.
func readOnlyFlags(flags *flag.FlagSet, args []string, out io.Writer) error {
	words, err := readFlags(flags, args, out)
	if err == nil && len(words) > 0 {
		return problem.Newf(problem.Unknown, "", "%s does not know what %q is", flags.Name(), words[0]).WithHint("%s", takes(flags))
	}
	return err
}

// oneWord returns the only word of a command that takes one. what names it, and
// form shows how the command goes.
func oneWord(flags *flag.FlagSet, words []string, what, form string) (string, error) {
	switch len(words) {
	case 0:
		return "", problem.Newf(problem.Missing, "", "%s needs %s", flags.Name(), what).WithHint("Write it like this: %s", form)
	case 1:
		return words[0], nil
	}
	return "", problem.Newf(problem.Unknown, "", "%s takes only %s, and does not know what %q is for", flags.Name(), what, words[1]).
		WithHint("Nothing was done. Write it like this: %s", form)
}

// flagTrouble says which flag was wrong and which there are.
func flagTrouble(flags *flag.FlagSet, err error) error {
	if errors.Is(err, flag.ErrHelp) {
		return err
	}
	for _, said := range flagSayings {
		m := said.says.FindStringSubmatch(err.Error())
		if m == nil {
			continue
		}
		words := make([]any, len(m)-1)
		for i, word := range m[1:] {
			words[i] = word
		}
		p := problem.Newf(said.kind, "", flags.Name()+" "+said.plain, words...)
		if known := flags.Lookup(strings.TrimLeft(m[len(m)-1], "-")); known != nil {
			_, usage := flag.UnquoteUsage(known)
			return p.WithHint("-%s: %s. Write it like this: %s", known.Name, usage, example(known))
		}
		return p.WithHint("%s", takes(flags))
	}
	return problem.Newf(problem.Malformed, "", "%s: %v", flags.Name(), err).WithHint("%s", takes(flags))
}

// flagSayings puts what package flag says into plain words; the last word of each
// is the flag, if it names one.
var flagSayings = []struct {
	says  *regexp.Regexp
	kind  problem.Kind
	plain string
}{
	{says: regexp.MustCompile(`^flag provided but not defined: (.*)$`), kind: problem.Unknown, plain: "has no flag %s"},
	{says: regexp.MustCompile(`^flag needs an argument: (.*)$`), kind: problem.Missing, plain: "needs something after %s"},
	{says: regexp.MustCompile(`(?s)^invalid (?:boolean )?value (".*") for (?:flag )?(-[a-z-]+): (?:parse error|value out of range)$`), kind: problem.Malformed, plain: "cannot take %s for %s"},
	{says: regexp.MustCompile(`(?s)^bad flag syntax: (.*)$`), kind: problem.Malformed, plain: "cannot read %s"},
}

// example shows a flag with a value that it takes.
func example(f *flag.Flag) string {
	if alone, ok := f.Value.(interface{ IsBoolFlag() bool }); ok && alone.IsBoolFlag() {
		return "-" + f.Name
	}
	value := f.DefValue
	if value == "" {
		name, _ := flag.UnquoteUsage(f)
		value = strings.ToUpper(name)
	}
	return "-" + f.Name + " " + value
}

// takes names the flags that there are.
func takes(flags *flag.FlagSet) string {
	var names []string
	flags.VisitAll(func(f *flag.Flag) { names = append(names, "-"+f.Name) })
	return "It takes " + strings.Join(names, ", ") + "; -h explains them."
}
