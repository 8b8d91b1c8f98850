package command

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"

	"kerfside/calc/problem"
)

// readFlags reads flags before, between and after the words. Behind -- there are
// words only. Asked for help, it returns the words so far and flag.ErrHelp.
func readFlags(at place, args []string) (words []string, err error) {
	flags := at.flags.Flags
	own := noteTroubles(flags)
	for {
		if err := flags.Parse(args); err != nil {
			var p *problem.Error
			if errors.As(*own, &p) {
				return nil, &Mistake{p}
			}
			return words, flagTrouble(at, err)
		}
		if read := len(args) - flags.NArg(); read > 0 && args[read-1] == "--" {
			return append(words, flags.Args()...), nil
		}
		if flags.NArg() == 0 {
			return words, nil
		}
		words, args = append(words, flags.Arg(0)), flags.Args()[1:]
	}
}

// ReadFlags reads args by a set that stands for itself, and refuses words. path is
// what was typed before them. Asked for help, it prints that to out and returns
// flag.ErrHelp.
func ReadFlags(path string, flags *flag.FlagSet, args []string, out io.Writer) error {
	quiet := (&Command{}).declare(path).Flags
	flags.VisitAll(func(f *flag.Flag) { quiet.Var(f.Value, f.Name, f.Usage) })
	at := place{Command: &Command{}, path: path, flags: declared{Flags: quiet}}
	words, err := readFlags(at, args)
	if err == nil {
		return at.checkWords(words)
	}
	if errors.Is(err, flag.ErrHelp) {
		fmt.Fprintf(out, "%s takes:\n", path)
		flags.SetOutput(out)
		flags.PrintDefaults()
	}
	return err
}

// noteTroubles keeps what a flag itself says of its value, which package flag
// turns into text.
func noteTroubles(flags *flag.FlagSet) *error {
	var last error
	flags.VisitAll(func(f *flag.Flag) { f.Value = noting{f.Value, &last} })
	return &last
}

type noting struct {
	flag.Value
	last *error
}

func (n noting) Set(text string) error {
	*n.last = n.Value.Set(text)
	return *n.last
}

func (n noting) IsBoolFlag() bool { return standsAlone(n.Value) }

// standsAlone reports whether a flag needs no value behind it.
func standsAlone(v flag.Value) bool {
	alone, ok := v.(interface{ IsBoolFlag() bool })
	return ok && alone.IsBoolFlag()
}

// flagTrouble says which flag was wrong and which was meant.
func flagTrouble(at place, err error) error {
	if errors.Is(err, flag.ErrHelp) {
		return err
	}
	for _, said := range flagSayings {
		m := said.says.FindStringSubmatch(err.Error())
		if m == nil {
			continue
		}
		what := at.path + " " + said.plain
		for _, word := range m[1:] {
			what = strings.Replace(what, "%s", onOneLine(word), 1)
		}
		name := strings.TrimLeft(m[len(m)-1], "-")
		if known := at.flags.Flags.Lookup(name); known != nil {
			_, usage := flag.UnquoteUsage(bare(known))
			return mistake(said.kind, what, "-%s: %s. Write it like this: %s", known.Name, usage, example(known))
		}
		if near := nearest(name, at.flagNames()); near != "" {
			return mistake(said.kind, what, "Do you mean -%s? %s -h explains all.", near, at.path)
		}
		return mistake(said.kind, what, "%s", takes(at))
	}
	return mistake(problem.Malformed, at.path+": "+strings.Join(strings.Fields(err.Error()), " "), "%s", takes(at))
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
	{says: regexp.MustCompile(`(?s)^invalid (?:boolean )?value (".*") for (?:flag )?(-[a-z0-9-]+): (?:parse error|value out of range)$`), kind: problem.Malformed, plain: "cannot take %s for %s"},
	{says: regexp.MustCompile(`(?s)^bad flag syntax: (.*)$`), kind: problem.Malformed, plain: "cannot read %s"},
}

// onOneLine quotes what would not show as it is.
func onOneLine(word string) string {
	if strings.ContainsFunc(word, func(r rune) bool { return !strconv.IsPrint(r) }) {
		return quote(word)
	}
	return word
}

// example shows a flag with a value that it takes.
func example(f *flag.Flag) string {
	if standsAlone(f.Value) {
		return "-" + f.Name
	}
	value := f.DefValue
	if value == "" {
		value = valueName(f)
	}
	return "-" + f.Name + " " + value
}

// valueName is how the value of a flag is shown: "FILE". It is "" for one that
// stands alone.
func valueName(f *flag.Flag) string {
	if standsAlone(f.Value) {
		return ""
	}
	name, _ := flag.UnquoteUsage(bare(f))
	if name == "int" {
		name = "number"
	}
	return strings.ToUpper(name)
}

// bare returns f as it was declared.
func bare(f *flag.Flag) *flag.Flag {
	n, ok := f.Value.(noting)
	if !ok {
		return f
	}
	declared := *f
	declared.Value = n.Value
	return &declared
}

func (at place) flagNames() []string {
	var names []string
	at.flags.Flags.VisitAll(func(f *flag.Flag) { names = append(names, f.Name) })
	return names
}

func (at place) hasFlags() bool { return len(at.flagNames()) > 0 }

// takes names the flags that there are.
func takes(at place) string {
	if !at.hasFlags() {
		return "It takes no flags; " + at.path + " -h explains it."
	}
	hint := "It takes -" + strings.Join(at.flagNames(), ", -") + "; -h explains them."
	if len(at.Words) > 0 {
		hint += " A word that begins with - goes behind --."
	}
	return hint
}
