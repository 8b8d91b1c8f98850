package main

import (
	"flag"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/registry"
	"kerfside/calc/unit"
	"kerfside/cmd/internal/command"
)

var calcCommand = command.Command{
	Name: "calc", About: "run a calculator; prints JSON",
	More: "Alone it lists the calculators; with a name and -h it says what that one takes and tells.\n\nWhat a calculator refuses is printed as JSON where the answer would stand, and told on standard error.",
	Words: []command.Word{
		{Name: "NAME", What: "the name of a calculator", Optional: true, Offers: registry.Names},
		{Name: "KEY=VALUE", What: "what it is given", Optional: true, Many: true},
	},
	Declare: func(f *flag.FlagSet) command.Action {
		var print registry.Print
		f.StringVar(&print.As, "as", "", "print the templates of a layout in the place of JSON, as `FORM`: pdf, dxf or svg")
		f.StringVar(&print.Template, "template", "", "print that one alone, by its `KEY`; a dxf or svg holds one")
		f.StringVar(&print.Paper, "paper", "a4", "`SIZE` of a pdf's pages: a4 or letter")
		return func(words []string, out io.Writer) error { return calculate(words, print, out) }
	},
	Explain: func(words []string, out io.Writer) error {
		c, err := calculator(words[0])
		if err != nil {
			return err
		}
		return describe(out, c.Describe())
	},
	Examples: []command.Example{
		{Line: "kerfside calc", Does: "list the calculators"},
		{Line: "kerfside calc cut-plan -h", Does: "say what one takes and tells"},
		{Line: "kerfside calc cut-plan metal=mild-steel thickness=1/4in tips=25:0.8mm,45:1.05mm", Does: "run it"},
		{Line: "kerfside calc -as pdf pipe-wrap size=2in > wrap.pdf", Does: "print a layout's templates at 1:1"},
	},
}

// calculate runs "kerfside calc …".
func calculate(words []string, print registry.Print, out io.Writer) error {
	if len(words) == 0 {
		return listCalculators(out)
	}
	c, err := calculator(words[0])
	if err != nil {
		return err
	}
	values := map[string]any{}
	for _, arg := range words[1:] {
		key, value, ok := strings.Cut(arg, "=")
		if !ok {
			return command.Mistyped(problem.Malformed, fmt.Sprintf("%q is not key=value", arg), "Write something like thickness=6mm; kerfside calc "+c.Name+" -h lists the keys.")
		}
		if _, twice := values[key]; twice {
			return command.Mistyped(problem.Conflict, fmt.Sprintf("%q is given twice", key), "Give it once.")
		}
		values[key] = value
	}
	print.Calculator = c.Name
	answer, err := c.CalculateValues(values)
	if err == nil && print.As != "" {
		file, err := print.Of(answer)
		if err != nil {
			return err
		}
		_, err = io.WriteString(out, file.Data)
		return err
	}
	if err != nil {
		if told := printJSON(out, problem.Envelope{Error: problem.From(err)}); told != nil {
			return told
		}
		return err
	}
	return printJSON(out, answer)
}

// calculator finds one by its name.
func calculator(name string) (*form.Calculator, error) {
	c, err := registry.Get(name)
	if err == nil {
		return c, nil
	}
	return nil, command.NoSuch("calculator", name, registry.Names(), "kerfside calc")
}

func listCalculators(out io.Writer) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	for _, d := range registry.Describe() {
		fmt.Fprintf(w, "%s\t%s\n", d.Name, d.About)
	}
	fmt.Fprintln(w, "\nkerfside calc NAME -h lists the keys of one.")
	return w.Flush()
}

// describe prints the declaration of a calculator as help.
func describe(out io.Writer, d form.Description) error {
	fmt.Fprintf(out, "%s: %s\n%s\n\nkerfside calc %s key=value …   (or POST /api/calc/%s with a JSON object)\n\nTakes:\n", d.Name, d.Title, d.About, d.Name, d.Name)
	describeFields(out, "  ", d.Fields)
	fmt.Fprintf(out, "  units\n      System of units of the texts: metric (default) or us.\n\nTells:\n")
	w := tabwriter.NewWriter(out, 2, 0, 2, ' ', 0)
	for _, r := range d.Results {
		fmt.Fprintf(w, "  %s\t%s\n", r.Key, r.Label)
	}
	if len(d.Sources) > 0 {
		fmt.Fprintf(w, "\nRests on:\n  %s\n", strings.Join(d.Sources, "\n  "))
	}
	return w.Flush()
}

// describeFields prints what a form takes, and below a list what a row of it does.
func describeFields(out io.Writer, margin string, fields []form.FieldDescription) {
	for _, f := range fields {
		fmt.Fprintf(out, "%s%s%s\n%[1]s    %[4]s", margin, f.Key, mark(f), f.Label)
		if f.Help != "" {
			fmt.Fprintf(out, ". %s", strings.TrimSuffix(f.Help, "."))
		}
		fmt.Fprintf(out, ".\n%s    %s\n", margin, f.Allowed)
		if f.Default != "" {
			fmt.Fprintf(out, "%s    Default %s%s.\n", margin, f.Default, basis(f))
		}
		if f.Only != nil {
			fmt.Fprintf(out, "%s    Only when %s is %s.\n", margin, f.Only.Key, strings.Join(f.Only.Words, " or "))
		}
		if f.Rows != nil {
			fmt.Fprintf(out, "%s    At most %s, each with:\n", margin, unit.Count(f.Rows.Most, "row", "rows"))
			describeFields(out, margin+"      ", f.Rows.Fields)
		}
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
