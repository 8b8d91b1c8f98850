// Package registry lists every calculator by name. The phone's WebAssembly,
// the command line and the HTTP API all call through it, so that all three know
// the same names, keys and errors.
package registry

import (
	"slices"
	"strings"

	"kerfside/calc/air"
	"kerfside/calc/cutting"
	"kerfside/calc/diagnose"
	"kerfside/calc/form"
	"kerfside/calc/handling"
	"kerfside/calc/job"
	"kerfside/calc/layout"
	"kerfside/calc/life"
	"kerfside/calc/money"
	"kerfside/calc/power"
	"kerfside/calc/problem"
	"kerfside/calc/safety"
	"kerfside/calc/site"
	"kerfside/calc/wear"
)

// calculators in the order in which the phone lists them.
var calculators = slices.Concat(
	site.Calculators,
	cutting.Calculators,
	air.Calculators,
	power.Calculators,
	wear.Calculators,
	life.Calculators,
	job.Calculators,
	money.Calculators,
	layout.Calculators,
	handling.Calculators,
	safety.Calculators,
	diagnose.Calculators,
)

// All returns every calculator.
func All() []*form.Calculator {
	all := make([]*form.Calculator, len(calculators))
	for i, d := range calculators {
		all[i] = d.Calculator()
	}
	return all
}

// Get returns the calculator of that name, or an Unknown problem that lists
// the names there are.
func Get(name string) (*form.Calculator, error) {
	for _, d := range calculators {
		if d.Name == name {
			return d.Calculator(), nil
		}
	}
	return nil, problem.Newf(problem.Unknown, "", "there is no calculator %q", name).
		WithHint("%s", "There are: "+strings.Join(Names(), ", ")+".")
}

// Names lists the calculators' names.
func Names() []string {
	names := make([]string, len(calculators))
	for i, d := range calculators {
		names[i] = d.Name
	}
	return names
}

// Calculate runs the named calculator on a JSON object of entered values.
func Calculate(name string, input []byte) (*form.Answer, error) {
	c, err := Get(name)
	if err != nil {
		return nil, err
	}
	return c.Calculate(input)
}

// Call runs a calculator, or "read-value", which tells what the text of one
// field means: {"text", "units"} with {"calculator", "field"} or with
// {"quantity", "bare", "us", "in"}; see form.ValueInput. "templates" makes the file of
// a layout's templates; see Print. Five more calls are for pages: "rehearse", see rehearse; "say-values", see form.SayInput; "rig-sizes", see wear.RigSizes;
// "judge-reading", see wear.JudgeReading; and "stops-so-far", see cutting.StopsSoFar.
func Call(name string, input []byte) (any, error) {
	switch name {
	case "read-value":
		return readValue(input)
	case "templates":
		return templates(input)
	case "rehearse":
		return rehearse(input)
	case "say-values":
		return form.SayValues(input)
	case "rig-sizes":
		return wear.RigSizes(input)
	case "judge-reading":
		return wear.JudgeReading(input)
	case "stops-so-far":
		return cutting.StopsSoFar(input)
	default:
		return Calculate(name, input)
	}
}

// readValue reads the text of a calculator's field, or of a quantity.
func readValue(input []byte) (form.ValueRead, error) {
	calculator, field, in, err := form.DecodeValueInput(input)
	if err != nil {
		return form.ValueRead{}, err
	}
	if calculator == "" {
		return form.ReadQuantity(in)
	}
	c, err := Get(calculator)
	if err != nil {
		return form.ValueRead{}, err
	}
	return c.ReadValue(field, in)
}

// Describe returns every declaration, for forms and help.
func Describe() []form.Description {
	list := make([]form.Description, len(calculators))
	for i, d := range calculators {
		list[i] = d.Calculator().Describe()
	}
	return list
}
