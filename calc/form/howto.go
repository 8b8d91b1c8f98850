package form

import (
	"strconv"
	"strings"

	"kerfside/calc/unit"
)

// field finds a declared field by key.
func (c *Calculator) field(key string) (*Field, bool) {
	for i := range c.Fields {
		if c.Fields[i].Key == key {
			return &c.Fields[i], true
		}
	}
	return nil, false
}

// mustField is field for a calculator's own code, where a key that does not
// exist is a programmer's error.
func (c *Calculator) mustField(key string) *Field {
	f, ok := c.field(key)
	if !ok {
		panic("form: " + c.Name + " declares no field " + key)
	}
	return f
}

func (c *Calculator) keys() []string {
	keys := make([]string, len(c.Fields))
	for i, f := range c.Fields {
		keys[i] = f.Key
	}
	return keys
}

// written says how a field is written on the command line.
func (c *Calculator) written(f *Field) string {
	switch {
	case f.Format != "":
		return f.Format
	case f.Takes.Kind == KindPairs:
		s := "Pairs such as " + example(f.Takes) + ":" + example(f.Takes.Right) + ", parted by commas"
		if f.Takes.Each.Known != "" {
			s += "; leave out a second half that is not known"
		}
		return s + c.span(f, unit.Metric) + "."
	case f.Takes.Kind == KindList:
		return f.Takes.List.written()
	}
	return c.howTo(f, unit.Metric)
}

// howTo says what a field allows, as the hint beside a bad value.
func (c *Calculator) howTo(f *Field, system unit.System) string {
	var s string
	switch f.Takes.Kind {
	case KindChoice:
		if f.Format != "" { // of many words, which nobody reads
			return f.Format
		}
		words := make([]string, len(f.Takes.Choices))
		for i, choice := range f.Takes.Choices {
			words[i] = choice.Word
		}
		return "One of " + strings.Join(words, ", ") + "."
	case KindYesNo:
		return "yes or no"
	case KindText:
		return "Some words."
	case KindPairs:
		return "Add a row for each: " + f.Takes.Each.Left + " and " + f.Takes.Each.Right + "."
	case KindList:
		return "Add a row for each " + strings.ToLower(f.Takes.List.Name) + "."
	case KindNumber:
		s = "A" + f.Takes.Quantity.A()[1:] + " such as " + example(f.Takes)
		if f.Gauge {
			s += " or 16ga"
		}
		s += "; a bare number is in " + f.Takes.Bare
		if system == unit.US && f.Takes.US != f.Takes.Bare && f.Takes.US != "" {
			s += ", a fraction in " + f.Takes.US
		}
	case KindCount:
		s = "A whole number"
	default:
		s = "A number"
	}
	return s + c.span(f, system) + "."
}

// span says the limits of a field, with a leading comma.
func (c *Calculator) span(f *Field, system unit.System) string {
	if !f.Limits.Set {
		return ""
	}
	return ", from " + f.limit(f.Limits.Min, system) + " to " + f.limit(f.Limits.Max, system)
}

func (f *Field) limit(v float64, system unit.System) string {
	if f.Takes.Quantity == nil {
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	return f.Takes.print(v, system)
}

// between says the limits alone, in the system asked for and the other one.
func (f *Field) between(system unit.System) string {
	low, high := f.limit(f.Limits.Min, system), f.limit(f.Limits.Max, system)
	otherLow, otherHigh := f.limit(f.Limits.Min, system.Other()), f.limit(f.Limits.Max, system.Other())
	s := "It takes " + low + " to " + high
	if otherLow != low {
		s += ", which is " + otherLow + " to " + otherHigh
	}
	return s + "."
}

// print prints the SI value v in the type's own unit of that system.
func (t *Type) print(v float64, system unit.System) string {
	return t.Quantity.Say(v, t.unit(v, system), t.Doubt)
}

// unit is the type's own unit of that system.
func (t *Type) unit(v float64, system unit.System) string {
	name := t.Bare
	if system == unit.US {
		name = t.US
	}
	if name == "" {
		name = t.Quantity.UnitFor(v, system)
	}
	return name
}

func example(t *Type) string {
	if t.US != "" && t.US != t.Bare {
		return "5" + t.Bare + " or 5" + t.US
	}
	return "5" + t.Bare
}
