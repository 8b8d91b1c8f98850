package unit

import (
	"math"
	"strconv"
	"strings"
)

// Doubt says how far off a value may be, and with that how finely it is told: no
// figure is finer than its doubt.
type Doubt struct {
	Sort  Sort
	Share Ratio // ± part of the value, as far as that is known
}

// InDoubt is the doubt of whatever may be off by a tenth or more: two figures.
var InDoubt = Doubt{Share: 0.1}

// Sort is what a quantity measures, where that says how finely people read it.
type Sort string

const (
	Usual   Sort = ""        // by the steps of its unit
	Plate   Sort = "plate"   // a thickness: a plate's fraction, a sheet's two figures
	Marking Sort = "marking" // laid out with a rule, a tape or a protractor: 1/16 in, 0.5 mm, 0.5°
	Bore    Sort = "bore"    // read with a pin: 0.01 mm, 0.001 in; a tip is worn at 0.15 mm, so 0.1 mm would hide it
	Kerf    Sort = "kerf"    // a kerf, a pit, a gap: two figures
	Slack   Sort = "slack"   // a give-or-take: one figure, of a 1 two
	Worked  Sort = "worked"  // a step of a sum that somebody checks by hand: three figures
	Entered Sort = "entered" // what a person typed stays what he typed
)

// Grain is the step in which numbers of a unit are told that are at least From.
type Grain struct{ From, Step float64 }

// Say prints the SI value v in the named unit, as finely as d allows.
func (q *Quantity) Say(v float64, name string, d Doubt) string {
	return q.say(v, name, d, 0)
}

// Up and Down are Say for a limit that must not be passed by rounding.
func (q *Quantity) Up(v float64, name string, d Doubt) string   { return q.say(v, name, d, 1) }
func (q *Quantity) Down(v float64, name string, d Doubt) string { return q.say(v, name, d, -1) }

// say is Say, rounding up where way is 1 and down where it is -1.
func (q *Quantity) say(v float64, name string, d Doubt, way int) string {
	u := q.mustFind(name)
	n := (v - u.Zero) / u.Size
	if math.IsNaN(n) || math.IsInf(n, 0) {
		return u.with(Figures(n, 3))
	}
	step, ruled := u.step(q, math.Abs(n), d)
	n = inSteps(n, step, way)
	if ruled {
		return u.with(marks(n))
	}
	number := decimal(n, step)
	if _, cents, _ := strings.Cut(number, "."); u.isMoney() && len(cents) == 1 {
		number += "0"
	}
	return u.with(number)
}

// Short reports whether v can be written in the named unit with six figures, as
// people write: 20 in/min are 0.3333… in/s.
func (q *Quantity) Short(v float64, name string) bool {
	u := q.mustFind(name)
	n := (v - u.Zero) / u.Size
	return math.Abs(Round(n, 6)-n) < 1e-9*math.Abs(n) || n == 0
}

// inSteps rounds n to whole steps; a step of 0 leaves it.
func inSteps(n, step float64, way int) float64 {
	switch {
	case step == 0:
		return n
	case way > 0:
		return math.Ceil(n/step-1e-6) * step
	case way < 0:
		return math.Floor(n/step+1e-6) * step
	}
	return math.Copysign(math.Floor(math.Abs(n)/step+0.5+1e-9)*step, n) // 6.35 is 6.4
}

// step is the step in which a number of that size is told, and whether as a mark of
// a rule. A step of 0 is none.
func (u Unit) step(q *Quantity, n float64, d Doubt) (step float64, ruled bool) {
	if q == length && u.Name == "in" {
		return inches(n, d)
	}
	two := figure(n, 2)
	switch {
	case d.Sort == Entered:
		return min(figure(n, 6), 1), false
	case d.Sort == Worked:
		return min(figure(n, 3), 1), false
	case d.Sort == Slack:
		return slack(n), false
	case d.Sort == Bore && u.Name == "mm" && n < 2:
		step = 0.01
	case d.Sort == Marking && u.Name == "mm":
		step = 1
		if n < 10 {
			step = 0.5
		}
	case d.Sort == Marking && u.Name == "°":
		step = 0.5
	case d.Sort == Plate && u.Name == "mm" && n >= 1 && n < 20: // half an inch is 12.7 mm
		step = 0.1
	case d.Sort == Plate, d.Sort == Kerf, d.Sort == Bore:
		step = two
	default:
		step = two
		if grain := u.grain(n); grain > 0 {
			step = grain
		}
	}
	if u.Zero != 0 {
		return step, false // a share of a temperature says nothing
	}
	return max(step, d.coarsest(n)), false
}

// coarsest is the step that the share of doubt allows: two figures from a tenth on,
// one from a half on.
func (d Doubt) coarsest(n float64) float64 {
	switch {
	case d.Share >= 0.5:
		return figure(n, 1)
	case d.Share >= 0.1:
		return figure(n, 2)
	}
	return 0
}

// grain is the unit's own step for numbers of that size, 0 where it has none.
func (u Unit) grain(n float64) float64 {
	step := 0.0
	for _, g := range u.Grains {
		if n >= g.From {
			step = g.Step
		}
	}
	return step
}

// inches is step for inches, which a rule shows in halves of halves. What is less
// than 1/16, or lies on no mark of sheet, is decimal.
func inches(n float64, d Doubt) (step float64, ruled bool) {
	switch d.Sort {
	case Entered:
		if _, ok := Fraction(n); ok && math.Abs(n*64-math.Round(n*64)) < 1e-6 {
			return 1.0 / 64, true
		}
		return min(figure(n, 6), 1), false
	case Worked:
		mark := 1.0 / 16
		if n < 0.25 {
			mark = 1.0 / 32
		}
		if _, ok := Fraction(n); ok && math.Abs(n-math.Round(n/mark)*mark) <= 0.002*n {
			return mark, true
		}
		return min(figure(n, 3), 1), false
	case Bore:
		if n < 0.1 {
			return max(0.001, d.coarsest(n)), false
		}
		return figure(n, 2), false
	case Kerf:
		return figure(n, 2), false
	case Slack:
		return slack(n), false
	}
	step = 1.0 / 16
	if n < 0.25-1.0/128 {
		step = 1.0 / 32
	}
	switch {
	case d.Sort == Marking: // a rule has no mark below its finest
	case n < 3.0/64:
		return figure(n, 2), false
	case n < 5.0/32 && d.Share == 0 && math.Abs(n-math.Round(n/step)*step) > 0.02*n: // of no plate
		return figure(n, 2), false
	case n > 100:
		step = 1
	}
	if d.Share >= 0.1 {
		for step < 64 && step*2 <= 0.1*n {
			step *= 2
		}
		if step > 1 {
			step = max(1, figure(n, 2))
		}
	}
	return step, true
}

// slack is the step of a give-or-take: one figure, but two where the first is a 1.
func slack(n float64) float64 {
	if one := figure(n, 1); n > 0 && n < 1.95*one {
		return one / 10
	}
	return figure(n, 1)
}

// figure is the worth of that many figures of n.
func figure(n float64, figures int) float64 {
	if n == 0 {
		return 0
	}
	at := math.Floor(math.Log10(math.Abs(n)))
	if worth := math.Pow10(int(at) + 1 - figures); math.Round(n/worth)*worth < math.Pow10(int(at)+1) {
		return worth
	}
	return math.Pow10(int(at) + 2 - figures) // 9.96 is told as 10, not as 10.0
}

// TwoFigures prints a number with two figures, an idle zero too, as sheet is listed:
// 0.060 beside 0.048.
func TwoFigures(n float64) string {
	step := figure(n, 2)
	return strconv.FormatFloat(inSteps(n, step, 0), 'f', max(0, int(-math.Floor(math.Log10(step)+1e-9))), 64)
}

// decimal prints a number that was rounded to whole steps, without idle zeros.
func decimal(n, step float64) string {
	decimals := 0
	if step > 0 {
		for whole := step; decimals < 12 && (whole < 0.999 || math.Abs(whole-math.Round(whole)) > 1e-6); decimals++ {
			whole *= 10
		}
	}
	return trimmed(n, decimals)
}

// marks prints a number that lies on a mark of a rule.
func marks(n float64) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	whole, part := math.Modf(n)
	num, den := int(math.Round(part*64)), 64
	for num > 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	switch {
	case num == 0:
		return sign + strconv.Itoa(int(math.Round(n)))
	case whole == 0:
		return sign + strconv.Itoa(num) + "/" + strconv.Itoa(den)
	}
	return sign + strconv.Itoa(int(whole)) + "-" + strconv.Itoa(num) + "/" + strconv.Itoa(den)
}

// Between prints a range of SI values that are themselves only about right, such
// as "about 9 to 21 mm" or "about 3/8 to 13/16 in": in steps of at most a sixth of
// its width, and no finer than d allows.
func (q *Quantity) Between(low, high float64, name string, d Doubt) string {
	return q.between(low, high, name, d, 0)
}

// Spanning is Between for a range that must hold all that lies from low to high: it is
// rounded outwards.
func (q *Quantity) Spanning(low, high float64, name string, d Doubt) string {
	return q.between(low, high, name, d, 1)
}

func (q *Quantity) between(low, high float64, name string, d Doubt, out int) string {
	u := q.mustFind(name)
	d.Share = max(d.Share, InDoubt.Share)
	wide := (high - low) / u.Size / 6
	say := func(v float64, way int) string {
		n := (v - u.Zero) / u.Size
		step, ruled := u.step(q, math.Abs(n), d)
		if wide > 0 && ruled {
			step = max(step, math.Exp2(math.Floor(math.Log2(wide))))
		} else if wide > 0 {
			step = max(step, round125(wide))
		}
		n = inSteps(n, step, way)
		if ruled {
			return u.with(marks(n))
		}
		return u.with(decimal(n, step))
	}
	from, to := say(low, -out), say(high, out)
	if from == to {
		return "about " + to
	}
	return "about " + strings.TrimSuffix(from, " "+name) + " to " + to
}

// round125 is the largest of 1, 2 and 5 times a power of ten that is not above n.
func round125(n float64) float64 {
	step := math.Pow10(int(math.Floor(math.Log10(n))))
	switch {
	case step*5 <= n:
		return step * 5
	case step*2 <= n:
		return step * 2
	}
	return step
}
