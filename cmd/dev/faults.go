package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"kerfside/calc/diagnose"
)

// frequencies are the steps in which the table of faults speaks, most first.
var frequencies = []string{"always", "often", "sometimes", "seldom"}

// faults prints what the fault finder knows, for people of the trade to read and
// to argue with.
func faults([]string) error {
	printFaults(os.Stdout)
	return nil
}

// printFaults writes each sign with its causes, then each cause with its signs
// and its cure, then each check with what it costs and what its answers mean.
// What is not named is never.
func printFaults(out io.Writer) {
	fmt.Fprint(out, "SIGNS: what each may come from\n")
	for _, s := range diagnose.Signs {
		fmt.Fprintf(out, "\n%s\n", s.Label)
		for _, note := range []string{s.Stop, s.Now, s.NoFault} {
			if note != "" {
				fmt.Fprintf(out, "  ! %s\n", note)
			}
		}
		printSteps(out, causesOf(s.Key))
	}
	fmt.Fprint(out, "\n\nCAUSES: what each shows, and what is done\n")
	for _, c := range diagnose.Causes {
		fmt.Fprintf(out, "\n%s (about %.0f in 100 of all that goes wrong)\n", c.Label, 100*share(c))
		printSteps(out, func(word string) (list []string) {
			for _, s := range diagnose.Signs {
				if diagnose.Frequency(s.Key, c.Key) == word {
					list = append(list, s.Label)
				}
			}
			return list
		})
		fmt.Fprintf(out, "  do         %s\n", c.Do)
	}
	fmt.Fprint(out, "\n\nCHECKS: where the hands are, what they cost, what each answer means\n")
	for _, check := range diagnose.Checks {
		fmt.Fprintf(out, "\n%s\n  %-10s %s: %s min\n  how        %s\n", check.Label, check.Hands, hands[check.Hands], number(check.Minutes), check.Do)
		fmt.Fprintf(out, "  %q means\n", check.Yes)
		printSteps(out, causesOf(check.Key))
		fmt.Fprintf(out, "  %q speaks against these, the more the oftener they show it\n", check.No)
	}
}

// hands says where the hands are.
var hands = map[diagnose.Hands]string{
	diagnose.Look: "just a look", diagnose.Hand: "by hand, outside the torch", diagnose.On: "machine on, nothing flows", diagnose.Air: "air flows, no arc",
	diagnose.Arc: "a short cut", diagnose.Off: "off and unplugged", diagnose.Dead: "torch made dead, once for all of these",
}

// share is how much of all causes one is, before anything is seen.
func share(c diagnose.Cause) float64 {
	all := 0.0
	for _, other := range diagnose.Causes {
		all += other.Prior
	}
	return c.Prior / all
}

func number(minutes float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", minutes), ".0") }

func printSteps(out io.Writer, of func(word string) []string) {
	for _, word := range frequencies {
		if list := of(word); len(list) > 0 {
			fmt.Fprintf(out, "  %-10s %s\n", word, strings.Join(list, "; "))
		}
	}
}

// causesOf returns the causes that show a sign, or come out in a check, by step.
func causesOf(finding string) func(word string) []string {
	return func(word string) (list []string) {
		for _, c := range diagnose.Causes {
			if diagnose.Frequency(finding, c.Key) == word {
				list = append(list, c.Label)
			}
		}
		return list
	}
}
