package power

import (
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// Inlet is one of the two supplies that a machine's plates may state: 120 V or
// 230 V, say, with another largest current at each.
type Inlet struct {
	Key   string       // ending of its fields' keys: "" or second
	Volts unit.Voltage // on the plate; 0 if it was not entered
	Max   unit.Current // largest cutting current on it; 0 if it was not entered
	Other *Inlet       // the one not picked; nil if there is none
	Known bool         // Other is out because the volts of the socket say so
}

// second ends the keys of the second inlet.
const second = "_2"

// How far the volts of a socket may stand from the plate's, as a ratio: 10 % over
// is what a machine is built for, further under it is still meant for that
// supply, though it may not run; its least volts tell. Judgement, and IEC 60974-1
// from memory for the 10 %.
const (
	inletLow  = 0.75
	inletHigh = 1.1
)

// ask is a field of a plate, of the second one if its key ends so.
func ask[M unit.Measure](key, label, help, bare string, low, high M, chips ...string) form.Field {
	f := form.Field{Key: key, Label: label, Help: help, Takes: form.Number[M](bare, bare), Optional: true, Chips: chips, Limits: form.Within(low, high), Owner: form.OfPlate}
	if strings.HasSuffix(key, second) {
		f.Label, f.Item, f.Fine = label+", second voltage", "second", true
	}
	return f
}

func askVolts(key, label, help string) form.Field {
	return ask[unit.Voltage](key, label, help, "V", 90, 700, "120V", "230V", "240V", "400V")
}

// BothFields ask for what decides which inlet the machine runs on, beside
// max_current, which every plan asks for.
func BothFields() []form.Field {
	there := askVolts("volts", "Volts at the socket", "Best read while the machine cuts.")
	there.Owner = form.OfSite
	return []form.Field{askVolts("plate_volts", "Volts on the plate", "Rating plate, U1."),
		askVolts("plate_volts"+second, "Volts on the plate", "Only if the machine takes two voltages."), SecondMax(), there}
}

// SecondMax asks for the largest current on the second inlet.
func SecondMax() form.Field {
	return ask[unit.Current]("max_current"+second, "Largest amps", "Rating plate, I2: the largest figure at that voltage.", "A", 5, 1000, "20A", "25A", "30A", "35A", "40A", "45A")
}

// InletFields ask for the rest of both plates.
func InletFields() []form.Field {
	var list []form.Field
	for _, key := range []string{"", second} {
		duty := ask[unit.Current]("duty_points"+key, "Duty cycle", "Rating plate, X: one to three figures, each with its amps.", "A", 0, 0)
		duty.Takes, duty.Limits = DutyPairs(), form.Limits{}
		effective := ask[unit.Current]("input_effective"+key, "Effective input amps, I1eff", "Rating plate. What warms the breaker.", "A", 1, 400)
		least := ask[unit.Voltage]("least_volts"+key, "Least volts that the machine runs on", "The machine's manual. With more than 10 % lost it may stop.", "V", 60, 700)
		effective.Fine, least.Fine = true, true
		list = append(list, duty,
			ask[unit.Current]("input_max"+key, "Input amps, I1max", "Rating plate. What it draws at its largest amps.", "A", 1, 400), effective, least)
	}
	return list
}

// ReadInlet reads BothFields and max_current, and picks the inlet that the volts
// of the socket fit; without these the one with the larger current. Volts that fit
// none are a trouble with their field. A rig of which no plate's volts were ever
// entered has one inlet, which fits all.
func ReadInlet(r *form.Reader) Inlet {
	volts := form.Get[unit.Voltage](r, "volts")
	one, two := readInlet(r, ""), readInlet(r, second)
	switch {
	case two.Volts == 0 && two.Max > 0:
		r.Fail("plate_volts"+second, unread("the second voltage is"))
	case two.Volts > 0 && one.Volts == 0:
		r.Fail("plate_volts", unread("the first voltage is"))
	case two.Volts > 0 && one.Max == 0:
		r.Fail("max_current", unread("the highest current at "+unit.In(one.Volts, "V")+" is"))
	case two.Volts > 0 && two.Max == 0:
		r.Fail("max_current"+second, unread("the highest current at "+unit.In(two.Volts, "V")+" is"))
	case two.Volts > 0 && one.Volts == two.Volts:
		r.Fail("plate_volts"+second, problem.Newf(problem.Conflict, "", "both voltages are %s", unit.In(one.Volts, "V")).WithHint("Enter the two that the plate states, or leave the second empty."))
	}
	picked, other := one, two
	if two.Volts > 0 && (volts > 0 && off(two, volts) < off(one, volts) || volts == 0 && two.Max > one.Max) {
		picked, other = two, one
	}
	if other.Volts > 0 {
		picked.Other, picked.Known = &other, volts > 0
	}
	if ratio := volts / max(picked.Volts, 1); volts > 0 && picked.Volts > 0 && (ratio < inletLow || ratio > inletHigh) {
		plates := unit.In(picked.Volts, "V")
		if other.Volts > 0 {
			plates += " or " + unit.In(other.Volts, "V")
		}
		r.Fail("volts", problem.Newf(problem.Conflict, "", "%s at the socket do not fit the machine, whose plate states %s", unit.In(volts, "V"), plates).
			WithHint("Do not plug it in there: find another socket. Typed wrong? Correct these volts, or the plate's on the rig."))
	}
	return picked
}

func readInlet(r *form.Reader, key string) Inlet {
	return Inlet{Key: key, Volts: form.Get[unit.Voltage](r, "plate_volts"+key), Max: form.Get[unit.Current](r, "max_current"+key)}
}

func unread(what string) error {
	return problem.New(problem.Missing, "", what+" not known", "Copy it from the plate: volts, highest current and input current belong together.")
}

// off is how far volts are from an inlet's, as a ratio of 1 or more.
func off(v Inlet, volts unit.Voltage) float64 {
	ratio := float64(volts / v.Volts)
	return max(ratio, 1/ratio)
}

// Name says which of two inlets it is, with its largest current.
func (v Inlet) Name() string { return unit.In(v.Volts, "V") + ", at most " + unit.In(v.Max, "A") }

// Rating is what else a plate states of an inlet.
type Rating struct {
	Duty  Plate        // nil if it was not entered
	Draws unit.Current // at the largest cutting current; 0 if it was not entered
	Idle  unit.Current // drawn between the cuts, as the effective current tells
	Least unit.Voltage // on which the machine still runs; 0 if it was not entered
}

// ReadRating reads InletFields and returns what they say of the inlet that was
// picked.
//
//	I0 = √((I1eff² − I1max²·X)/(1 − X))     X the duty cycle at the largest current
func ReadRating(r *form.Reader, v Inlet) Rating {
	one, two := readRating(r, ""), readRating(r, second)
	if v.Key == "" {
		return one
	}
	if r.From("least_volts") == form.OfSite { // where they were once entered, for whatever is plugged in there
		two.Least = one.Least
	}
	return two
}

func readRating(r *form.Reader, key string) Rating {
	p := Rating{Duty: getPlate(r, "duty_points"+key), Draws: form.Get[unit.Current](r, "input_max"+key), Least: form.Get[unit.Voltage](r, "least_volts"+key)}
	effective := form.Get[unit.Current](r, "input_effective"+key)
	if effective > 0 && p.Draws > 0 && effective > p.Draws {
		r.Fail("input_effective"+key, problem.New(problem.Conflict, "", "the effective input current is above the largest", "I1eff is the smaller of the two on the plate."))
	} else if len(p.Duty) > 0 {
		if rest := 1 - p.Duty[len(p.Duty)-1].Duty; effective > 0 && rest > 0 {
			p.Idle = RatedFor(effective, p.Draws, rest)
		}
	}
	return p
}

// Machine returns m with the power factor, and if need be the efficiency, that
// the plate's input current tells; m as it is where that was not entered.
//
//	η·λ = U2·I2/(U1·I1max), with three phases U2·I2/(√3·U1·I1max)     U2 = 80 + 0.4·I2
//
// top is the largest cutting current. Source: IEC 60974-1 states I1max at the
// conventional load voltage, from memory.
func (p Rating) Machine(r *form.Reader, m Machine, v Inlet, top unit.Current, phases int) Machine {
	if p.Draws == 0 {
		return m
	}
	if v.Volts == 0 {
		r.Fail("plate_volts", unread("the voltage of the input current is"))
		return m
	}
	arc := float64(LoadVolts(top)) * float64(top)
	both := unit.Ratio(arc / float64(Power(p.Draws, v.Volts, phases)))
	if both > 1 {
		r.Fail("input_max"+v.Key, problem.Newf(problem.Conflict, "", "%s at %s are less than an arc of %s takes", unit.In(p.Draws, "A"), unit.In(v.Volts, "V"), unit.In(top, "A")).
			WithHint("Copy volts, highest current and I1max from the same line of the plate."))
		return m
	}
	m.Efficiency = max(m.Efficiency, both)
	m.PowerFactor = both / m.Efficiency
	return m
}
