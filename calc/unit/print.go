package unit

import (
	"math"
	"strconv"
	"strings"
)

// Text prints m for a person in the units of system.
func Text[M Measure](m M, system System) string {
	return m.Quantity().Text(float64(m), system)
}

// Say prints m for a person in the named unit, as finely as d allows.
func Say[M Measure](m M, name string, d Doubt) string {
	return m.Quantity().Say(float64(m), name, d)
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
	return q.Say(v, q.UnitFor(v, system), Doubt{})
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

// In prints the SI value v in the named unit, with three figures: for the working
// of a sum, and for values that a form takes. People are told Say.
func (q *Quantity) In(v float64, name string) string {
	u := q.mustFind(name)
	n := (v - u.Zero) / u.Size
	number := Figures(n, 3)
	if u.Name == "in" {
		if f, ok := Fraction(n); ok {
			number = f
		}
	}
	if u.isMoney() {
		number = strconv.FormatFloat(n, 'f', 2, 64)
	}
	return u.with(number)
}

func (u Unit) isMoney() bool {
	return u.Name == "money" || u.Name == "per h" || u.Name == "per m" || u.Name == "per ft"
}

// with puts the unit behind a number.
func (u Unit) with(number string) string {
	switch u.Name {
	case "money":
		return number
	case "°":
		return number + "°"
	}
	return number + " " + u.Name
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
	return trimmed(n, decimals)
}

// trimmed prints n with at most that many figures behind the point, without idle zeros.
func trimmed(n float64, decimals int) string {
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
