package material

import (
	"math"
	"strconv"
	"strings"

	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Gauging is one way to number sheet by thickness. A number means nothing
// without it: 16 is 0.0598 in of steel, 0.0635 in galvanised, 0.0625 in of
// stainless and 0.0508 in of aluminium.
type Gauging struct {
	Name          string
	First, Last   int       // the thickest and thinnest number; 0 is 1/0, −6 is 7/0
	Source        source.ID // of the thickness
	WeightSource  source.ID // of the weight, if that is another
	inch          func(n int) float64
	poundsPerSqFt func(n int) float64 // nil where the number says nothing about weight
}

// The gaugings of the trade. All but the last count ounces per square foot on
// the ladder of the law of 1893:
//
//	Manufacturers' Standard  inch = oz/16 / 41.82           weight = oz/16 lb/ft²
//	galvanised               inch = (oz + 2.5)/16 / 41.82   weight = (oz + 2.5)/16 lb/ft²
//	US Standard              inch = oz/640                  (wrought iron of 480 lb/ft³)
//	Brown & Sharpe           inch = 0.005 · 92^((36−n)/39)
//
// Galvanised sheet is steel sheet of the same number with 2.5 oz/ft² more on
// it; its thickness counts the zinc. Stainless is sold by the US Standard
// number and, by trade custom, weighs 42 lb/ft² per inch.
var (
	manufacturers = Gauging{
		Name: "Manufacturers' Standard Gauge", First: 3, Last: 38, Source: "gnu-units",
		inch:          func(n int) float64 { return ounces(n) / 16 / steelPoundsPerInch },
		poundsPerSqFt: func(n int) float64 { return ounces(n) / 16 },
	}
	galvanisedSheet = Gauging{
		Name: "galvanised sheet gauge", First: 8, Last: 32, Source: "smacna-galvanised",
		inch:          func(n int) float64 { return (ounces(n) + zincOunces) / 16 / steelPoundsPerInch },
		poundsPerSqFt: func(n int) float64 { return (ounces(n) + zincOunces) / 16 },
	}
	usStandard = Gauging{
		Name: "US Standard Gauge", First: -6, Last: 38, Source: "usc15-206", WeightSource: "from-memory",
		inch:          func(n int) float64 { return ounces(n) / 640 },
		poundsPerSqFt: func(n int) float64 { return ounces(n) / 640 * stainlessPoundsPerInch },
	}
	brownSharpe = Gauging{
		Name: "Brown & Sharpe gauge (AWG)", First: -5, Last: 40, Source: "gnu-units",
		inch: func(n int) float64 { return 0.005 * math.Pow(92, float64(36-n)/39) },
	}
)

const (
	steelPoundsPerInch     = 41.82 // lb/ft² for each inch of thickness, by definition of the gauge
	stainlessPoundsPerInch = 42.0  // trade custom, from memory
	zincOunces             = 2.5   // oz/ft² of zinc counted on both faces
)

// ladder holds the knots of 15 U.S.C. 206 (wrought iron, 480 lb/ft³ by NBS
// Letter Circular 24, source "nbs-lc24") in ounces per square foot; the law
// counts in even steps from each knot to the next.
var ladder = []struct{ number, ounces float64 }{
	{-6, 320}, {1, 180}, {14, 50}, {16, 40}, {17, 36}, {20, 24}, {26, 12}, {31, 7}, {36, 4.5}, {38, 4},
}

// ounces returns the weight by the law of 1893, for −6 ≤ n ≤ 38.
func ounces(n int) float64 {
	i := 1
	for float64(n) > ladder[i].number {
		i++
	}
	a, b := ladder[i-1], ladder[i]
	return a.ounces + (b.ounces-a.ounces)*(float64(n)-a.number)/(b.number-a.number)
}

// GaugingOf returns how sheet of that metal is numbered. Cast iron has no
// sheet, so it is refused.
func GaugingOf(metal Metal) (*Gauging, error) {
	switch metal {
	case MildSteel:
		return &manufacturers, nil
	case Galvanised:
		return &galvanisedSheet, nil
	case Stainless:
		return &usStandard, nil
	case Aluminium, Copper, Brass:
		return &brownSharpe, nil
	}
	return nil, problem.Newf(problem.Refused, "", "sheet gauges say nothing about %s", metal).
		WithHint("Measure it and enter the thickness.")
}

// Thickness returns what the number n means, between First and Last.
func (g *Gauging) Thickness(n int) unit.Length {
	return unit.Length(g.inch(n)) * unit.Inch
}

// Weight returns the weight per area that the number n stands for, and false
// where the gauging is one of thickness only.
func (g *Gauging) Weight(n int) (unit.AreaDensity, bool) {
	if g.poundsPerSqFt == nil {
		return 0, false
	}
	return unit.AreaDensity(g.poundsPerSqFt(n) * float64(unit.Pound) / float64(unit.SquareFoot)), true
}

// Nearest returns the number whose value by of lies nearest to v; the thicker
// one of two equally near. of must fall as n grows.
func (g *Gauging) Nearest(v float64, of func(n int) float64) int {
	best := g.First
	for n := g.First + 1; n <= g.Last; n++ {
		if math.Abs(of(n)-v) < math.Abs(of(best)-v) {
			best = n
		}
	}
	return best
}

// Read reads a gauge number such as 16, 16ga, 7/0 or 0000 and checks that the
// gauging has it.
func (g *Gauging) Read(number string) (int, error) {
	n, ok := readGauge(number)
	if !ok {
		return 0, problem.Newf(problem.Malformed, "", "%q is not a gauge number", number).
			WithHint("Write a whole number such as 16, or 3/0.")
	}
	if n < g.First || n > g.Last {
		return 0, problem.Newf(problem.Range, "", "the %s has no number %s", g.Name, GaugeName(n)).
			WithHint("It runs from %s to %s. Measure the metal and enter its thickness.", GaugeName(g.First), GaugeName(g.Last))
	}
	return n, nil
}

// Gauge returns the thickness of sheet of that metal by its gauge number.
// An error is a *problem.Error without a field.
func Gauge(metal Metal, number string) (unit.Length, error) {
	g, err := GaugingOf(metal)
	if err != nil {
		return 0, err
	}
	n, err := g.Read(number)
	if err != nil {
		return 0, err
	}
	return g.Thickness(n), nil
}

// GaugeName prints a gauge number: 16, 0, 2/0 … 7/0.
func GaugeName(n int) string {
	if n >= 0 {
		return strconv.Itoa(n)
	}
	return strconv.Itoa(1-n) + "/0"
}

// readGauge reads a gauge number; 1/0 and 0 are the same, 2/0 or 00 is −1.
func readGauge(text string) (n int, ok bool) {
	t := strings.ToLower(strings.TrimSpace(text))
	for _, end := range []string{"gauge", "gage", "ga.", "ga", "g"} {
		if cut, found := strings.CutSuffix(t, end); found {
			t = strings.TrimSpace(cut)
			break
		}
	}
	t = strings.TrimSpace(strings.TrimPrefix(strings.TrimPrefix(t, "no."), "#"))
	if t != "" && strings.Trim(t, "0") == "" { // 0, 00, 000 …
		return 1 - len(t), true
	}
	noughts, slashed := strings.CutSuffix(t, "/0")
	n, err := strconv.Atoi(noughts)
	if err != nil || n < 1 || n > 1000 {
		return 0, false
	}
	if slashed {
		return 1 - n, true
	}
	return n, true
}
