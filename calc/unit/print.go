package unit

import (
	"math"
	"strconv"
	"strings"
)

// Text prints m for a person in the units of system, with three figures and
// no idle zeros; inches that lie on a ruler's mark are printed as a fraction.
func Text[M Measure](m M, system System) string {
	return m.Quantity().Text(float64(m), system)
}

// In prints m in the named unit; a unit that the quantity does not have is a
// programmer's error and panics.
func In[M Measure](m M, name string) string {
	return m.Quantity().In(float64(m), name)
}

// Value returns m as a number of the named unit; like In, it panics on a unit
// that the quantity does not have.
func Value[M Measure](m M, name string) float64 {
	u := m.Quantity().mustFind(name)
	return (float64(m) - u.Zero) / u.Size
}

// Text prints the SI value v in the units of system.
func (q *Quantity) Text(v float64, system System) string {
	return q.In(v, q.UnitFor(v, system))
}

// UnitFor names the unit in which system prints the SI value v.
func (q *Quantity) UnitFor(v float64, system System) string {
	shows := q.Metric
	if system == US {
		shows = q.US
	}
	if v == 0 && system == Metric {
		return q.Units[0].Name
	}
	for _, s := range shows {
		if s.Below == 0 || math.Abs(v) < s.Below {
			return s.Unit
		}
	}
	return shows[len(shows)-1].Unit
}

// In prints the SI value v in the named unit.
func (q *Quantity) In(v float64, name string) string {
	u := q.mustFind(name)
	n := (v - u.Zero) / u.Size
	number := Figures(n, 3)
	if u.Name == "in" {
		if f, ok := Fraction(n); ok {
			number = f
		}
	}
	switch {
	case u.Name == "money":
		return strconv.FormatFloat(n, 'f', 2, 64)
	case u.Name == "per h", u.Name == "per m", u.Name == "per ft":
		return strconv.FormatFloat(n, 'f', 2, 64) + " " + u.Name
	case u.Name == "°":
		return number + "°"
	}
	return number + " " + u.Name
}

// About prints the SI value v in the named unit with no more figures than that, in
// front of the point as well: for what is not known any better.
func (q *Quantity) About(v float64, name string, figures int) string {
	u := q.mustFind(name)
	return q.In(Round((v-u.Zero)/u.Size, figures)*u.Size+u.Zero, name)
}

// Between prints a range of SI values that are themselves only about right, such
// as "about 9 to 21 mm" or "about 3/8 to 13/16 in": in steps of at most a sixth of
// its width, and of two figures or a mark of a rule.
func (q *Quantity) Between(low, high float64, name string) string {
	u := q.mustFind(name)
	say := func(v float64) string { return q.About(v, name, 2) }
	if wide := (high - low) / u.Size / 6; wide > 0 {
		step := math.Pow10(int(math.Floor(math.Log10(wide))))
		switch {
		case name == "in":
			step = math.Exp2(max(math.Floor(math.Log2(wide)), -6)) // a rule's marks
		case step*5 <= wide:
			step *= 5
		case step*2 <= wide:
			step *= 2
		}
		say = func(v float64) string {
			n, step := (v-u.Zero)/u.Size, step
			if name != "in" && n != 0 {
				step = max(step, math.Pow10(int(math.Floor(math.Log10(math.Abs(n))))-1))
			}
			return q.In(math.Round(n/step)*step*u.Size+u.Zero, name)
		}
	}
	from, to := say(low), say(high)
	if from == to {
		return "about " + to
	}
	return "about " + strings.TrimSuffix(from, " "+name) + " to " + to
}

// Round rounds n to that many significant figures.
func Round(n float64, figures int) float64 {
	if n == 0 || math.IsNaN(n) || math.IsInf(n, 0) {
		return n
	}
	p := math.Pow10(figures - 1 - int(math.Floor(math.Log10(math.Abs(n)))))
	return math.Round(n*p) / p
}

func (q *Quantity) mustFind(name string) Unit {
	u, ok := q.Find(name)
	if !ok {
		panic("unit: " + name + " is not a unit of " + q.Name)
	}
	return u
}

// Figures prints n to that many significant figures, never rounding away the
// whole part of a number, and without idle zeros behind the point.
func Figures(n float64, figures int) string {
	if n == 0 || math.IsNaN(n) || math.IsInf(n, 0) {
		return strconv.FormatFloat(n, 'f', -1, 64)
	}
	decimals := max(figures-1-int(math.Floor(math.Log10(math.Abs(n)))), 0)
	s := strconv.FormatFloat(n, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// Fraction prints n as a ruler shows it, 1-1/2 or 3/8, if it lies within a
// five-hundredth of its size of a mark of at most 1/64.
func Fraction(n float64) (string, bool) {
	if n < 1.0/64*0.998 || n > 100 {
		return "", false
	}
	marks := int(math.Round(n * 64))
	if math.Abs(n*64-float64(marks)) > n*64*0.002 {
		return "", false
	}
	whole, num, den := marks/64, marks%64, 64
	for num > 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	switch {
	case num == 0:
		return strconv.Itoa(whole), true
	case den > 16 && whole > 0:
		return "", false // nobody reads 3-37/64 off a rule
	case whole == 0:
		return strconv.Itoa(num) + "/" + strconv.Itoa(den), true
	}
	return strconv.Itoa(whole) + "-" + strconv.Itoa(num) + "/" + strconv.Itoa(den), true
}
