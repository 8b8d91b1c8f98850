package safety

import (
	"math"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// ShadeInput is the arc, and what else stands before the eyes.
type ShadeInput struct {
	Current unit.Current
	Hidden  bool    // the work hides the arc
	Glasses float64 // shade of tinted eyewear under the helmet; 0 for none or clear
}

// ShadeResult is the filter to wear.
type ShadeResult struct {
	Minimum int // the least that 29 CFR 1910.133(a)(5) allows with the arc in sight
	Start   int // comfort shade to start with
	Finer   int // least shade of the finer table; only where the arc is hidden
	Comfort int // comfort shade of the finer table; only where the arc is hidden
	Helmet  int // least shade of the helmet over the glasses; 0 without glasses
	Row     string
}

// shades for plasma arc cutting by current. A current that two rows share
// belongs to the darker one.
type shadeRow struct {
	from             unit.Current
	minimum, comfort int
	row              string
}

// legalShades are the minimum of 29 CFR 1910.133(a)(5) (source "osha-133")
// beside the comfort shades of ANSI Z49.1:2005 (source "z49-2005").
var legalShades = []shadeRow{
	{from: 0, minimum: 8, comfort: 9, row: "under 300 A"},
	{from: 300, minimum: 9, comfort: 12, row: "300 to 400 A"},
	{from: 400, minimum: 10, comfort: 14, row: "400 to 800 A"},
}

// finerShades are those of AWS F2.2 (source "aws-f2-2"), from memory. Below 80 A
// they fall under the legal minimum, which holds wherever the arc is in sight.
var finerShades = []shadeRow{
	{from: 0, minimum: 4, comfort: 4, row: "under 20 A"},
	{from: 20, minimum: 5, comfort: 5, row: "20 to 40 A"},
	{from: 40, minimum: 6, comfort: 6, row: "40 to 60 A"},
	{from: 60, minimum: 8, comfort: 8, row: "60 to 80 A"},
	{from: 80, minimum: 8, comfort: 9, row: "80 to 300 A"},
	{from: 300, minimum: 9, comfort: 12, row: "300 to 400 A"},
	{from: 400, minimum: 10, comfort: 14, row: "400 to 800 A"},
}

// shadeCeiling is where both tables end.
const shadeCeiling = 800 * unit.Ampere

// ComputeShade looks the shade up by current. Over tinted glasses of shade g a
// helmet of shade N − g + 1 makes N, since a shade is 1 + 7/3 of an optical
// density and densities add. Above 800 A the tables say nothing: refused.
func ComputeShade(in ShadeInput) (ShadeResult, error) {
	if in.Current <= 0 {
		return ShadeResult{}, problem.New(problem.Range, "current", "there is no arc without current", "Enter the amps set on the machine.")
	}
	if in.Current > shadeCeiling {
		return ShadeResult{}, problem.New(problem.Range, "current", "the tables of shades end at 800 A", "Ask the maker of the machine and a competent person.")
	}
	legal := shadeFor(legalShades, in.Current)
	res := ShadeResult{Minimum: legal.minimum, Start: legal.comfort, Row: legal.row}
	if in.Hidden {
		finer := shadeFor(finerShades, in.Current)
		res.Finer, res.Comfort = finer.minimum, finer.comfort
	}
	if in.Glasses > 0 {
		res.Helmet = max(int(math.Ceil(float64(legal.minimum)-in.Glasses+1-1e-9)), 1)
	}
	return res, nil
}

// shadeFor returns the last row that begins at or below the current.
func shadeFor(rows []shadeRow, current unit.Current) shadeRow {
	row := rows[0]
	for _, r := range rows {
		if current >= r.from {
			row = r
		}
	}
	return row
}

// EyeShade is the calculator eye-shade.
var EyeShade = form.Declaration{Name: "eye-shade", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Eye shade",
		About: "Says which filter the law wants at these amps, and where to start.",
		Place: "ready",
		Terms: []string{"lens", "filter", "helmet", "goggles", "glass", "eyes", "arc eye", "dark", "shade number"},
		Fields: []form.Field{
			{Key: "current", Label: "Cutting current", Known: "plan.current", Takes: form.Number[unit.Current]("A", "A"), Help: "The amps set on the machine",
				Chips: []string{"20A", "30A", "40A", "60A", "80A"}, Limits: form.Within[unit.Current](0.1, 2000)},
			{Key: "arc", Label: "The arc is", Takes: form.OneOf("seen", "Clearly seen", "hidden", "Hidden by the work"), Hazard: true},
			{Key: "glasses", Label: "Shade of tinted glasses under the helmet", Takes: form.Factor(), Optional: true, Fine: true,
				Help: "Printed on the lens. Left empty: none, or clear ones", Chips: []string{"2", "3", "5"}, Limits: form.Limits{Min: 1, Max: 14, Set: true}},
		},
		Results: []form.Result{
			{Key: "minimum", Label: "At least shade", Gives: form.Count(), Main: true},
			{Key: "start", Label: "Start with shade", Gives: form.Count(), Main: true},
			{Key: "row", Label: "Row of the table", Gives: form.Text()},
			{Key: "helmet", Label: "Helmet over those glasses, at least", Gives: form.Count(), Main: true},
			{Key: "finer", Label: "Finer table, from memory, arc hidden by the work", Gives: form.Count()},
			{Key: "finer_start", Label: "Finer table, where to start", Gives: form.Count()},
		},
		Sources: []source.ID{"osha-133", "z49-2005"},
		Run:     runShade,
	}
}}

func runShade(r *form.Reader, a *form.Answer) error {
	in := ShadeInput{
		Current: form.Get[unit.Current](r, "current"),
		Hidden:  form.GetWord(r, "arc") == "hidden",
		Glasses: form.GetFactor(r, "glasses"),
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeShade(in)
	if err != nil {
		return err
	}
	a.PutCount("minimum", res.Minimum)
	a.PutCount("start", res.Start)
	a.PutWord("row", res.Row)
	a.Step("%s stands in the row %q of 29 CFR 1910.133(a)(5), plasma arc cutting: shade %d or darker", form.Say(a, in.Current), res.Row, res.Minimum)
	if res.Helmet > 0 {
		a.PutCount("helmet", res.Helmet)
		a.Cite("en-169")
		a.Cite("osha-shipyard-eye")
		a.Step("helmet = %d − %s + 1 = %d, since both together make shade N₁ + N₂ − 1", res.Minimum, unit.Figures(in.Glasses, 3), res.Helmet)
	}
	if in.Hidden {
		a.PutCount("finer", res.Finer)
		a.PutCount("finer_start", res.Comfort)
		a.Cite("aws-f2-2")
		a.Step("finer table, from memory: shade %d, comfortable %d, only while the work hides the arc", res.Finer, res.Comfort)
		a.Caution("A lighter shade is only for an arc that the work hides all the time. The moment you see the arc, shade %d is the least.", res.Minimum)
	}
	a.Caution("Start too dark, go lighter until you see the line, never lighter than shade %d.", res.Minimum)
	a.Caution("Everyone who can see the arc needs the same: helper, observer, fire watch. Screen off the rest.")
	a.Caution("A filter guards eyes only. Cover face, neck and hands, and wear safety glasses under the helmet.")
	a.Caution("Local code and the machine's manual may ask for more; they win.")
	return nil
}
