package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
)

// results are the figures that one run of the bench found.
type results struct {
	found map[string]float64 // by part and name, as in budgets
	why   map[string]string  // why figures are missing, by part or by part and name
}

func newResults() *results { return &results{map[string]float64{}, map[string]string{}} }

// of returns what one part writes into.
func (r *results) of(part string) figures { return figures{r, part} }

// figures are those of one part.
type figures struct {
	all  *results
	part string
}

// found notes a figure. One that no budget names is only said by the part.
func (f figures) found(name string, value float64) { f.all.found[f.part+"/"+name] = value }

// missing notes why a figure is not found; with name "" for all of the part that
// are not.
func (f figures) missing(name string, why error) {
	key := f.part
	if name != "" {
		key += "/" + name
	}
	f.all.why[key] = strings.Join(strings.Fields(why.Error()), " ")
}

// The words of a verdict.
const (
	held        = "held"
	missed      = "missed"
	notMeasured = "not measured"
)

// longestWhy is how much of a reason stands in the table; the whole is above it.
const longestWhy = 160

// verdict is a line of the table.
func (r *results) verdict(b budget) (measured, word string) {
	v, ok := r.found[b.part+"/"+b.name]
	if !ok {
		why := r.why[b.part]
		if own, ok := r.why[b.part+"/"+b.name]; ok {
			why = own
		}
		if why == "" {
			why = "the part did not tell it"
		}
		if runes := []rune(why); len(runes) > longestWhy {
			why = string(runes[:longestWhy]) + "…"
		}
		return "", notMeasured + ": " + why
	}
	if b.holds(v) {
		return b.unit(v), held
	}
	return b.unit(v), missed
}

// print prints the table of those budgets and returns an error if one of them is
// missed or was not measured. An aim is told only.
func (r *results) print(to io.Writer, list []budget) error {
	counts := map[string]int{}
	w := tabwriter.NewWriter(to, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "   what\tmeasured\ttarget\tverdict")
	for _, b := range list {
		measured, word := r.verdict(b)
		target := b.target()
		if b.aim {
			target += " (aim)"
		} else {
			first, _, _ := strings.Cut(word, ":")
			counts[first]++
		}
		fmt.Fprintf(w, "   %s\t%s\t%s\t%s\n", b.line, measured, target, word)
	}
	if err := w.Flush(); err != nil {
		return err
	}
	if counts[missed]+counts[notMeasured] == 0 {
		return nil
	}
	return fail(fmt.Sprintf("of %d budgets %d are missed and %d were not measured", len(list), counts[missed], counts[notMeasured]),
		"See the table, and what each part said above it; run it alone on the machine before you believe it.")
}
