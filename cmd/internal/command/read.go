package command

import (
	"errors"
	"flag"
	"io"
	"strings"

	"kerfside/calc/problem"
)

// Run does what args ask for. What was mistyped is told as a Mistake, and nothing
// was done.
func (p *Program) Run(args []string, out io.Writer) error {
	act, err := p.Read(args)
	if err != nil {
		return err
	}
	return act(out)
}

// Read returns what args ask for, without doing it.
func (p *Program) Read(args []string) (act func(out io.Writer) error, err error) {
	at := place{Command: &p.Command, path: p.Name}
	if len(args) > 0 && args[0] == "help" {
		args = append(args[1:len(args):len(args)], "-h")
	}
	for len(at.Verbs) > 0 {
		i, err := at.findVerb(args, at.Command == &p.Command)
		if errors.Is(err, flag.ErrHelp) || err == nil && i < 0 && len(args) == 0 {
			return at.help, nil
		}
		if err != nil {
			return nil, err
		}
		if i < 0 {
			return nil, mistake(problem.Missing, at.path+" needs a word that says what to do", "For example %s %s; %s alone lists all.", at.path, at.Verbs[0].Name, at.path)
		}
		v := at.verb(args[i])
		if v == nil {
			return nil, at.noVerb(args[i])
		}
		at = place{Command: v, path: at.path + " " + v.Name}
		args = append(args[:i:i], args[i+1:]...)
	}
	return p.readCommand(at, args)
}

// readCommand reads what stands behind a command without verbs.
func (p *Program) readCommand(at place, args []string) (func(out io.Writer) error, error) {
	at.flags = at.declare(at.path)
	words, err := readFlags(at, args)
	switch {
	case errors.Is(err, flag.ErrHelp) && at.Explain != nil && len(words) > 0:
		return func(out io.Writer) error { return at.Explain(words, out) }, nil
	case errors.Is(err, flag.ErrHelp):
		return at.help, nil
	case err != nil:
		return nil, err
	}
	if err := at.checkWords(words); err != nil {
		return nil, err
	}
	if p.Settle != nil {
		if err := p.Settle(at.flags.Flags); err != nil {
			return nil, err
		}
	}
	return func(out io.Writer) error { return at.flags.Run(words, out) }, nil
}

// findVerb tells where in args the verb is, -1 if there is none. Flags of the
// verbs may stand before it, but for the program's own, which come last.
func (at place) findVerb(args []string, first bool) (int, error) {
	if len(args) == 0 {
		return -1, nil
	}
	if first && strings.HasPrefix(args[0], "-") {
		if isHelp(args[0]) {
			return 0, flag.ErrHelp
		}
		return 0, mistake(problem.Unknown, at.path+" has no flag "+quote(args[0])+" of its own", "The command comes first, like %s %s; %s -h lists them.", at.path, at.Verbs[0].Name, at.path)
	}
	all := (&Command{}).declare(at.path).Flags
	for i := range at.Verbs {
		at.Verbs[i].declare(at.path).Flags.VisitAll(func(f *flag.Flag) {
			if all.Lookup(f.Name) == nil {
				all.Var(f.Value, f.Name, f.Usage)
			}
		})
	}
	at.flags.Flags = all
	if err := all.Parse(args); err != nil {
		return 0, flagTrouble(at, err)
	}
	if all.NArg() == 0 {
		return -1, nil
	}
	return len(args) - all.NArg(), nil
}

func isHelp(arg string) bool { return arg == "-h" || arg == "--help" || arg == "-help" }

// noVerb says that there is no such verb.
func (at place) noVerb(name string) error {
	what, list := at.path+" has no command "+quote(name), at.path+" -h lists all."
	if near := nearest(name, at.verbNames()); near != "" {
		return mistake(problem.Unknown, what, "Do you mean %s %s? %s", at.path, near, list)
	}
	return mistake(problem.Unknown, what, "There are %s; %s", strings.Join(at.verbNames(), ", "), list)
}

// checkWords refuses too few and too many.
func (at place) checkWords(words []string) error {
	for i, w := range at.Words {
		if i == len(words) && !w.Optional {
			return mistake(problem.Missing, at.path+" needs "+w.What, "Write it like this: %s", at.usage())
		}
		if w.Many {
			return nil
		}
	}
	if len(words) <= len(at.Words) {
		return nil
	}
	odd := quote(words[len(at.Words)])
	switch {
	case len(at.Words) > 0:
		return mistake(problem.Unknown, at.path+" takes only "+at.Words[len(at.Words)-1].What+", and does not know what "+odd+" is for", "Nothing was done. Write it like this: %s", at.usage())
	case at.hasFlags():
		return mistake(problem.Unknown, at.path+" does not know what "+odd+" is", "%s", takes(at))
	}
	return mistake(problem.Unknown, at.path+" does not know what "+odd+" is", "Write it alone: %s", at.path)
}
