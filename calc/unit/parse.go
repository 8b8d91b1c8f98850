package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"kerfside/calc/problem"
)

// Parse reads a quantity as a tradesman writes it; a bare number is in the
// unit bare. It reads
//
//	6mm  6,5 mm  1/4in  1-1/2"  1 1/2 in  1½in  5'6"  2 ft 3 in  85F  1min 30s
//
// A comma is a decimal comma, always. An error is a *problem.Error without a
// field: Malformed when it is no number, Unit when the unit belongs to another
// quantity or to none, or has to be asked for (see unclear).
func Parse[M Measure](text, bare string) (M, error) {
	var m M
	v, err := m.Quantity().Parse(text, bare)
	return M(v), err
}

// Parse reads text as a value of q in SI units; see the function Parse.
func (q *Quantity) Parse(text, bare string) (float64, error) {
	v, _, err := q.ParseIn(text, bare)
	return v, err
}

// ParseIn is Parse that also tells the unit in which the value was written.
func (q *Quantity) ParseIn(text, bare string) (v float64, in string, err error) {
	rest := strings.TrimSpace(text)
	if rest == "" {
		return 0, "", problem.New(problem.Missing, "", "nothing was entered", q.Allowed(bare))
	}
	sum, last := 0.0, math.Inf(1)
	for parts := 0; rest != ""; parts++ {
		number, after, err := readNumber(rest)
		if err != nil {
			return 0, "", problem.Newf(problem.Malformed, "", "%q is not a number that can be read", text).WithHint("%s", q.Allowed(bare))
		}
		name, after := readUnit(after)
		if name == "" {
			if parts > 0 {
				return 0, "", problem.Newf(problem.Malformed, "", "the second number of %q has no unit", text).WithHint("%s", q.Allowed(bare))
			}
			if p := q.unclear(text, number, hasFraction(rest[:len(rest)-len(after)]), bare); p != nil {
				return 0, "", p
			}
			name = bare
		}
		u, ok := q.Find(name)
		if !ok {
			return 0, "", q.wrongUnit(text, name, bare)
		}
		if parts > 0 && (!q.Compound || u.Size >= last || number < 0) {
			return 0, "", problem.Newf(problem.Malformed, "", "%q holds more than one %s", text, q.Name).WithHint("%s", q.Allowed(bare))
		}
		v := number*u.Size + u.Zero
		if sum < 0 {
			v = -v // minus 5 ft 6 in is 5 ft 6 in below zero
		}
		sum, last, in = sum+v, u.Size, u.Name
		rest = strings.TrimSpace(after)
	}
	if math.IsInf(sum, 0) || math.IsNaN(sum) {
		return 0, "", problem.Newf(problem.Malformed, "", "%q is too large to reckon with", text).WithHint("%s", q.Allowed(bare))
	}
	return sum, in, nil
}

// Kin reports whether one unit of q is a whole number of the other, as inches and
// feet are, or millimetres and metres: a figure that is round in one is in both.
func (q *Quantity) Kin(one, other string) bool {
	a, b := q.mustFind(one), q.mustFind(other)
	times := max(a.Size/b.Size, b.Size/a.Size)
	return math.Abs(times-math.Round(times)) < 1e-9*times && a.Zero == b.Zero
}

func (q *Quantity) wrongUnit(text, name, bare string) error {
	p := problem.Newf(problem.Unit, "", "%q is not a unit of %s (read in %q)", name, q.Name, text)
	if other, ok := owner(name); ok {
		p = problem.Newf(problem.Unit, "", "%q is %s; %s is wanted", text, other.A(), q.A())
	}
	return p.WithHint("%s", q.Allowed(bare))
}

// unclear asks for the unit of a number without one that is seldom meant in the
// bare unit: a fraction, which is written by those who think in inches and
// pounds, and in percent a number of 1 or less, which may be a share.
func (q *Quantity) unclear(text string, n float64, fraction bool, bare string) *problem.Error {
	text = strings.TrimSpace(text)
	if q == ratio {
		if bare != "%" || n <= 0 || n > 1 && !fraction {
			return nil
		}
		return problem.Newf(problem.Unit, "", "%q may be a share or a percentage", text).
			WithHint("Write %s%%, or %s%%.", Figures(100*n, 6), Figures(n, 6))
	}
	u, ok := q.Find(bare)
	us := q.UnitFor(n*u.Size, US)
	if !ok || !fraction || shows(q.Metric, us) || shows(q.US, bare) {
		return nil
	}
	if q == length && bare == "mm" {
		return problem.Newf(problem.Unit, "", "%q is a fraction without a unit", text).
			WithHint("Write %sin, or %smm.", text, Figures(n*float64(Inch/Millimetre), 4))
	}
	return problem.Newf(problem.Unit, "", "%q is a fraction without a unit", text).WithHint("Write %s%s, or %s%s.", text, us, text, bare)
}

func shows(list []Show, name string) bool {
	for _, s := range list {
		if s.Unit == name {
			return true
		}
	}
	return false
}

// IsFraction reports whether text is a fraction without a unit, such as 1/2,
// 1-1/2 or ½.
func IsFraction(text string) bool {
	_, err := ReadNumber(text)
	return err == nil && hasFraction(text)
}

func hasFraction(number string) bool { return strings.ContainsAny(number, "/½¼¾⅛⅜⅝⅞") }

// Allowed says how to write a value of q.
func (q *Quantity) Allowed(bare string) string {
	hint := "Write a number with one of " + strings.Join(q.Names(), ", ")
	if bare != "" {
		hint += "; a bare number is in " + bare
	}
	return hint + "."
}

// ReadNumber reads a number without a unit: decimal with point or comma, or a
// fraction such as 1-1/2. The whole text must be the number.
func ReadNumber(text string) (float64, error) {
	v, rest, err := readNumber(strings.TrimSpace(text))
	if err == nil && strings.TrimSpace(rest) != "" {
		err = fmt.Errorf("%q follows the number", rest)
	}
	if err != nil {
		return 0, problem.Newf(problem.Malformed, "", "%q is not a number that can be read", text).
			WithHint("Write a number such as 3, 0.5 or 1-1/2.")
	}
	return v, nil
}

// readNumber reads the number that s starts with and returns what follows it.
func readNumber(s string) (v float64, rest string, err error) {
	sign := 1.0
	switch {
	case strings.HasPrefix(s, "-"), strings.HasPrefix(s, "−"):
		sign = -1
		s = strings.TrimPrefix(strings.TrimPrefix(s, "-"), "−")
	case strings.HasPrefix(s, "+"):
		s = s[1:]
	}
	if v, rest, ok := readVulgar(s); ok { // ½ in
		return sign * v, rest, nil
	}
	whole, rest, err := readDecimal(s)
	if err != nil {
		return 0, s, err
	}
	if v, rest, ok := readVulgar(rest); ok { // 1½ in
		return sign * (whole + v), rest, nil
	}
	if strings.HasPrefix(rest, "/") { // 3/8
		den, after, err := readDecimal(rest[1:])
		if name, _ := readUnit(rest); err != nil && isUnit(name) { // 65/h
			return sign * whole, rest, nil
		}
		if err != nil || den == 0 {
			return 0, s, fmt.Errorf("fraction without a denominator")
		}
		return sign * whole / den, after, nil
	}
	if v, after, ok := readTail(rest); ok { // 1-1/2 or 1 1/2
		return sign * (whole + v), after, nil
	}
	return sign * whole, rest, nil
}

// isUnit reports whether any quantity has the unit.
func isUnit(name string) bool {
	_, ok := owner(name)
	return name != "" && ok
}

// readTail reads the "-1/2" or " 1/2" that may follow a whole number.
func readTail(s string) (v float64, rest string, ok bool) {
	t := strings.TrimLeft(s, " \u00a0")
	if strings.HasPrefix(t, "-") {
		t = t[1:]
	} else if t == s {
		return 0, s, false
	}
	num, after, err := readDecimal(t)
	if err != nil || !strings.HasPrefix(after, "/") {
		return 0, s, false
	}
	den, after, err := readDecimal(after[1:])
	if err != nil || den == 0 {
		return 0, s, false
	}
	return num / den, after, true
}

var vulgar = map[string]float64{
	"½": 1.0 / 2, "¼": 1.0 / 4, "¾": 3.0 / 4, "⅛": 1.0 / 8, "⅜": 3.0 / 8, "⅝": 5.0 / 8, "⅞": 7.0 / 8,
}

func readVulgar(s string) (v float64, rest string, ok bool) {
	for sign, v := range vulgar {
		if rest, ok := strings.CutPrefix(s, sign); ok {
			return v, rest, true
		}
	}
	return 0, s, false
}

// readDecimal reads an unsigned decimal with point or comma. An exponent is
// read when digits follow it, as JSON writes very small numbers.
func readDecimal(s string) (v float64, rest string, err error) {
	i, digits, dot := 0, 0, false
	for i < len(s) {
		c := s[i]
		if c >= '0' && c <= '9' {
			digits++
		} else if (c == '.' || c == ',') && !dot {
			dot = true
		} else {
			break
		}
		i++
	}
	if digits == 0 {
		return 0, s, fmt.Errorf("no digits")
	}
	if i < len(s) && (s[i] == '.' || s[i] == ',') {
		return 0, s, fmt.Errorf("two decimal points")
	}
	end := i
	if j := exponent(s[i:]); j > 0 {
		end = i + j
	}
	v, err = strconv.ParseFloat(strings.Replace(s[:end], ",", ".", 1), 64)
	return v, s[end:], err
}

// exponent returns the length of an exponent such as "e-3" at the start of s.
func exponent(s string) int {
	if s == "" || (s[0] != 'e' && s[0] != 'E') {
		return 0
	}
	j := 1
	if j < len(s) && (s[j] == '-' || s[j] == '+') {
		j++
	}
	first := j
	for j < len(s) && s[j] >= '0' && s[j] <= '9' {
		j++
	}
	if j == first {
		return 0
	}
	return j
}

// readUnit reads the unit that s starts with, up to the next number. Units
// such as "J/mm", "s per 100 mm" and "ft2" hold digits, so the longest known
// name of any quantity is taken first.
func readUnit(s string) (name, rest string) {
	s = strings.TrimLeft(s, " \u00a0")
	if s == "" {
		return "", ""
	}
	best := ""
	try := func(n string) {
		if len(n) > len(best) && len(s) >= len(n) && mayFold(s[0], n[0]) && strings.EqualFold(s[:len(n)], n) && endsUnit(s[len(n):]) {
			best = s[:len(n)]
		}
	}
	for _, q := range All {
		for i := range q.Units {
			u := &q.Units[i]
			try(u.Name)
			for _, n := range u.Also {
				try(n)
			}
		}
	}
	if best != "" {
		return best, s[len(best):]
	}
	i := strings.IndexAny(s, "0123456789")
	if i < 0 {
		i = len(s)
	}
	return strings.TrimSpace(s[:i]), s[i:]
}

// mayFold reports whether texts that begin with those bytes may be alike but for capitals:
// in ASCII these differ by one bit. Most units are told apart by it.
func mayFold(a, b byte) bool { return a|b >= 0x80 || a|0x20 == b|0x20 }

// endsUnit reports whether a unit may end before s: at the end, a space, a
// digit or a sign, but not in the middle of a word.
func endsUnit(s string) bool {
	return s == "" || strings.ContainsRune(" \u00a00123456789.,-½¼¾⅛⅜⅝⅞", []rune(s)[0])
}
