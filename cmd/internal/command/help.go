package command

import (
	"flag"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
)

// usage shows how a command is written as a whole.
func (at place) usage() string {
	return strings.TrimSpace(at.path + " " + at.form())
}

// withFlags is usage with the place of the flags in it.
func (at place) withFlags(flags *flag.FlagSet) string {
	form, n := at.path, 0
	flags.VisitAll(func(*flag.Flag) { n++ })
	if n > 0 {
		form += " [flags]"
	}
	return strings.TrimSpace(form + " " + at.form())
}

// help explains a command.
func (at place) help(out io.Writer) error {
	flags := at.declare(at.path).Flags
	form := at.withFlags(flags)
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(w, "%s\n%s.\n", form, sentence(at.About))
	if at.More != "" {
		fmt.Fprintf(w, "\n%s\n", at.More)
	}
	if len(at.Verbs) > 0 {
		fmt.Fprintln(w)
		for _, v := range at.Verbs {
			fmt.Fprintf(w, "  %s\t%s\n", strings.TrimSpace(at.path+" "+v.Name+" "+v.form()), v.About)
		}
		fmt.Fprintln(w, "\nEach takes -h.")
	}
	if len(at.Words) > 0 {
		fmt.Fprintln(w)
	}
	for _, word := range at.Words {
		fmt.Fprintf(w, "  %s\t%s\n", word.Name, word.What)
	}
	if strings.Contains(form, "[flags]") {
		fmt.Fprintln(w, "\nFlags:")
		if err := w.Flush(); err != nil {
			return err
		}
		flags.SetOutput(out)
		flags.PrintDefaults()
	}
	if len(at.Examples) > 0 {
		fmt.Fprintln(w, "\nFor example:")
	}
	for _, e := range at.Examples {
		fmt.Fprintf(w, "  %s\t%s\n", e.Line, e.Does)
	}
	return w.Flush()
}

// sentence begins a text with a capital.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
