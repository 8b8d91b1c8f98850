package command

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"
	"testing"

	"kerfside/calc/problem"
)

// tool is a small program whose actions print what they were given.
var tool = Program{Command: Command{Name: "tool", About: "a program for tests", Verbs: []Command{
	{Name: "copy", About: "copy a file", Words: []Word{{Name: "FILE", What: "the file to copy"}}, Declare: printing("to", "deep")},
	{Name: "say", About: "say words", Words: []Word{{Name: "WORD", What: "a word", Many: true, Optional: true}}, Declare: printing()},
	{Name: "show", About: "show what's in it", Words: []Word{{Name: "PART", What: "a part", Offers: func() []string { return []string{"crumbs", "rind"} }}}, Declare: func(flags *flag.FlagSet) Action {
		flags.String("into", "", "`file` to show it in, of \"it's\" and $HOME")
		return printing()(flags)
	}},
	{Name: "box", About: "about boxes", Verbs: []Command{
		{Name: "open", About: "open one", Declare: printing("key")},
		{Name: "paint", About: "paint one", Words: []Word{{Name: "BOX", What: "the box"}}, Declare: printing("key", "colour")},
	}},
}}}

// printing declares text flags, but "deep", which is a switch.
func printing(names ...string) func(*flag.FlagSet) Action {
	return func(flags *flag.FlagSet) Action {
		for _, name := range names {
			if name == "deep" {
				flags.Bool(name, false, "with all in it")
				continue
			}
			flags.Func(name, "`text` of the "+name, func(text string) error {
				if text == "bad" {
					return problem.New(problem.Range, name, "bad is no "+name, "Take a good one.")
				}
				return nil
			})
		}
		return func(words []string, out io.Writer) error {
			_, err := fmt.Fprintf(out, "%s %q", flags.Name(), words)
			return err
		}
	}
}

func TestRun(t *testing.T) {
	for line, want := range map[string]string{
		"copy a.txt":                     `tool copy ["a.txt"]`,
		"copy a.txt -to b -deep":         `tool copy ["a.txt"]`,
		"copy -deep=false a.txt":         `tool copy ["a.txt"]`,
		"copy -to x -- -a.txt":           `tool copy ["-a.txt"]`,
		"say":                            `tool say []`,
		"say a b":                        `tool say ["a" "b"]`,
		"say a -- -b -c":                 `tool say ["a" "-b" "-c"]`,
		"box open":                       `tool box open []`,
		"box -key k paint red -colour x": `tool box paint ["red"]`,
	} {
		var out bytes.Buffer
		if err := tool.Run(strings.Fields(line), &out); err != nil || out.String() != want {
			t.Errorf("tool %s: %s, %v; want %s", line, out.String(), err, want)
		}
	}
}

// TestHelp: help names all that may follow, wherever it is asked for.
func TestHelp(t *testing.T) {
	for line, want := range map[string]string{
		"":               "tool copy FILE",
		"-h":             "tool box COMMAND",
		"help":           "tool say [WORD…]",
		"box":            "tool box paint BOX",
		"box -h":         "tool box open",
		"box paint -h":   "-colour text",
		"help box paint": "the box",
		"copy --help":    "the file to copy",
		"copy a.txt -h":  "-deep",
		"box -h open":    "tool box paint BOX",
	} {
		var out bytes.Buffer
		if err := tool.Run(strings.Fields(line), &out); err != nil || !strings.Contains(out.String(), want) {
			t.Errorf("tool %s: %q, %v; want %q in it", line, out.String(), err, want)
		}
	}
}

// TestMistakes: what was mistyped is named, and what was meant.
func TestMistakes(t *testing.T) {
	for _, c := range []struct{ line, what, instead string }{
		{line: "cpoy a", what: `tool has no command "cpoy"`, instead: "Do you mean tool copy? tool -h lists all."},
		{line: "fetch", what: `tool has no command "fetch"`, instead: "There are copy, say, show, box; tool -h lists all."},
		{line: "-deep copy", what: `tool has no flag "-deep" of its own`, instead: "The command comes first, like tool copy; tool -h lists them."},
		{line: "copy -depe a", what: "tool copy has no flag -depe", instead: "Do you mean -deep? tool copy -h explains all."},
		{line: "copy -x a", what: "tool copy has no flag -x", instead: "It takes -deep, -to; -h explains them. A word that begins with - goes behind --."},
		{line: "say -x", what: "tool say has no flag -x", instead: "It takes no flags; tool say -h explains it."},
		{line: "copy a -to", what: "tool copy needs something after -to", instead: "-to: text of the to. Write it like this: -to TEXT"},
		{line: "copy -deep=often a", what: `tool copy cannot take "often" for -deep`, instead: "-deep: with all in it. Write it like this: -deep"},
		{line: "copy -to bad a", what: "bad is no to", instead: "Take a good one."},
		{line: "copy", what: "tool copy needs the file to copy", instead: "Write it like this: tool copy FILE"},
		{line: "copy a b", what: `tool copy takes only the file to copy, and does not know what "b" is for`, instead: "Nothing was done. Write it like this: tool copy FILE"},
		{line: "box open x", what: `tool box open does not know what "x" is`, instead: "It takes -key; -h explains them."},
		{line: "box -key k", what: "tool box needs a word that says what to do", instead: "For example tool box open; tool box alone lists all."},
		{line: "box -kay k open", what: "tool box has no flag -kay", instead: "Do you mean -key? tool box -h explains all."},
		{line: "box -colour c open", what: "tool box open has no flag -colour", instead: "It takes -key; -h explains them."},
		{line: "box opne", what: `tool box has no command "opne"`, instead: "Do you mean tool box open? tool box -h lists all."},
	} {
		var out bytes.Buffer
		err := tool.Run(strings.Fields(c.line), &out)
		var m *Mistake
		if p := problem.From(err); !errors.As(err, &m) || p.Msg != c.what || p.Hint != c.instead || out.Len() > 0 {
			t.Errorf("tool %s: %q, %q, printed %q; want %q, %q", c.line, p.Msg, p.Hint, out.String(), c.what, c.instead)
		}
	}
}

func TestNearest(t *testing.T) {
	names := []string{"serve", "restore", "backups", "db", "day-mb"}
	for typed, want := range map[string]string{
		"sreve": "serve", "serv": "serve", "server": "serve", "bd": "db", "back": "backups", "daymb": "day-mb", "restroe": "restore",
		"verbose": "", "x": "", "": "", "erase": "", "dv": "db",
	} {
		if got := nearest(typed, names); got != want {
			t.Errorf("nearest(%q) = %q, want %q", typed, got, want)
		}
	}
}

// TestOneLine: whatever was typed, each half of a complaint is one line.
func TestOneLine(t *testing.T) {
	for _, args := range [][]string{{"copy", "-a\nb", "x"}, {"co\npy"}, {"copy", "x", "y\nz"}, {"copy", "-deep=a\nb", "x"}, {"copy", "--=\x1b[2J"}, {"box", "-k\ney", "open"}} {
		_, err := tool.Read(args)
		if p := problem.From(err); err == nil || strings.ContainsAny(p.Msg+p.Hint, "\n\x1b") {
			t.Errorf("tool %q: %q, %q", args, p.Msg, p.Hint)
		}
	}
}

// TestStatusOf: each kind of trouble has its status, and so does none.
func TestStatusOf(t *testing.T) {
	for want, errs := range map[int][]error{
		Done:   {nil},
		Failed: {io.ErrUnexpectedEOF, problem.New(problem.DiskFull, "", "full", "Look."), problem.New(problem.NotFound, "", "no", "Look.")},
		Usage:  {Mistyped(problem.Unknown, "no", "yes"), fmt.Errorf("a: %w", problem.New(problem.Range, "", "much", "Less."))},
		InUse:  {problem.New(problem.Busy, "", "busy", "Wait.")},
		NotAll: {ErrNotAll, fmt.Errorf("a: %w", ErrNotAll)},
	} {
		for _, err := range errs {
			if got := StatusOf(err); got != want {
				t.Errorf("StatusOf(%v) = %d, want %d", err, got, want)
			}
		}
	}
	for code, s := range Statuses {
		if s.Code != code || s.Means == "" {
			t.Errorf("status %d stands at %d", s.Code, code)
		}
	}
}
