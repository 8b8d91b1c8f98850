package layout

import (
	"strconv"

	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/material"
	"kerfside/calc/power"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Gouge is the calculator gouge.
var Gouge = form.Declaration{Name: "gouge", Make: func() form.Calculator {
	length := func(sort unit.Sort) *form.Type { return form.Number[unit.Length]("mm", "in").As(sort) }
	mark := length(unit.Marking)
	groove := form.Within(unit.Millimetre, 60*unit.Millimetre)
	v, round := form.When("weld", "v"), form.When("weld", "round")
	return form.Calculator{
		Title: "Gouge",
		About: "Guesses the groove that a leaning arc melts out, and the passes that take a weld away. Widely in doubt.",
		Place: "layout",
		Terms: []string{"gouging", "groove", "remove weld", "back gouge", "crack", "wash", "scarf", "weld removal", "passes"},
		Fields: []form.Field{
			{Key: "metal", Label: "Metal", Takes: material.Choice(), Default: string(material.MildSteel)},
			{Key: "current", Label: "Current", Help: "By the gouging tip and the torch's manual", Takes: form.Number[unit.Current]("A", "A"), Chips: []string{"40A", "60A", "85A", "105A"}, Limits: form.Within(15*unit.Ampere, 400*unit.Ampere)},
			{Key: "travel", Label: "Travel speed", Help: "Along the groove", Takes: form.Number[unit.Speed]("mm/min", "in/min"), Chips: []string{"400mm/min", "600mm/min", "900mm/min"}, ChipsUS: []string{"15in/min", "25in/min", "35in/min"}, Limits: form.Within(0.05*unit.MetrePerMinute, 3*unit.MetrePerMinute)},
			{Key: "torch_lean", Label: "Torch to the plate", Help: "Upright is 90°. It leans back, and the jet blows ahead", Takes: form.Number[unit.Angle]("°", "°"), Default: "35°", Basis: source.CommonPractice, Chips: []string{"25°", "35°", "45°"}, Limits: form.Within(15*unit.Degree, 60*unit.Degree)},
			{Key: "weld", Label: "What comes out", Takes: form.OneOf("none", "One groove", "v", "A butt weld in a V", "fillet", "A fillet weld", "round", "A round groove"), Default: "none"},
			{Key: "plate", Label: "Thickness of the plate", Takes: length(unit.Plate), Only: v, Chips: []string{"6mm", "10mm", "12mm"}, ChipsUS: []string{"1/4in", "3/8in", "1/2in"}, Limits: form.Within(2*unit.Millimetre, 100*unit.Millimetre)},
			{Key: "groove", Label: "Angle of the V", Help: "Both sides together", Takes: form.Number[unit.Angle]("°", "°"), Only: v, Chips: []string{"60°", "70°"}, Limits: form.Within(20*unit.Degree, 90*unit.Degree)},
			{Key: "gap", Label: "Gap at its root", Takes: mark, Default: "0mm", Basis: source.Neutral, Only: v, Chips: []string{"0mm", "2mm", "3mm"}, ChipsUS: []string{"0in", "1/16in", "1/8in"}, Limits: form.Within(0, 20*unit.Millimetre)},
			{Key: "cap", Label: "Height of its cap", Help: "How far the weld stands over the plate", Takes: mark, Default: "0mm", Basis: source.Neutral, Only: v, Fine: true, Limits: form.Within(0, 15*unit.Millimetre)},
			{Key: "fillet", Label: "Leg of the fillet", Takes: mark, Only: form.When("weld", "fillet"), Chips: []string{"5mm", "6mm", "8mm"}, ChipsUS: []string{"3/16in", "1/4in", "5/16in"}, Limits: form.Within(2*unit.Millimetre, 50*unit.Millimetre)},
			{Key: "groove_wide", Label: "Width of the groove wanted", Takes: mark, Only: round, Limits: groove},
			{Key: "groove_deep", Label: "Depth of the groove wanted", Takes: mark, Only: round, Limits: groove},
			{Key: "length", Label: "Length", Help: "Of the groove or the weld", Takes: mark, Optional: true, Chips: []string{"100mm", "300mm", "1m"}, ChipsUS: []string{"4in", "1ft", "3ft"}, Limits: form.Within(5*unit.Millimetre, 50*unit.Metre)},
			{Key: "trial_width", Label: "Measured on scrap: width", Help: "Of a groove at this current, speed and lean. Stands instead of the guess", Takes: mark, Optional: true, Limits: groove},
			{Key: "trial_depth", Label: "Measured on scrap: deepest", Takes: mark, Optional: true, Help: "Of the same groove, from the surface", Limits: groove},
			{Key: "width", Label: "Width of one groove", Help: "Weaving widens it. Left empty: twice its depth", Takes: mark, Optional: true, Fine: true, Basis: source.Judged, Limits: groove},
			{Key: "gouge_volts", Label: "Arc volts", Help: "While it gouges, if the machine shows them. Empty: " + power.GougeLine(), Takes: form.Number[unit.Voltage]("V", "V"), Optional: true, Fine: true, Basis: "iec-60974-1-gouge", Limits: form.Within(60*unit.Volt, 400*unit.Volt)},
		},
		Results: []form.Result{
			{Key: "groove_depth", Label: "Groove, deep", Gives: mark, Main: true},
			{Key: "groove_width", Label: "Groove, wide", Gives: mark, Main: true},
			{Key: "passes", Label: "Passes, at least", Gives: form.Count(), Main: true},
			{Key: "arc_time", Label: "Arc time", Gives: form.Number[unit.Duration]("", "").InDoubt(), Main: true},
			{Key: "noise", Label: "Ears without protection, a day (NIOSH)", Gives: form.Number[unit.Duration]("", "").InDoubt(), Main: true},
			{Key: "section", Label: "Section of one groove", Gives: form.Number[unit.Area]("mm²", "in²").InDoubt()},
			{Key: "weld_section", Label: "Section that comes out", Gives: form.Number[unit.Area]("mm²", "in²")},
			{Key: "weld_mass", Label: "It weighs", Gives: form.Number[unit.LineDensity]("kg/m", "lb/ft")},
			{Key: "rests_on", Label: "It rests on", Gives: form.Text()},
		},
		Sources: []source.ID{"kerf-balance", "iec-60974-1-gouge", "hse-noise", "niosh-noise", source.Judged, source.CommonPractice},
		Run:     runGouge,
	}
}}

// What the Health and Safety Executive prints for air-arc gouging, dB(A). No figure for
// plasma gouging was found.
const quietest, loudest unit.Level = 100, 115

// deepPass is how deep a pass goes before it blows back, common practice.
const deepPass = 6 * unit.Millimetre

func runGouge(r *form.Reader, a *form.Answer) error {
	get := func(key string) unit.Length { return form.Get[unit.Length](r, key) }
	in := GougeInput{Metal: material.Metal(form.GetWord(r, "metal")), Travel: form.Get[unit.Speed](r, "travel"), Lean: form.Get[unit.Angle](r, "torch_lean"), Width: get("width"),
		TrialWidth: get("trial_width"), TrialDepth: get("trial_depth"), Length: get("length")}
	current, volts := form.Get[unit.Current](r, "current"), form.Get[unit.Voltage](r, "gouge_volts")
	if volts == 0 {
		volts = power.GougeVolts(current)
	}
	in.Power = unit.Power(float64(volts) * float64(current))
	weld := form.GetWord(r, "weld")
	plate, angle, gap, bulge := get("plate"), form.Get[unit.Angle](r, "groove"), get("gap"), get("cap")
	fillet, wide, deep := get("fillet"), get("groove_wide"), get("groove_deep")
	if err := r.Err(); err != nil {
		return err
	}
	switch weld {
	case "v":
		in.Weld = VGroove(plate, angle, gap, bulge)
	case "fillet":
		in.Weld = FilletWeld(fillet)
	case "round":
		s, err := RoundGroove(wide, deep)
		if err != nil {
			return err
		}
		in.Weld = s
	}
	res, err := ComputeGouge(in)
	if err != nil {
		return err
	}
	putGouge(a, in, res)
	sayGouge(a, in, res, volts, current)
	a.DrawLayout(drawGroove(a, in, res, weld, gap))
	a.DrawLayout(drawLean(a, in, res))
	cautionGouge(a, in, res, plate)
	return nil
}

func putGouge(a *form.Answer, in GougeInput, res GougeResult) {
	form.PutBetween(a, "groove_depth", res.Low.Depth, res.About.Depth, res.High.Depth)
	form.PutBetween(a, "groove_width", res.Low.Width, res.About.Width, res.High.Width)
	form.PutBetween(a, "section", res.Low.Area, res.About.Area, res.High.Area)
	if in.Weld.Area > 0 {
		density, _, _ := in.Metal.Density()
		form.Put(a, "weld_section", in.Weld.Area)
		form.Put(a, "weld_mass", unit.LineDensity(float64(density)*float64(in.Weld.Area)))
		form.PutSaid(a, "passes", unit.Ratio(res.About.Passes), countBetween(res.High.Passes, res.About.Passes, res.Low.Passes))
	}
	if in.Length > 0 {
		form.PutBetween(a, "arc_time", res.High.Time, res.About.Time, res.Low.Time)
	}
	form.PutSaid(a, "noise", nioshAllows(loudest), form.Say(a, nioshAllows(loudest))+" at 115 dB(A), "+form.Say(a, nioshAllows(quietest))+" at 100 dB(A)")
	on := "an energy balance, compared with no groove"
	if res.Trial {
		on = "your own groove on scrap"
	}
	a.PutWord("rests_on", on)
}

// countBetween tells a number of passes with what it may be.
func countBetween(low, about, high int) string {
	if low == high {
		return passesSaid(about)
	}
	return passesSaid(low) + " to " + passesSaid(high) + ", likeliest " + passesSaid(about)
}

func passesSaid(n int) string {
	if n > mostPasses {
		return "more than " + strconv.Itoa(mostPasses)
	}
	return strconv.Itoa(n)
}

// nioshAllows is how long a bare ear may stand a level in a day, by calc/safety.
func nioshAllows(level unit.Level) unit.Duration {
	res, err := safety.ComputeNoise(safety.NoiseInput{Exposures: []safety.Exposure{{Level: level, Time: unit.Second}}})
	if err != nil {
		return 0
	}
	return res.NIOSH.Allowed
}

func sayGouge(a *form.Answer, in GougeInput, res GougeResult, volts unit.Voltage, current unit.Current) {
	mark := func(l unit.Length) string { return form.Worked(a, l, "mm", "in") }
	area := func(s unit.Area) string { return form.Worked(a, s, "mm²", "in²") }
	g := res.About
	if !res.Trial {
		a.Step("arc = %s × %s = %s", form.SayIn(a, volts, "V", "V"), form.SayIn(a, current, "A", "A"), form.Worked(a, in.Power, "kW", "kW"))
		a.Step("into the groove = %s × sin %s × that, by the balance of the cut plan", form.SayIn(a, cutting.DefaultEfficiency, "%", "%"), form.Say(a, in.Lean))
		a.Step("that melts a groove %s wide and %s deep; half and twice the power give the range", mark(g.Width), mark(g.Depth))
	}
	a.Step("section = 2/3 × %s × %s = %s", mark(g.Width), mark(g.Depth), area(g.Area))
	if in.Weld.Area > 0 {
		high := in.Weld.Deep + in.Weld.Above
		a.Step("passes = the larger of %s ÷ %s and %s ÷ %s, rounded up = %s", area(in.Weld.Area), area(g.Area), mark(high), mark(g.Depth), passesSaid(g.Passes))
	}
	if in.Length > 0 {
		a.Step("arc time = %s × %s ÷ %s", passesSaid(g.Passes), mark(in.Length), form.Worked(a, in.Travel, "mm/min", "in/min"))
	}
}

func cautionGouge(a *form.Answer, in GougeInput, res GougeResult, plate unit.Length) {
	if res.Trial {
		a.Caution("Your own groove stands for all here. Another hand, tip or lean makes another one.")
	} else {
		a.Caution("This is a guess. No published figure for a groove by hand was found. Gouge 100 mm (4 in) of scrap and enter that groove.")
	}
	a.Caution("Only with the tip and shield that your torch's manual names for gouging. " + safety.MadeDead)
	a.Caution("Louder than cutting: 100 to 115 dB(A) is printed for gouging with carbon arc and air. Plugs and muffs together.")
	a.Caution("Melt flies far, ahead along the groove. Clear that way, screen it, nobody in front. Fire watch there too.")
	a.Caution("More smoke than a cut. Draw it off and keep your head out of it. Wear " + safety.Drawn + ".")
	if in.Metal == material.Galvanised {
		a.Caution(safety.ZincAsks)
	}
	a.Caution("A groove can smear a crack shut. Find both ends by dye or magnetic test first. Gouge past them, and test the bottom again.")
	a.Caution("Air leaves a hard skin in the groove. Grind it bright before you weld. The welding procedure sets preheat.")
	if res.High.Depth > deepPass {
		a.Caution("A pass deeper than 6 mm (1/4 in) or so blows back at the torch, by common practice. Move faster, take more passes.")
	}
	if plate > 0 && res.High.Depth >= plate {
		a.Caution("One pass may go right through this plate. Know what is behind it.")
	}
	a.Caution(safety.ArcOn)
}
