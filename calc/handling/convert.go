package handling

import (
	"fmt"
	"math"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// ConvertInput is a value with its unit, and the unit wanted.
type ConvertInput struct {
	Value string // "90psi", 5'6", "85F"
	To    string // "bar"; "" for the unit that the trade would print
	US    bool   // print in US units where To is empty
}

// ConvertResult is the value in the unit wanted.
type ConvertResult struct {
	Quantity *unit.Quantity
	SI       float64   // the value in Quantity.SI
	Unit     unit.Unit // the unit wanted
	Number   float64   // (SI − Unit.Zero) / Unit.Size
	Ruler    string    // a length as a ruler or tape shows it: 5 ft 6-3/16 in
	RulerOff unit.Length
}

// ComputeConvert reads a value of whatever quantity and gives it in another
// unit of the same one:
//
//	number = (value in SI − zero) / size     zero is 0 but for °C and °F
//
// Mixed quantities are refused, and so are a number without a unit,
// currencies, and a temperature below absolute zero. Unit sizes stand in
// package unit, from NIST SP 811.
func ComputeConvert(in ConvertInput) (ConvertResult, error) {
	q, si, err := readAny(in.Value, in.To)
	if err != nil {
		return ConvertResult{}, err
	}
	var money unit.Money
	var temperature unit.Temperature
	switch {
	case q == money.Quantity():
		return ConvertResult{}, problem.New(problem.Refused, "value", "Kerfside knows no rates of exchange", "Ask a bank.")
	case q == temperature.Quantity() && si < 0:
		return ConvertResult{}, problem.New(problem.Range, "value", "that is colder than anything can be", "At least −273.15 °C or −459.67 °F.")
	}
	name := in.To
	if name == "" {
		system := unit.Metric
		if in.US {
			system = unit.US
		}
		name = q.UnitFor(si, system)
	}
	u, ok := q.Find(name)
	if !ok {
		return ConvertResult{}, noSuchUnit(name, q)
	}
	res := ConvertResult{Quantity: q, SI: si, Unit: u, Number: (si - u.Zero) / u.Size}
	if math.IsInf(res.Number, 0) {
		return ConvertResult{}, problem.New(problem.Range, "value", "that is too large to print in "+u.Name, "Pick a larger unit.")
	}
	var length unit.Length
	if q == length.Quantity() {
		res.Ruler, res.RulerOff = ruler(unit.Length(si))
	}
	return res, nil
}

// readAny finds the quantity that the value, or else the unit wanted, belongs
// to and reads the value in SI.
func readAny(value, to string) (*unit.Quantity, float64, error) {
	if strings.TrimSpace(value) == "" {
		return nil, 0, problem.New(problem.Missing, "value", "there is nothing to convert yet", "Enter a number with its unit, such as 90psi.")
	}
	if _, err := unit.ReadNumber(value); err == nil {
		return nil, 0, problem.Newf(problem.Unit, "value", "%s has no unit", value).WithHint("Write the unit behind it, such as 90psi or 6.2bar.")
	}
	if _, ok := form.CutGauge(value); ok && !strings.HasSuffix(strings.ToLower(strings.TrimSpace(value)), "g") {
		return nil, 0, problem.New(problem.Refused, "value", "a gauge is not a unit: the metal decides what it means", "Use the calculator gauge.")
	}
	var first error
	for _, q := range unit.All {
		si, err := q.Parse(value, "")
		if err == nil {
			return q, si, nil
		}
		if first == nil || problem.KindOf(err) != problem.Unit {
			first = err // an odd number tells more than an odd unit
		}
	}
	p := problem.From(first)
	if p.Kind == problem.Unit {
		p = problem.Newf(problem.Unit, "value", "%q ends in no unit that Kerfside knows", value)
	}
	p = p.WithHint("Enter a number with its unit, such as 90psi, 1/4in, 85F or 170l/min.")
	if to != "" {
		for _, q := range unit.All {
			if _, ok := q.Find(to); ok {
				p = p.WithHint("Units of %s: %s.", q.Name, strings.Join(q.Names(), ", "))
			}
		}
	}
	return nil, 0, p.WithField("value")
}

// noSuchUnit says what the unit would have been, or that it is none.
func noSuchUnit(name string, q *unit.Quantity) error {
	p := problem.Newf(problem.Unit, "to", "%q is not a unit that Kerfside knows", name)
	for _, other := range unit.All {
		if _, ok := other.Find(name); ok {
			p = problem.Newf(problem.Unit, "to", "%s is a unit of %s, but the value is %s", name, other.Name, q.A())
			break
		}
	}
	return p.WithHint("Units of %s: %s.", q.Name, strings.Join(q.Names(), ", "))
}

// ruler returns the nearest mark of a rule (1/64 in below 6 in) or tape
// (1/16 in) and how far v is past it.
func ruler(v unit.Length) (string, unit.Length) {
	size := math.Abs(float64(v / unit.Inch))
	den := 64
	if size >= 6 {
		den = 16
	}
	if size > 1e6 {
		return "", 0 // past any tape
	}
	marks := int(math.Round(size * float64(den)))
	sign := unit.Length(1)
	text := mark(marks, den)
	if v < 0 {
		sign, text = -1, "−"+text
	}
	return text, v - sign*unit.Length(marks)/unit.Length(den)*unit.Inch
}

// mark prints marks/den inches in feet, inches and the lowest fraction.
func mark(marks, den int) string {
	feet, rest := marks/(12*den), marks%(12*den)
	inches, num := rest/den, rest%den
	for num > 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	var parts []string
	if feet > 0 {
		parts = append(parts, fmt.Sprintf("%d ft", feet))
	}
	switch {
	case num > 0 && inches > 0:
		parts = append(parts, fmt.Sprintf("%d-%d/%d in", inches, num, den))
	case num > 0:
		parts = append(parts, fmt.Sprintf("%d/%d in", num, den))
	case inches > 0 || feet == 0:
		parts = append(parts, fmt.Sprintf("%d in", inches))
	}
	return strings.Join(parts, " ")
}

// Convert is the calculator convert.
var Convert = form.Declaration{Name: "convert", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Convert units",
		About: "Turn a value into another unit, and a length into the nearest mark of a rule.",
		Place: "cut",
		Terms: []string{"units", "metric", "imperial", "inches", "millimetres", "psi", "bar", "cfm", "fahrenheit", "celsius", "fraction", "tape"},
		Fields: []form.Field{
			{Key: "value", Label: "Value with its unit", Takes: form.Text(), Help: "As you would write it: 90psi, 1-1/2in, 5'6\", 85F",
				Chips: []string{"1/4in", "6mm", "90psi", "6.2bar", "6cfm", "85F"}},
			{Key: "to", Label: "Unit wanted", Takes: form.Text(), Optional: true, Help: "Left empty, you get all of them",
				Chips: []string{"mm", "in", "bar", "psi", "l/min", "cfm"}},
		},
		Results: []form.Result{
			{Key: "result", Label: "Result", Gives: form.AnyNumber(), Main: true},
			{Key: "number", Label: "The bare number", Gives: form.Factor()},
			{Key: "quantity", Label: "Kind", Gives: form.Text()},
			{Key: "ruler", Label: "Nearest mark on the rule", Gives: form.Text(), Main: true},
			{Key: "ruler_off", Label: "Past that mark", Gives: form.Number[unit.Length]("mm", "thou")},
			{Key: "all", Label: "In every unit", Gives: form.Rows("text", "In every unit")},
		},
		Sources: []source.ID{"sp811"},
		Run:     runConvert,
	}
}}

// convertFigures are one more than a tradesman's instrument tells: a unit is exact,
// and what is converted may go on into a sum.
const convertFigures = 4

func runConvert(r *form.Reader, a *form.Answer) error {
	in := ConvertInput{Value: form.GetText(r, "value"), To: form.GetText(r, "to"), US: r.System() == unit.US}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeConvert(in)
	if err != nil {
		return err
	}
	a.PutOf("result", res.Quantity, res.Unit.Name, res.SI, convertFigures)
	a.PutFactor("number", res.Number)
	a.PutWord("quantity", res.Quantity.Name)
	if res.Ruler != "" {
		a.PutWord("ruler", res.Ruler)
		form.Put(a, "ruler_off", res.RulerOff)
	}
	putAllUnits(a, res)
	si, number := unit.Figures(res.SI, convertFigures), unit.Figures(res.Number, convertFigures)
	if res.Unit.Zero != 0 {
		a.Step("%s = %s %s; (%s − %.2f) ÷ %s = %s %s", in.Value, si, res.Quantity.SI, si, res.Unit.Zero, unit.Figures(res.Unit.Size, convertFigures), number, res.Unit.Name)
	} else {
		a.Step("%s = %s %s; one %s is %s %s; %s ÷ %s = %s %s", in.Value, si, res.Quantity.SI, res.Unit.Name,
			unit.Figures(res.Unit.Size, convertFigures), res.Quantity.SI, si, unit.Figures(res.Unit.Size, convertFigures), number, res.Unit.Name)
	}
	warnConvert(a, res.Quantity)
	return nil
}

func putAllUnits(a *form.Answer, res ConvertResult) {
	var rows []*form.Row
	for _, u := range res.Quantity.Units {
		n := (res.SI - u.Zero) / u.Size
		if math.IsInf(n, 0) {
			continue
		}
		row := a.NewRow()
		row.PutWord("unit", u.Name)
		row.PutFactor("number", n)
		row.PutWord("text", unit.Figures(n, convertFigures)+" "+u.Name)
		rows = append(rows, row)
	}
	a.PutRows("all", rows)
}

// warnConvert names what a bare unit does not tell.
func warnConvert(a *form.Answer, q *unit.Quantity) {
	var pressure unit.Pressure
	var flow unit.Flow
	switch q {
	case pressure.Quantity():
		a.Caution("A shop gauge reads above the air around it. Gauge stays gauge here, absolute stays absolute.")
	case flow.Quantity():
		a.Caution("Only the unit changes. Makers count free air differently, up to a tenth apart: read what the figure stands for.")
	}
}
