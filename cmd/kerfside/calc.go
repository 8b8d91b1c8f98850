package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"
	"text/tabwriter"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/registry"
)

// calculate runs "kerfside calc …". An error of a calculator is printed as
// JSON where the answer would stand, and the exit status is 2.
func calculate(args []string, out io.Writer) error {
	if len(args) == 0 || isHelp(args[0]) {
		return listCalculators(out)
	}
	c, err := registry.Get(args[0])
	if err != nil {
		return printError(out, err)
	}
	if len(args) > 1 && isHelp(args[1]) {
		describe(out, c.Describe())
		return nil
	}
	values := map[string]any{}
	for _, arg := range args[1:] {
		key, value, ok := strings.Cut(arg, "=")
		if !ok {
			return printError(out, problem.Newf(problem.Malformed, "", "%q is not key=value", arg).
				WithHint("Write something like thickness=6mm; kerfside calc %s -h lists the keys.", c.Name))
		}
		if _, twice := values[key]; twice {
			return printError(out, problem.Newf(problem.Conflict, key, "%s is given twice", key).WithHint("Give it once."))
		}
		values[key] = value
	}
	answer, err := c.CalculateValues(values)
	if err != nil {
		return printError(out, err)
	}
	return printJSON(out, answer)
}

func isHelp(arg string) bool { return arg == "-h" || arg == "--help" || arg == "-help" }

func printJSON(out io.Writer, v any) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// printError prints the error as JSON and ends the program with status 2.
func printError(out io.Writer, err error) error {
	if err := printJSON(out, problem.Envelope{Error: problem.From(err)}); err != nil {
		return err
	}
	exit(2)
	return nil
}

// exit is os.Exit; tests replace it.
var exit = os.Exit

func listCalculators(out io.Writer) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	for _, d := range registry.Describe() {
		fmt.Fprintf(w, "%s\t%s\n", d.Name, d.About)
	}
	fmt.Fprintln(w, "\nkerfside calc NAME -h lists the keys of one.")
	return w.Flush()
}

// describe prints the declaration of a calculator as help.
func describe(out io.Writer, d form.Description) {
	fmt.Fprintf(out, "%s: %s\n%s\n\nkerfside calc %s key=value …   (or POST /api/calc/%s with a JSON object)\n\nTakes:\n", d.Name, d.Title, d.About, d.Name, d.Name)
	for _, f := range d.Fields {
		fmt.Fprintf(out, "  %s%s\n      %s", f.Key, mark(f), f.Label)
		if f.Help != "" {
			fmt.Fprintf(out, ". %s", strings.TrimSuffix(f.Help, "."))
		}
		fmt.Fprintf(out, ".\n      %s\n", f.Allowed)
		if f.Default != "" {
			fmt.Fprintf(out, "      Default %s%s.\n", f.Default, basis(f))
		}
		if f.Only != nil {
			fmt.Fprintf(out, "      Only when %s is %s.\n", f.Only.Key, strings.Join(f.Only.Words, " or "))
		}
	}
	fmt.Fprintf(out, "  units\n      System of units of the texts: metric (default) or us.\n\nTells:\n")
	w := tabwriter.NewWriter(out, 2, 0, 2, ' ', 0)
	for _, r := range d.Results {
		fmt.Fprintf(w, "  %s\t%s\n", r.Key, r.Label)
	}
	w.Flush() // errors of out show at the next write
	if len(d.Sources) > 0 {
		fmt.Fprintf(out, "\nRests on:\n  %s\n", strings.Join(d.Sources, "\n  "))
	}
}

func mark(f form.FieldDescription) string {
	if f.Default == "" && !f.Optional {
		return " (needed)"
	}
	return ""
}

func basis(f form.FieldDescription) string {
	if f.Basis == "" {
		return ""
	}
	return " (" + f.Basis + ")"
}
