package command

import (
	"flag"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Manual is what the man page says besides what is declared.
type Manual struct {
	Date    string // of the page, YYYY-MM-DD; "" if it is not known
	Version string // of the program
	More    []Section
}

// Section is a section of the man page, in paragraphs parted by an empty line.
type Section struct{ Title, Text string }

// Man writes the man page, in the macros of man(7).
func (p *Program) Man(out io.Writer, m Manual) error {
	w := &page{name: p.Name}
	fmt.Fprintf(w, ".TH %q 1 %q %q\n", strings.ToUpper(p.Name), m.Date, p.Name+" "+m.Version) // a date with \- in it is none
	w.macro("SH", "NAME")
	w.line(p.Name + " - " + p.About)
	w.macro("SH", "SYNOPSIS")
	w.macro("B", p.Name+" COMMAND")
	w.line("[flags] [words]")
	w.macro("SH", "DESCRIPTION")
	w.paragraphs(p.More)
	w.macro("SH", "COMMANDS")
	p.Walk(func(path string, c *Command, flags *flag.FlagSet) {
		if path != p.Name && len(c.Verbs) == 0 {
			w.command(place{Command: c, path: path}, flags)
		}
	})
	w.macro("SH", "EXIT STATUS")
	for _, s := range Statuses {
		w.item(fmt.Sprint(s.Code), s.Means)
	}
	for _, s := range m.More {
		w.macro("SH", s.Title)
		w.paragraphs(s.Text)
	}
	_, err := io.WriteString(out, w.String())
	return err
}

// page is a man page as it is written.
type page struct {
	strings.Builder
	name string
}

// command writes one command with its flags and examples.
func (w *page) command(at place, flags *flag.FlagSet) {
	w.macro("SS", at.withFlags(flags))
	w.paragraphs(sentence(at.About) + ".")
	if at.More != "" {
		w.macro("PP")
		w.paragraphs(at.More)
	}
	for _, word := range at.Words {
		w.item(word.Name, sentence(word.What)+".")
	}
	flags.VisitAll(func(f *flag.Flag) {
		_, about := flag.UnquoteUsage(f)
		if def := defaultOf(f); def != "" {
			about += " (default " + def + ")"
		}
		w.item(strings.TrimSpace("-"+f.Name+" "+valueName(f)), sentence(about)+".")
	})
	for _, e := range at.Examples {
		w.macro("PP")
		w.line(sentence(e.Does) + ":")
		w.macro("PP")
		w.macro("EX")
		w.line("  " + e.Line)
		w.macro("EE")
	}
}

// defaultOf is what a flag has if nobody says otherwise, "" where that is nothing.
func defaultOf(f *flag.Flag) string {
	if slices.Contains([]string{"false", "0", "0s"}, f.DefValue) {
		return ""
	}
	return f.DefValue
}

// item writes a term with what it means.
func (w *page) item(term, means string) {
	w.macro("TP")
	w.macro("B", term)
	w.fill(means)
}

// paragraphs writes text that has empty lines between its paragraphs.
func (w *page) paragraphs(text string) {
	for i, one := range strings.Split(text, "\n\n") {
		if i > 0 {
			w.macro("PP")
		}
		for sentence := range strings.SplitAfterSeq(one, ". ") {
			w.fill(sentence)
		}
	}
}

// fill writes text in lines that are not too long to edit.
func (w *page) fill(text string) {
	var line []string
	length := 0
	for _, word := range strings.Fields(text) {
		if length += len(roff(word)) + 1; length > longestLine {
			w.line(strings.Join(line, " "))
			line, length = nil, len(roff(word))+1
		}
		line = append(line, word)
	}
	w.line(strings.Join(line, " "))
}

// longestLine is what mandoc and people like.
const longestLine = 78

// macro writes a line that begins with a macro.
func (w *page) macro(name string, words ...string) {
	w.WriteString("." + name)
	for _, word := range words {
		fmt.Fprintf(w, " \"%s\"", strings.ReplaceAll(roff(word), `"`, `\(dq`))
	}
	w.WriteString("\n")
}

// line writes a line of text.
func (w *page) line(text string) {
	text = roff(strings.TrimRight(text, " "))
	if strings.HasPrefix(text, ".") || strings.HasPrefix(text, "'") {
		text = `\&` + text
	}
	if text != "" {
		w.WriteString(text + "\n")
	}
}

// roff keeps roff from reading anything into a text.
func roff(text string) string {
	return strings.NewReplacer(`\`, `\e`, "-", `\-`, "…", "...", "\n", " ").Replace(text)
}
