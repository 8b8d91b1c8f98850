package safety

import (
	"math"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Exposure is a stretch of the day at one sound level.
type Exposure struct {
	Level unit.Level // dB(A)
	Time  unit.Duration
}

// NoiseInput is a day's exposures and the protector worn through all of them.
type NoiseInput struct {
	Exposures []Exposure
	NRR       unit.Level // noise reduction rating of the protector; 0 for none
}

// NoiseResult is the day by both rules.
type NoiseResult struct {
	OSHA, NIOSH     NoiseRule
	Loudest         unit.Level
	AtEar           unit.Level // loudest level under the protector; only with one
	ProtectedNIOSH  unit.Ratio // dose under the protector; only with one
	Verdict         string     // "past the limit", "protect your hearing" or "under the action level"
	OverOSHACeiling bool       // a level that Table G-16 does not allow at all
}

// NoiseRule is the day by one rule.
type NoiseRule struct {
	Allowed unit.Duration // a day at the loudest level alone
	Dose    unit.Ratio    // Σ time/allowed; 1 is the limit
	TWA     unit.Level    // the steady level of 8 h with the same dose
}

// exchange is a rule's criterion level for 8 h and the decibels that halve the
// time, with the factor of its mean level.
type exchange struct{ criterion, halving, mean float64 }

// The rules: 29 CFR 1910.95 Table G-16 (from memory), and NIOSH 98-126, whose
// mean level is reckoned with 10.0 where 3/lg 2 is 9.966.
var (
	oshaNoise  = exchange{criterion: 90, halving: 5, mean: 16.61}
	nioshNoise = exchange{criterion: 85, halving: 3, mean: 10}
)

const (
	quiet         = 80  // dB(A): neither rule counts less
	oshaAction    = 85  // dB(A) mean, half the dose of 90
	oshaCeiling   = 115 // dB(A): Table G-16 ends here, and allows nothing above
	hoursOfTheDay = 24 * unit.Hour
)

// allowed returns how long a day may last at that level.
//
//	T = 8 h / 2^((L − criterion)/halving)
func (x exchange) allowed(level unit.Level) unit.Duration {
	return 8 * unit.Hour / unit.Duration(math.Exp2((float64(level)-x.criterion)/x.halving))
}

func (x exchange) judge(list []Exposure, loudest unit.Level) NoiseRule {
	rule := NoiseRule{Allowed: x.allowed(loudest)}
	for _, e := range list {
		if e.Level >= quiet {
			rule.Dose += unit.Ratio(e.Time / x.allowed(e.Level))
		}
	}
	if rule.Dose > 0 {
		rule.TWA = unit.Level(x.criterion + x.mean*math.Log10(float64(rule.Dose)))
	}
	return rule
}

// ComputeNoise adds up a day's noise.
//
//	dose = Σ time / allowed(level)
//	OSHA   allowed = 8 h/2^((L−90)/5)   mean = 90 + 16.61·lg dose
//	NIOSH  allowed = 8 h/2^((L−85)/3)   mean = 85 + 10·lg dose
//
// Above 115 dB(A), where Table G-16 of 29 CFR 1910.95 ends, OSHA allows no time; the
// dose goes on by the formula, as Table G-16A of its appendix A does up to 130.
// NIOSH 98-126 states seconds up to a ceiling of 140 dB(A), which is where the field
// ends. Levels under 80 dB(A) do not count. Under a protector the level is
// L − (NRR − 7)/2, the field rule for A-weighted levels, from memory. More
// than 24 h are refused.
func ComputeNoise(in NoiseInput) (NoiseResult, error) {
	var day unit.Duration
	res := NoiseResult{}
	for i, e := range in.Exposures {
		day += e.Time
		if i == 0 || e.Level > res.Loudest {
			res.Loudest = e.Level
		}
	}
	if day > hoursOfTheDay+unit.Second {
		return NoiseResult{}, problem.New(problem.Conflict, "time", "the stretches add up to more than a day", "Together they may last "+unit.In(hoursOfTheDay, "h")+".")
	}
	res.OSHA, res.NIOSH = oshaNoise.judge(in.Exposures, res.Loudest), nioshNoise.judge(in.Exposures, res.Loudest)
	res.OverOSHACeiling = res.Loudest > oshaCeiling
	switch {
	case res.NIOSH.Dose > 1 || res.OSHA.Dose > 1 || res.OverOSHACeiling:
		res.Verdict = "past the limit"
	case res.OSHA.Dose >= 0.5 || res.NIOSH.Dose >= 0.5:
		res.Verdict = "protect your hearing"
	default:
		res.Verdict = "under the action level"
	}
	if in.NRR > 0 {
		cut := max((in.NRR-7)/2, 0)
		res.AtEar = res.Loudest - cut
		under := make([]Exposure, len(in.Exposures))
		for i, e := range in.Exposures {
			under[i] = Exposure{e.Level - cut, e.Time}
		}
		res.ProtectedNIOSH = nioshNoise.judge(under, res.AtEar).Dose
	}
	return res, nil
}

// NoiseDose is the calculator noise-dose.
var NoiseDose = form.Declaration{Name: "noise-dose", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Noise dose",
		About: "Adds up the day's noise by the OSHA and the NIOSH rule. Says how long the ears may stand it.",
		Place: "book",
		Terms: []string{"hearing", "ears", "loud", "decibel", "ear plugs", "muffs", "dB", "NRR"},
		Fields: []form.Field{
			{Key: "level", Label: "Sound level at the ear", Takes: form.Number[unit.Level]("dB", "dB"), Hazard: true,
				Help: "dB(A). Hand-held plasma cutting is 98 to 105; without a meter take 105", Chips: []string{"85dB", "95dB", "98dB", "102dB", "105dB"}, Limits: form.Within[unit.Level](40, 140)},
			{Key: "time", Label: "How long in the day", Takes: form.Number[unit.Duration]("min", "min"), Help: "Arc time plus grinding beside it",
				Chips: []string{"5min", "15min", "30min", "1h", "2h"}, Limits: form.Within(unit.Second, hoursOfTheDay)},
			{Key: "more", Label: "The rest of the day", Takes: form.Pairs(form.Number[unit.Level]("dB", "dB"), form.Number[unit.Duration]("min", "min"), form.Each{Name: "Work", Left: "level", Right: "time", Row: "{left} for {right}"}), Optional: true,
				Help: "Each other noise and how long. Grinding is 95 to 105 dB(A).", Limits: form.Within[unit.Level](0, 86400)},
			{Key: "nrr", Label: "NRR of the plugs or muffs", Takes: form.Number[unit.Level]("dB", "dB"), Optional: true, Help: "Printed on the packet", Chips: []string{"20dB", "25dB", "30dB"}, Limits: form.Within[unit.Level](0, 40)},
		},
		Results: []form.Result{
			{Key: "verdict", Label: "Noise", Gives: form.Text(), Main: true},
			{Key: "niosh_allowed", Label: "NIOSH allows, a day", Gives: form.Number[unit.Duration]("", ""), Main: true},
			{Key: "niosh_dose", Label: "NIOSH dose", Gives: form.Number[unit.Ratio]("%", "%"), Main: true},
			{Key: "niosh_mean", Label: "NIOSH mean level of 8 h", Gives: form.Number[unit.Level]("dB", "dB")},
			{Key: "osha_allowed", Label: "OSHA allows, a day", Gives: form.Number[unit.Duration]("", "")},
			{Key: "osha_dose", Label: "OSHA dose", Gives: form.Number[unit.Ratio]("%", "%")},
			{Key: "osha_mean", Label: "OSHA mean level of 8 h", Gives: form.Number[unit.Level]("dB", "dB")},
			{Key: "at_ear", Label: "Under the protector", Gives: form.Number[unit.Level]("dB", "dB")},
			{Key: "protected_dose", Label: "NIOSH dose under it", Gives: form.Number[unit.Ratio]("%", "%")},
		},
		Sources: []source.ID{"osha-95", "niosh-noise", "hse-noise"},
		Run:     runNoise,
	}
}}

func runNoise(r *form.Reader, a *form.Answer) error {
	in := NoiseInput{
		Exposures: []Exposure{{form.Get[unit.Level](r, "level"), form.Get[unit.Duration](r, "time")}},
		NRR:       form.Get[unit.Level](r, "nrr"),
	}
	for _, p := range form.GetPairs[unit.Level, unit.Duration](r, "more") {
		if p.Left > 140 || p.Left < 0 || p.Right <= 0 {
			r.Fail("more", problem.Newf(problem.Range, "more", "a stretch of %s at %s is outside what this can reckon with", unit.In(p.Right, "min"), unit.In(p.Left, "dB")).
				WithHint("Levels from 0 to 140 dB, times above nothing."))
		}
		in.Exposures = append(in.Exposures, Exposure{p.Left, p.Right})
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeNoise(in)
	if err != nil {
		return err
	}
	a.PutWord("verdict", res.Verdict)
	form.Put(a, "niosh_allowed", res.NIOSH.Allowed)
	form.Put(a, "niosh_dose", res.NIOSH.Dose)
	if res.OverOSHACeiling {
		a.PutWord("osha_allowed", "none at all")
	} else {
		form.Put(a, "osha_allowed", res.OSHA.Allowed)
	}
	form.Put(a, "osha_dose", res.OSHA.Dose)
	if res.NIOSH.Dose > 0 {
		form.Put(a, "niosh_mean", res.NIOSH.TWA)
		form.Put(a, "osha_mean", res.OSHA.TWA)
	}
	for _, e := range in.Exposures {
		sayExposure(a, e)
	}
	if in.NRR > 0 {
		form.Put(a, "at_ear", res.AtEar)
		form.Put(a, "protected_dose", res.ProtectedNIOSH)
		a.Cite("osha-nrr")
		a.Step("under the protector = %s − (%s − 7)/2 = %s", unit.In(res.Loudest, "dB"), unit.Figures(float64(in.NRR), 3), unit.In(res.AtEar, "dB"))
	}
	drawNoise(a, in, res)
	sayNoise(a, in, res)
	return nil
}

func drawNoise(a *form.Answer, in NoiseInput, res NoiseResult) {
	dose := func(label string, d unit.Ratio) form.Bar { return form.NewBar(a, label, d, "%", "%").Past(d > 1) }
	bars := []form.Bar{dose("by NIOSH", res.NIOSH.Dose), dose("by OSHA", res.OSHA.Dose)}
	if in.NRR > 0 {
		bars = append(bars, dose("NIOSH, with protector", res.ProtectedNIOSH))
	}
	a.DrawBars("The day's dose of noise", "Each rule's dose; 100 % is all that a day allows.", bars, form.NewBar(a, "the day's limit", unit.Ratio(1), "%", "%"))
}

func sayExposure(a *form.Answer, e Exposure) {
	if e.Level < quiet {
		a.Step("%s for %s: under %d dB(A), not counted", unit.In(e.Level, "dB"), unit.Text(e.Time, unit.Metric), quiet)
		return
	}
	for _, x := range []struct {
		name string
		exchange
	}{{"NIOSH", nioshNoise}, {"OSHA", oshaNoise}} {
		allowed, counts := x.allowed(e.Level), "allows"
		if x.exchange == oshaNoise && e.Level > oshaCeiling {
			counts = "is past the table, and counts as if it allowed"
		}
		a.Step("%s: %s %s 8 h ÷ 2^((%s − %.0f)/%.0f) = %s; %s is %s", x.name, unit.In(e.Level, "dB"), counts, unit.Figures(float64(e.Level), 3), x.criterion, x.halving,
			unit.Text(allowed, unit.Metric), unit.Text(e.Time, unit.Metric), unit.In(unit.Ratio(e.Time/allowed), "%"))
	}
}

func sayNoise(a *form.Answer, in NoiseInput, res NoiseResult) {
	if res.OverOSHACeiling {
		a.Caution("Above %d dB(A) OSHA allows no time at all: Table G-16 of 29 CFR 1910.95 ends there. Stay away, or have it made quieter first.", oshaCeiling)
	}
	if in.NRR == 0 && res.Verdict != "under the action level" {
		a.Caution("Put plugs or muffs in before the first arc, and on your helper.")
	}
	if in.NRR > 0 && res.ProtectedNIOSH > 1 {
		a.Caution("That protector is not enough: wear plugs and muffs, or cut the time.")
	}
	if len(in.Exposures) == 1 {
		a.Caution("Only this noise was counted; the rest of your day comes on top.")
	}
	a.Caution("Sparks fly into ears: plugs go in under the helmet, and muffs must not hold it off.")
	a.Caution("A noise meter and a competent person decide; local rules may be stricter.")
}
