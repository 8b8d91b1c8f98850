package form

import (
	"math"
	"strconv"

	"kerfside/calc/unit"
)

// Typed are the values that were read, with the unit in which each was written. A
// person's own figure is never rounded away when it is told him again; in the
// other system of units it is told as finely as any.
type Typed struct {
	in    map[typedValue]string
	sheet func(number string) (unit.Length, error) // what a gauge of the metal means
}

type typedValue struct {
	quantity *unit.Quantity
	value    float64
}

// Say prints the SI value v of q in the named unit as finely as d allows, or as it
// was typed.
func (t *Typed) Say(q *unit.Quantity, v float64, name string, d unit.Doubt) string {
	if t == nil {
		return q.Say(v, name, d)
	}
	if in, ok := t.in[typedValue{q, v}]; ok && q.Kin(in, name) && q.Short(v, name) {
		return q.Say(v, name, unit.Doubt{Sort: unit.Entered})
	}
	if d.Sort == unit.Plate && name == "in" {
		if number, ok := t.gauge(v); ok {
			return number + " ga, " + unit.TwoFigures(v/float64(unit.Inch)) + " " + name
		}
	}
	return q.Say(v, name, d)
}

// gauge is the number of the sheet that is as thick, within a hundredth.
func (t *Typed) gauge(v float64) (number string, ok bool) {
	if t.sheet == nil || v > float64(unit.Inch)/5 {
		return "", false
	}
	for n := 7; n <= 30; n++ {
		number = strconv.Itoa(n)
		if thick, err := t.sheet(number); err == nil && math.Abs(v-float64(thick)) < 0.01*v {
			return number, true
		}
	}
	return "", false
}

// Sheets says what a gauge means in the metal that is reckoned with.
func (r *Reader) Sheets(gauge func(number string) (unit.Length, error)) { r.typed.sheet = gauge }

// Typed are the values read so far and from now on.
func (r *Reader) Typed() *Typed { return r.typed }
