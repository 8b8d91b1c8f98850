// Package unit holds the quantities of the trade: one Go type for each, SI
// inside, units only at the edge.
//
// A quantity is written the way a tradesman writes it (see Parse):
//
//	6mm   1/4in   1-1/2"   5'6"   40A   90psi   6.2bar   170l/min   6cfm   85F
//
// and printed with sensible figures in metric or US units (see Text). Unit
// sizes follow NIST SP 811 (2008) Appendix B unless a comment says otherwise;
// they rest on in = 25.4 mm, lb = 0.45359237 kg and g = 9.80665 m/s², all exact.
package unit

import "strings"

// Measure is satisfied by every quantity type of this package. Its value is
// in the SI unit of its quantity.
type Measure interface {
	~float64
	Quantity() *Quantity
}

// Quantity describes one kind of measure: its SI unit, the units it may be
// written in and those it is printed in.
type Quantity struct {
	Name  string // "length"; as it stands in messages
	SI    string // "m"; the unit of the bare value
	Units []Unit // all that can be read; Units[0] need not be the SI unit

	// Metric and US give the unit to print in, by size of the value: the
	// first whose Below is larger than the value is taken.
	Metric, US []Show

	// Compound allows several number-unit pairs in a row, such as 5 ft 6 in.
	Compound bool
}

// Unit is one way to write a quantity: value in SI = number × Size + Zero.
type Unit struct {
	Name string   // as printed
	Size float64  // SI per unit
	Zero float64  // SI value of zero of this unit; only temperatures have one
	Also []string // other spellings that are read

	Grains []Grain // the steps in which people are told it, by size; below them two figures
}

// whole are the steps of a unit that is read in whole numbers from ten on.
var whole = []Grain{{10, 1}}

// Show picks the unit for values below a size (in SI; 0 means no bound).
type Show struct {
	Below float64
	Unit  string
}

// System is a set of units to print in.
type System string

const (
	Metric System = "metric"
	US     System = "us"
)

// Other returns the system that s is not.
func (s System) Other() System {
	if s == US {
		return Metric
	}
	return US
}

// A is the quantity's name with its article: "a length", "an angle".
func (q *Quantity) A() string {
	if strings.ContainsRune("aeio", rune(q.Name[0])) { // "a unit", were there one
		return "an " + q.Name
	}
	return "a " + q.Name
}

// Find returns the unit of q that is written as name. Capitals count only
// where two units differ by nothing else, and in the prefixes m and M: mPa is
// not read as MPa, which is a thousand million times as much.
func (q *Quantity) Find(name string) (Unit, bool) {
	for _, u := range q.Units {
		if u.is(func(s string) bool { return s == name }) {
			return u, true
		}
	}
	for _, u := range q.Units {
		if u.is(func(s string) bool { return strings.EqualFold(s, name) && !otherPrefix(s, name) }) {
			return u, true
		}
	}
	return Unit{}, false
}

// otherPrefix reports whether a and b, the same but for capitals, name milli
// and mega of one unit. Mm, MM and Min are taken for a capital letter too many.
func otherPrefix(a, b string) bool {
	if a[0] == b[0] || (a[0] != 'm' && a[0] != 'M') {
		return false
	}
	switch rest := a[1:]; rest {
	case "J", "Pa", "V", "A", "W", "Ω":
		return b[1:] == rest
	}
	return false
}

// Names lists the units of q as they are printed.
func (q *Quantity) Names() []string {
	names := make([]string, len(q.Units))
	for i, u := range q.Units {
		names[i] = u.Name
	}
	return names
}

func (u Unit) is(same func(string) bool) bool {
	if same(u.Name) {
		return true
	}
	for _, s := range u.Also {
		if same(s) {
			return true
		}
	}
	return false
}

// owner names the first quantity that knows the unit, so that a message can
// say what "psi" would have been.
func owner(name string) (*Quantity, bool) {
	for _, q := range All {
		if _, ok := q.Find(name); ok {
			return q, true
		}
	}
	return nil, false
}

// All lists every quantity of the package.
var All = []*Quantity{
	length, area, volume, speed, pace, duration,
	current, voltage, power, apparentPower, energy, lineEnergy, resistance, currentDensity,
	pressure, flow, massFlow, conductance, temperature,
	mass, density, areaDensity, lineDensity,
	conductivity, specificEnergy,
	angle, ratio, level, money, moneyRate, moneyPerLength,
}
