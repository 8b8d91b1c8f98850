package handling

import (
	"math"

	"kerfside/calc/form"
	"kerfside/calc/material"
	"kerfside/calc/problem"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// GaugeInput asks for one sheet by exactly one of number, thickness or weight.
type GaugeInput struct {
	Metal     material.Metal
	Number    string           // "16", "7/0"; "" if not given
	Thickness unit.Length      // measured; 0 if not given
	Weight    unit.AreaDensity // weighed; 0 if not given
}

// GaugeResult is the sheet of one gauge number, and what the same number means
// in other metals.
type GaugeResult struct {
	Number    int
	Thickness unit.Length      // nominal, of the number
	Weight    unit.AreaDensity // nominal, of the number
	Off       unit.Ratio       // what was measured or weighed ÷ nominal − 1; 0 for a number
	Gauging   *material.Gauging
	Same      []SameNumber
	Spread    unit.Ratio // thickest ÷ thinnest of Same − 1
}

// SameNumber is what a gauge number means in one metal.
type SameNumber struct {
	Metal     material.Metal
	Gauging   *material.Gauging
	Thickness unit.Length
	Weight    unit.AreaDensity
}

// sheetMetals are the metals whose sheet is sold by number.
var sheetMetals = []material.Metal{material.MildSteel, material.Galvanised, material.Stainless, material.Aluminium}

// ComputeGauge turns a gauge number into thickness and weight, or a measured
// thickness or weight into the nearest number. The laws stand in package
// material (type Gauging); where a gauging is one of thickness only, weight is
// density × thickness. A measure thicker or thinner than every number by more
// than half a step is refused: that metal is not sold by gauge.
func ComputeGauge(in GaugeInput) (GaugeResult, error) {
	given := 0
	for _, is := range []bool{in.Number != "", in.Thickness > 0, in.Weight > 0} {
		if is {
			given++
		}
	}
	switch {
	case given == 0:
		return GaugeResult{}, problem.New(problem.Missing, "gauge", "there is nothing to look up yet",
			"Enter the gauge number, or what the sheet measures, or what it weighs per area.")
	case given > 1:
		return GaugeResult{}, problem.New(problem.Conflict, "gauge", "a gauge number, a thickness and a weight are three ways to ask",
			"Enter one of them and leave the others empty.")
	}
	g, err := material.GaugingOf(in.Metal)
	if err != nil {
		return GaugeResult{}, problem.From(err).WithField("metal")
	}
	res := GaugeResult{Gauging: g}
	switch {
	case in.Number != "":
		if res.Number, err = g.Read(in.Number); err != nil {
			return GaugeResult{}, problem.From(err).WithField("gauge")
		}
	case in.Thickness > 0:
		of := func(n int) float64 { return float64(g.Thickness(n)) }
		res.Number, res.Off, err = nearest(g, "thickness", float64(in.Thickness), of)
	default:
		of := func(n int) float64 { return float64(weight(in.Metal, g, n)) }
		res.Number, res.Off, err = nearest(g, "weight", float64(in.Weight), of)
	}
	if err != nil {
		return GaugeResult{}, err
	}
	res.Thickness, res.Weight = g.Thickness(res.Number), weight(in.Metal, g, res.Number)
	res.Same, res.Spread = sameNumber(res.Number)
	return res, nil
}

// nearest finds the number whose value by of is nearest to v and how far off
// v is; it refuses v more than half a step outside the gauging.
func nearest(g *material.Gauging, field string, v float64, of func(int) float64) (int, unit.Ratio, error) {
	top := of(g.First) + (of(g.First)-of(g.First+1))/2
	foot := of(g.Last) - (of(g.Last-1)-of(g.Last))/2
	if v > top {
		return 0, 0, problem.Newf(problem.Refused, field, "that is thicker than number %s, the thickest of the %s", material.GaugeName(g.First), g.Name).
			WithHint("Plate goes by its thickness: use that, not a gauge.")
	}
	if v < foot {
		return 0, 0, problem.Newf(problem.Refused, field, "that is thinner than number %s, the thinnest of the %s", material.GaugeName(g.Last), g.Name).
			WithHint("Foil goes by its thickness: use that, not a gauge.")
	}
	n := g.Nearest(v, of)
	return n, unit.Ratio(v/of(n) - 1), nil
}

// weight returns what sheet of number n weighs: by the gauging if it says so,
// else density × thickness.
func weight(metal material.Metal, g *material.Gauging, n int) unit.AreaDensity {
	if w, ok := g.Weight(n); ok {
		return w
	}
	density, _, _ := metal.Density()
	return unit.AreaDensity(float64(density) * float64(g.Thickness(n)))
}

// sameNumber lists what n means in each metal that has it, and the spread of
// their thicknesses.
func sameNumber(n int) ([]SameNumber, unit.Ratio) {
	var same []SameNumber
	thin, thick := math.Inf(1), 0.0
	for _, metal := range sheetMetals {
		g, err := material.GaugingOf(metal)
		if err != nil || n < g.First || n > g.Last {
			continue
		}
		t := g.Thickness(n)
		same = append(same, SameNumber{Metal: metal, Gauging: g, Thickness: t, Weight: weight(metal, g, n)})
		thin, thick = math.Min(thin, float64(t)), math.Max(thick, float64(t))
	}
	if len(same) < 2 {
		return same, 0
	}
	return same, unit.Ratio(thick/thin - 1)
}

// Gauge is the calculator gauge.
var Gauge = form.Declaration{Name: "gauge", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Sheet gauge",
		About: "Turn a gauge number into thickness and weight, or back. One number means another thickness in each metal.",
		Place: "cut",
		Terms: []string{"gage", "ga", "swg", "sheet", "thickness", "manufacturers standard", "awg", "how thick", "tin"},
		Fields: []form.Field{
			{Key: "metal", Label: "Metal", Takes: material.Choice(), Default: string(material.MildSteel), Help: "The same number is another thickness in another metal"},
			{Key: "gauge", Label: "Gauge number", Takes: form.Text(), Optional: true, Chips: []string{"10ga", "12ga", "14ga", "16ga", "18ga", "20ga"},
				Help: "As the yard says it: 16, 16ga or 3/0"},
			{Key: "thickness", Label: "Measured thickness", Takes: form.Number[unit.Length]("mm", "in"), Optional: true,
				Help: "Caliper on a bare edge, burr off", Chips: []string{"1mm", "1.5mm", "2mm", "3mm"}, ChipsUS: []string{"1/16in", "1/8in"},
				Limits: form.Within(0.01*unit.Millimetre, 100*unit.Millimetre)},
			{Key: "weight", Label: "Weight per area", Takes: form.Number[unit.AreaDensity]("kg/m²", "lb/ft²"), Optional: true, Fine: true,
				Help: "A weighed piece divided by its area", Limits: form.Within[unit.AreaDensity](0.01, 1000)},
		},
		Results: []form.Result{
			{Key: "gauge", Label: "Gauge", Gives: form.Text(), Main: true},
			{Key: "thickness", Label: "Nominal thickness", Gives: form.Number[unit.Length]("mm", "in"), Main: true},
			{Key: "inch", Label: "In decimals of an inch", Gives: form.Factor()},
			{Key: "weight", Label: "Nominal weight", Gives: form.Number[unit.AreaDensity]("kg/m²", "lb/ft²"), Main: true},
			{Key: "system", Label: "Counted by", Gives: form.Text()},
			{Key: "off", Label: "Yours against nominal", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "same_number", Label: "The same number in other metals", Gives: form.Rows("metal", "Metal", "thickness", "Thickness", "weight", "Weight", "system", "Counted by")},
			{Key: "spread", Label: "Thickest over thinnest", Gives: form.Number[unit.Ratio]("%", "%")},
		},
		Sources: []source.ID{"usc15-206", "nbs-lc24", "smacna-galvanised", "gnu-units"},
		Run:     runGauge,
	}
}}

func runGauge(r *form.Reader, a *form.Answer) error {
	in := GaugeInput{
		Metal:     material.Metal(form.GetWord(r, "metal")),
		Number:    form.GetText(r, "gauge"),
		Thickness: form.Get[unit.Length](r, "thickness"),
		Weight:    form.Get[unit.AreaDensity](r, "weight"),
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeGauge(in)
	if err != nil {
		return err
	}
	inch := float64(res.Thickness / unit.Inch)
	a.PutWord("gauge", material.GaugeName(res.Number)+" ga")
	form.Put(a, "thickness", res.Thickness)
	a.PutFactor("inch", inch)
	form.Put(a, "weight", res.Weight)
	a.PutWord("system", res.Gauging.Name)
	if in.Number == "" {
		form.Put(a, "off", res.Off)
	}
	putSameNumber(a, res)
	sayGauge(a, in, res)
	return nil
}

func putSameNumber(a *form.Answer, res GaugeResult) {
	rows := make([]*form.Row, len(res.Same))
	for i, s := range res.Same {
		rows[i] = a.NewRow()
		rows[i].PutWord("metal", string(s.Metal))
		form.PutCell(rows[i], "thickness", form.Number[unit.Length]("mm", "in"), s.Thickness)
		form.PutCell(rows[i], "weight", form.Number[unit.AreaDensity]("kg/m²", "lb/ft²"), s.Weight)
		rows[i].PutWord("system", s.Gauging.Name)
	}
	a.Draw("sheets", map[string]any{"gauge": material.GaugeName(res.Number) + " ga", "rows": rows})
	a.PutRows("same_number", rows)
	if len(res.Same) > 1 {
		form.Put(a, "spread", res.Spread)
	}
}

func sayGauge(a *form.Answer, in GaugeInput, res GaugeResult) {
	name := material.GaugeName(res.Number)
	inch := float64(res.Thickness / unit.Inch)
	pounds := unit.Value(res.Weight, "lb/ft²")
	switch in.Metal {
	case material.MildSteel:
		a.Step("number %s of the law of 1893 = %s oz/ft²", name, unit.Figures(pounds*16, 3))
		a.Step("thickness = %s ÷ 16 ÷ 41.82 = %s in = %s", unit.Figures(pounds*16, 3), unit.Figures(inch, 3), unit.In(res.Thickness, "mm"))
	case material.Galvanised:
		a.Step("number %s of the law of 1893 = %s oz/ft², with 2.5 oz/ft² of zinc", name, unit.Figures(pounds*16-2.5, 3))
		a.Step("thickness = %s ÷ 16 ÷ 41.82 = %s in = %s, zinc and all", unit.Figures(pounds*16, 3), unit.Figures(inch, 3), unit.In(res.Thickness, "mm"))
		a.Caution(safety.ZincAsks)
	case material.Stainless:
		a.Step("number %s of the law of 1893 = %s oz/ft² of iron", name, unit.Figures(inch*640, 3))
		a.Step("thickness = %s ÷ 640 = %s in = %s", unit.Figures(inch*640, 3), unit.Figures(inch, 3), unit.In(res.Thickness, "mm"))
		a.Step("weight = 42 lb/ft² per inch × %s in = %.3g lb/ft² (trade custom, from memory)", unit.Figures(inch, 3), pounds)
	default:
		density, id, _ := in.Metal.Density()
		a.Step("thickness = 0.005 in × 92^((36 − %d)/39) = %s in = %s", res.Number, unit.Figures(inch, 3), unit.In(res.Thickness, "mm"))
		a.Step("weight = %s × %s = %s", unit.In(density, "kg/m³"), unit.In(res.Thickness, "mm"), unit.In(res.Weight, "kg/m²"))
		a.Cite(id)
	}
	if res.Gauging.WeightSource != "" {
		a.Cite(res.Gauging.WeightSource)
	}
	if len(res.Same) > 1 {
		a.Caution("%[2]s ga has %[1]d thicknesses, %[3]s apart, by metal. Measure, or order by thickness and metal.",
			len(res.Same), name, form.Say(a, res.Spread))
	}
	if math.Abs(float64(res.Off)) > 0.1 {
		a.Caution("Yours is %s off the nearest number: perhaps metric sheet or another metal. Set the torch by what you measured.", form.Say(a, res.Off))
	}
}
