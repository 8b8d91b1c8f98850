package main

import (
	"fmt"
	"os"
	"strings"
	"text/tabwriter"
)

// verdicts is a table of what was measured and what was to be reached.
type verdicts struct {
	rows   [][]string
	missed int
}

// row adds a line: what was measured, our figure, the other's, the ratio and the
// target, each "" where there is none.
func (v *verdicts) row(cells ...string) { v.rows = append(v.rows, cells) }

// judge adds a line with a target and says whether it was met.
func (v *verdicts) judge(met bool, cells ...string) {
	word := "met"
	if !met {
		word = "MISSED"
		v.missed++
	}
	v.row(append(cells, word)...)
}

// print prints the table and returns an error if a target was missed.
func (v *verdicts) print(head ...string) error {
	w := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', 0)
	for _, cells := range append([][]string{head}, v.rows...) {
		fmt.Fprintln(w, "   "+strings.Join(cells, "\t"))
	}
	if err := w.Flush(); err != nil {
		return err
	}
	if v.missed > 0 {
		return fail(fmt.Sprintf("%d targets were missed", v.missed), "See the table; run it alone on the machine before you believe it.")
	}
	return nil
}
