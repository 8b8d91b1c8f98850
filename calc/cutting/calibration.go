package cutting

import (
	"slices"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/material"
	"kerfside/calc/power"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// CutTried is a logged cut.
type CutTried struct {
	Metal     material.Metal
	Thickness unit.Length
	Current   unit.Current
	Speed     unit.Speed
	Verdict   Verdict
}

// Expect turns logged cuts into tries on a rig: with the speed that the balance
// says each would just sever at. The tip is the smallest that carries the
// current. A cut above every tip's rating, or that the balance calls impossible
// at any speed, is a problem on the field tries.
func Expect(cuts []CutTried, alloy material.Alloy, rig Rig, b Balance) ([]Try, error) {
	var tries []Try
	for i, c := range cuts {
		at := slices.IndexFunc(rig.Tips, func(t Tip) bool { return c.Current <= t.Rated })
		if at < 0 {
			return nil, problem.Newf(problem.Conflict, "tries", "cut %d: %s is above every tip's rating", i+1, unit.In(c.Current, "A")).
				WithHint("List the tip that it was cut with.")
		}
		most := b.Sever(c.Metal, alloy, rig.arc(rig.Tips[at], c.Current), c.Thickness)
		if most <= 0 {
			return nil, problem.Newf(problem.Refused, "tries", "cut %d: %s at %s is past what the balance can reckon with", i+1, unit.In(c.Thickness, "mm"), unit.In(c.Current, "A")).
				WithHint("Leave it out; a cut so near the limit says little about speed.")
		}
		tries = append(tries, Try{Speed: c.Speed, Most: most, Verdict: c.Verdict})
	}
	return tries, nil
}

const triesHint = "Write metal, thickness, amps, speed and verdict, such as mild-steel 6mm 40A 800mm/min good. A semicolon parts cuts. The verdicts are too-slow, good, too-fast, did-not-sever."

// parseTries reads cuts such as "mild-steel 6mm 40A 800mm/min good", parted by
// semicolons or lines.
func parseTries(text string, system unit.System) ([]CutTried, error) {
	var cuts []CutTried
	for _, entry := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '\n' }) {
		words := strings.Fields(entry)
		if len(words) == 0 {
			continue
		}
		if len(words) < 5 {
			return nil, problem.Newf(problem.Malformed, "tries", "%q has fewer than its five words", strings.TrimSpace(entry)).WithHint(triesHint)
		}
		metal, known := metalField().Takes.Word(words[0])
		c := CutTried{Metal: material.Metal(metal), Verdict: Verdict(strings.ToLower(strings.Join(words[4:], "-")))}
		if !known {
			return nil, problem.Newf(problem.Unknown, "tries", "%q is not one of the metals", words[0]).WithHint(triesHint)
		}
		if !slices.Contains([]Verdict{TooSlow, Good, TooFast, NotSevered}, c.Verdict) {
			return nil, problem.Newf(problem.Unknown, "tries", "%q is not one of the verdicts", strings.Join(words[4:], " ")).WithHint(triesHint)
		}
		var err error
		if c.Thickness, err = parseThickness(words[1], c.Metal, system); err == nil {
			if c.Current, err = unit.Parse[unit.Current](words[2], "A"); err == nil {
				c.Speed, err = unit.Parse[unit.Speed](words[3], "mm/min")
			}
		}
		if err != nil {
			return nil, err
		}
		if c.Current < 5 || c.Current > 1000 || c.Speed < 10*unit.MillimetrePerMinute || c.Speed > 20*unit.MetrePerMinute {
			return nil, problem.Newf(problem.Range, "tries", "%q: the current is from 5 to 1000 A, the speed from 10 mm/min to 20 m/min", strings.TrimSpace(entry)).WithHint(triesHint)
		}
		cuts = append(cuts, c)
	}
	return cuts, nil
}

// Calibration is the calculator calibration.
var Calibration = form.Declaration{Name: "calibration", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Calibration",
		About: "Learns from your own cuts how much faster or slower this rig severs than the reckoning says.",
		Place: "book",
		Terms: []string{"learn", "own cuts", "history", "factor", "tune"},
		Fields: slices.Concat([]form.Field{
			{Key: "tries", Label: "Cuts", Help: "Such as mild-steel 6mm 40A 800mm/min good, a semicolon between cuts. Or too-slow, too-fast, did-not-sever", Takes: form.Text()},
			{Key: "alloy", Label: "Aluminium alloy", Takes: alloyField().Takes, Default: "unknown", Fine: true},
		}, rigFields()[:4], []form.Field{power.SecondMax()}, figureFields()[1:2]),
		Results: []form.Result{
			{Key: "calibration", Label: "Calibration", Gives: form.Factor().InDoubt(), Main: true},
			{Key: "calibration_low", Label: "It may be as little as", Gives: form.Factor().InDoubt(), Main: true},
			{Key: "calibration_high", Label: "or as much as", Gives: form.Factor().InDoubt(), Main: true},
			{Key: "cuts", Label: "Cuts it rests on", Gives: form.Count(), Main: true},
			{Key: "rows", Label: "Cut by cut", Gives: form.Rows("metal", "Metal", "thickness", "Thickness", "current", "Current", "speed", "Speed", "reckoned", "Reckoned to sever at", "verdict", "Verdict")},
		},
		Sources: []source.ID{"kerf-balance", "gpml-3-9", "from-memory"},
		Run:     runCalibration,
	}
}}

func runCalibration(r *form.Reader, a *form.Answer) error {
	text := form.GetText(r, "tries")
	cuts, err := parseTries(text, r.System())
	if err == nil && text != "" && len(cuts) == 0 {
		err = problem.New(problem.Malformed, "tries", "there is no cut in it", triesHint)
	}
	if err != nil {
		r.Fail("tries", err)
	}
	if len(cuts) > 0 && !slices.ContainsFunc(cuts, func(c CutTried) bool { return c.Metal != cuts[0].Metal }) {
		r.Sheets(func(number string) (unit.Length, error) { return material.Gauge(cuts[0].Metal, number) })
	}
	alloy := material.Alloy(form.GetWord(r, "alloy"))
	b := Balance{Efficiency: form.Get[unit.Ratio](r, "efficiency"), Calibration: 1}
	most, second := form.Get[unit.Current](r, "max_current"), form.Get[unit.Current](r, power.SecondMax().Key)
	if most > 0 {
		most = max(most, second) // cut on whichever it was
	}
	rig := readTips(r, most)
	if err := r.Err(); err != nil {
		return err
	}
	tries, err := Expect(cuts, alloy, rig, b)
	if err != nil {
		return err
	}
	got := Learn(tries)
	a.PutFactor("calibration", float64(got.Factor))
	a.PutFactor("calibration_low", float64(got.Low))
	a.PutFactor("calibration_high", float64(got.High))
	a.PutCount("cuts", got.Cuts)
	speed := form.Number[unit.Speed]("mm/min", "in/min")
	rows := make([]*form.Row, len(tries))
	for i, t := range tries {
		rows[i] = a.NewRow()
		rows[i].PutWord("metal", string(cuts[i].Metal))
		form.PutCell(rows[i], "thickness", form.Number[unit.Length]("mm", "in").As(unit.Plate), cuts[i].Thickness)
		form.PutCell(rows[i], "current", form.Number[unit.Current]("A", "A"), cuts[i].Current)
		form.PutCell(rows[i], "speed", speed, t.Speed)
		form.PutCell(rows[i], "reckoned", speed.InDoubt(), t.Most)
		rows[i].PutWord("verdict", string(t.Verdict))
		rows[i].PutFactor("share", float64(t.Speed/t.Most))
		a.Step("cut %d: %s ÷ %s reckoned to sever = %s, %s", i+1, form.Worked(a, t.Speed, "mm/min", "in/min"), form.Worked(a, t.Most, "mm/min", "in/min"),
			unit.Figures(float64(t.Speed/t.Most), 3), t.Verdict)
	}
	a.PutRows("rows", rows)
	a.Draw("tries", map[string]any{"rows": rows, "low": float64(got.Low), "factor": float64(got.Factor), "high": float64(got.High), "yours": about(got.Factor),
		"text": "The rig severs at " + about(got.Factor) + " times the reckoned speed, nine times in ten between " + about(got.Low) + " and " + about(got.High) + "."})
	a.Step("calibration = %s, nine times in ten between %s and %s, from %s", about(got.Factor), about(got.Low), about(got.High), unit.Count(got.Cuts, "cut", "cuts"))
	a.Caution("Cuts with worn parts, wet air or a poor clamp teach the wrong lesson: leave them out.")
	if got.Cuts < 5 {
		a.Caution("It rests on few cuts: log more before you lean on it.")
	}
	return nil
}
