package command

import (
	"flag"
	"fmt"
	"io"
	"slices"
	"strings"
	"text/template"
)

// shells are those that completion is made for, each by a template of its own.
var shells = map[string]*template.Template{"bash": bashScript, "fish": fishScript, "zsh": zshScript}

// Shells lists them.
func Shells() []string { return []string{"bash", "fish", "zsh"} }

// Completion writes the script by which a shell completes the program's command
// lines. It is one of Shells.
func (p *Program) Completion(shell string, out io.Writer) error {
	t := shells[shell]
	if t == nil {
		return NoSuch("completion for the shell", shell, Shells(), p.Name+" completion -h")
	}
	return t.Execute(out, struct {
		Name   string
		Places []completed
	}{p.Name, p.completed()})
}

// completed is what a shell has to know of one command.
type completed struct {
	Path  string // "kerfside crew list"
	Last  string // its last word, "" for the program
	Verbs []offer
	Flags []offeredFlag
	Words []string // what its first word may be
	Files bool     // its words are files
}

type offer struct{ Name, About string }

type offeredFlag struct {
	Name, About string
	Takes       string // "" nothing, "file" a file or folder, "text" anything else
}

// completed lists the program and all its commands.
func (p *Program) completed() []completed {
	var all []completed
	p.Walk(func(path string, c *Command, flags *flag.FlagSet) {
		one := completed{Path: path}
		if i := strings.LastIndex(path, " "); i >= 0 {
			one.Last = path[i+1:]
		}
		for _, v := range c.Verbs {
			one.Verbs = append(one.Verbs, offer{v.Name, v.About})
		}
		flags.VisitAll(func(f *flag.Flag) {
			_, about := flag.UnquoteUsage(f)
			one.Flags = append(one.Flags, offeredFlag{Name: f.Name, About: about, Takes: takesWhat(f)})
		})
		for i, w := range c.Words {
			one.Files = one.Files || isFile(w.Name)
			if i == 0 && w.Offers != nil {
				one.Words = w.Offers()
			}
		}
		all = append(all, one)
	})
	return all
}

func takesWhat(f *flag.Flag) string {
	switch name := valueName(f); {
	case name == "":
		return ""
	case isFile(name):
		return "file"
	}
	return "text"
}

// isFile reports whether what is called so is the name of a file.
func isFile(name string) bool { return slices.Contains([]string{"FILE", "FOLDER", "PATH"}, name) }

// Offers is all that may stand at a command, parted by spaces.
func (c completed) Offers() string {
	var names []string
	for _, v := range c.Verbs {
		names = append(names, v.Name)
	}
	return strings.Join(append(names, c.Words...), " ")
}

// FlagNames are the flags of a command that take what is said, all for "any".
func (c completed) FlagNames(takes string) string {
	var names []string
	for _, f := range c.Flags {
		if takes == "any" || f.Takes == takes {
			names = append(names, "-"+f.Name)
		}
	}
	return strings.Join(names, " ")
}

// script reads the template of a script, in which quoted is a text in single
// quotes and brackets of its own.
func script(text string) *template.Template {
	return template.Must(template.New("").Funcs(template.FuncMap{
		"quoted": func(parts ...any) string { return "'" + strings.ReplaceAll(fmt.Sprint(parts...), "'", `'\''`) + "'" },
		"plain":  func(s string) string { return strings.NewReplacer(":", `\:`).Replace(s) },
	}).Parse(text))
}
