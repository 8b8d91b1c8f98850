package safety

import (
	"kerfside/calc/form"
	"kerfside/calc/material"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// FumeInput is the metal, what is on it, and where it is cut.
type FumeInput struct {
	Metal   material.Metal
	Coating string      // a key of coats
	Place   string      // "open", "workshop", "enclosed", "confined", "vessel"
	Room    unit.Volume // 0 if not known
	Ceiling unit.Length // 0 if not known
	Cutters int         // torches at work in the room, ≥ 1
	Hood    unit.Length // from the cut to a 3 in flanged slot; 0 without one
}

// FumeResult is what is in the fume and the air it needs.
type FumeResult struct {
	Verdict    string // "stop" or "conditions"
	Stops      []string
	Agents     []Agent
	Mechanical bool      // the rule asks for mechanical ventilation
	Why        string    // what makes it so
	Supply     unit.Flow // for all cutters, where Mechanical
	Capture    unit.Speed
	Hood       unit.Flow // what the slot must draw; 0 without one
	Respirator string
	wears      protection
	Strip      unit.Length // bare metal back from the cut; 0 without a coating
}

// The figures of 29 CFR 1910.252(c)(2) and (3).
const (
	roomPerCutter   = 10000 * unit.CubicFoot // 284 m³
	lowCeiling      = 16 * unit.Foot
	supplyPerCutter = 2000 * unit.CubicFootPerMinute // 57 m³/min
	captureSpeed    = 100 * unit.FootPerMinute       // at the cut, towards the hood
	stripBack       = 4 * unit.Inch                  // 29 CFR 1926.354(c)(1)
)

// slots gives what a flanged slot 3 in wide must draw by its distance from the
// cut: 29 CFR 1910.252(c)(3)(i), from memory. Each row holds up to its distance.
var slots = []struct {
	upTo unit.Length
	flow unit.Flow
}{
	{6 * unit.Inch, 150 * unit.CubicFootPerMinute},
	{8 * unit.Inch, 275 * unit.CubicFootPerMinute},
	{10 * unit.Inch, 425 * unit.CubicFootPerMinute},
	{12 * unit.Inch, 600 * unit.CubicFootPerMinute},
}

// protection is what to breathe through: each step guards at least as well as
// the one before it.
type protection int

const (
	upwind   protection = iota
	filtered            // 29 CFR 1926.353(c)(3)
	closed              // any enclosed place
	stripped            // 29 CFR 1926.353(c)(2) and 354(c)(1)
	supplied            // beryllium, 29 CFR 1926.353(c)(2)(iv)
	noMask              // common practice
)

var protections = [...]string{
	"head out of the plume; " + Fitted + " if it drifts to you",
	Drawn + "; head out of the plume",
	"forced air and " + Fitted + "; else an air-line respirator",
	Fitted + " while you strip the coating; what cannot be stripped is cut with an air-line respirator, or not at all",
	"an air-line respirator, and a hood that draws at the cut",
	"no mask makes it right: off before any heat",
}

// ComputeFume lists what the metal, its coating and the arc give off and what
// 29 CFR 1910.252(c) asks of the air: mechanical ventilation of 2000 ft³/min for
// each cutter where the room holds less than 10,000 ft³ for each, the ceiling
// is lower than 16 ft, or the place is enclosed, unless a hood draws at the
// cut. A closed vessel, a solvent, a plastic, cadmium, beryllium and a confined
// place without its permit are stops. A room of unknown size counts as too
// small. What to breathe through is the most that metal, coating and place ask.
func ComputeFume(in FumeInput) (FumeResult, error) {
	layers := []coat{coats[in.Coating]}
	if in.Metal == material.Galvanised {
		in.Metal = material.MildSteel
		layers = append(layers, coats["zinc"])
	}
	res := FumeResult{Verdict: "conditions", Capture: captureSpeed, Agents: arcGases}
	if in.Place == "vessel" {
		res.Stops = append(res.Stops, VesselStop, HollowStop)
	}
	if in.Place == "confined" {
		res.Stops = append(res.Stops, ConfinedStop)
	}
	wears := in.asks()
	for _, c := range layers {
		res.Agents = merge(res.Agents, c.agents)
		wears = max(wears, c.wears)
		if c.never != "" {
			res.Stops = append(res.Stops, c.never)
		}
		if len(c.agents) > 0 && !c.unstrips {
			res.Strip = stripBack
		}
	}
	res.Agents = merge(res.Agents, metalFumes[in.Metal])
	if len(res.Stops) > 0 {
		res.Verdict = "stop"
	}
	res.Mechanical, res.Why = in.mechanical()
	if res.Mechanical {
		res.Supply = supplyPerCutter * unit.Flow(in.Cutters)
	}
	if in.Hood > 0 {
		for _, s := range slots {
			if in.Hood <= s.upTo {
				res.Hood = s.flow
				break
			}
		}
	}
	res.wears, res.Respirator = wears, protections[wears]
	return res, nil
}

// asks is what the bare metal and the place ask of a cutter's mask.
func (in FumeInput) asks() protection {
	switch {
	case in.Place != "open" && in.Place != "workshop":
		return closed
	case in.Metal == material.Stainless || in.Metal == material.Brass || in.Metal == material.Copper:
		return filtered
	}
	return upwind
}

// mechanical says whether the rule asks for fans, and why.
func (in FumeInput) mechanical() (bool, string) {
	switch {
	case in.Place == "open":
		return false, ""
	case in.Place != "workshop":
		return true, "the place is enclosed"
	case in.Room == 0:
		return true, "the size of the room is not known"
	case in.Room < roomPerCutter*unit.Volume(in.Cutters):
		return true, "the room holds less than 10,000 ft³ (284 m³) for each cutter"
	case in.Ceiling == 0:
		return true, "the height of the ceiling is not known"
	case in.Ceiling < lowCeiling:
		return true, "the ceiling is lower than 16 ft (5 m)"
	}
	return false, ""
}

// merge joins lists of agents, each named once, in order.
func merge(lists ...[]Agent) []Agent {
	var all []Agent
	seen := map[string]bool{}
	for _, list := range lists {
		for _, agent := range list {
			if !seen[agent.Name] {
				seen[agent.Name] = true
				all = append(all, agent)
			}
		}
	}
	return all
}

// Fume is the calculator fume.
var Fume = form.Declaration{Name: "fume", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Fume and air",
		About: "Says what is in the smoke of this metal and its coating. Says what air the place needs, and when not to cut at all.",
		Place: "ready",
		Terms: []string{"smoke", "ventilation", "galvanised", "zinc", "lead", "paint", "chrome", "respirator", "mask", "gas", "fan", "tank", "confined"},
		Fields: []form.Field{
			{Key: "metal", Label: "Metal", Takes: material.Choice(), Hazard: true},
			{Key: "coating", Label: "What is on it", Hazard: true, Help: "Paint counts as lead and chromate until it is tested", Takes: form.OneOf(
				"none", "Bare metal", "zinc", "Zinc or zinc paint", "lead", "Lead paint", "chromate", "Chromate primer", "unknown", "Paint, not known",
				"two-pack", "Two-pack paint", "cadmium", "Cadmium plating", "beryllium", "None: it is beryllium copper", "oil", "Oil or grease",
				"pvc", "PVC", "fluoropolymer", "Fluoropolymer: non-stick, slick liner", "foam", "Urethane foam", "plastic", "Other plastic or rubber",
				"solvent", "Solvent, degreaser, brake cleaner")},
			{Key: "place", Label: "Where", Hazard: true, Takes: form.OneOf("open", "Open air", "workshop", "Workshop, doors open", "enclosed", "Small room, trailer, pit", "confined", "Confined space", "vessel", "Into a drum, tank or closed hollow")},
			{Key: "room", Label: "Room", Takes: form.Number[unit.Volume]("m³", "ft³"), Optional: true, Only: form.When("place", "workshop"),
				Help: "Length × width × height", Limits: form.Within(unit.CubicMetre, 1e6*unit.CubicMetre)},
			{Key: "ceiling", Label: "Ceiling", Takes: form.Number[unit.Length]("m", "ft"), Optional: true, Only: form.When("place", "workshop"), Limits: form.Within(1*unit.Metre, 100*unit.Metre)},
			{Key: "cutters", Label: "Torches at work in it, yours too", Takes: form.Count(), Hazard: true, Only: form.When("place", "workshop", "enclosed", "confined", "vessel"),
				Chips: []string{"1", "2", "3"}, Limits: form.WithinCount(1, 100)},
			{Key: "hood", Label: "From the cut to the hood", Takes: form.Number[unit.Length]("mm", "in"), Optional: true, Fine: true,
				Help: "A flanged slot 3 in wide. Farther than 12 in it draws nothing worth having", Chips: []string{"150mm", "200mm", "250mm", "300mm"}, ChipsUS: []string{"6in", "8in", "10in", "12in"}, Limits: form.Within(25*unit.Millimetre, 12*unit.Inch)},
		},
		Results: []form.Result{
			{Key: "verdict", Label: "Fume", Gives: form.Text(), Main: true},
			{Key: "stops", Label: "Stop", Gives: form.Rows(), Main: true},
			{Key: "respirator", Label: "To breathe", Gives: form.Text(), Main: true},
			{Key: "mechanical", Label: "Fans required", Gives: form.YesNo(), Main: true},
			{Key: "why", Label: "Because", Gives: form.Text()},
			{Key: "supply", Label: "Fresh air, at least", Gives: form.Number[unit.Flow]("m³/min", "cfm"), Main: true},
			{Key: "capture", Label: "Draught at the cut towards a hood", Gives: form.Number[unit.Speed]("m/min", "ft/min")},
			{Key: "hood_flow", Label: "That hood must draw", Gives: form.Number[unit.Flow]("m³/min", "cfm")},
			{Key: "strip", Label: "Strip back from the cut", Gives: form.Number[unit.Length]("mm", "in").As(unit.Marking), Main: true},
			{Key: "agents", Label: "In the smoke", Gives: form.Rows()},
		},
		Sources: []source.ID{"osha-252c"},
		Run:     runFume,
	}
}}

func runFume(r *form.Reader, a *form.Answer) error {
	in := FumeInput{
		Metal: material.Metal(form.GetWord(r, "metal")), Coating: form.GetWord(r, "coating"), Place: form.GetWord(r, "place"),
		Room: form.Get[unit.Volume](r, "room"), Ceiling: form.Get[unit.Length](r, "ceiling"), Cutters: form.GetCount(r, "cutters"),
		Hood: form.Get[unit.Length](r, "hood"),
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeFume(in)
	if err != nil {
		return err
	}
	a.PutWord("verdict", res.Verdict)
	a.PutWord("respirator", res.Respirator)
	a.PutYes("mechanical", res.Mechanical)
	if res.Mechanical {
		a.PutWord("why", res.Why)
		form.Put(a, "supply", res.Supply)
		a.Step("fresh air = %d × 2000 ft³/min = %s, because %s", in.Cutters, form.SayIn(a, res.Supply, "m³/min", "cfm"), res.Why)
	}
	form.Put(a, "capture", res.Capture)
	if res.Hood > 0 {
		form.Put(a, "hood_flow", res.Hood)
		a.Cite("from-memory")
		a.Step("a flanged slot 3 in wide at %s draws %s (from memory)", form.Say(a, in.Hood), form.SayIn(a, res.Hood, "m³/min", "cfm"))
	}
	if res.Strip > 0 {
		form.Put(a, "strip", res.Strip)
		a.Cite("osha-1926-354")
	}
	if res.wears > upwind {
		a.Cite("osha-1926-353")
	}
	if c := coats[in.Coating]; c.source != "" {
		a.Cite(c.source)
	}
	putAgents(a, res)
	sayFume(a, in, res)
	return nil
}

func putAgents(a *form.Answer, res FumeResult) {
	stops := make([]*form.Row, len(res.Stops))
	for i, why := range res.Stops {
		stops[i] = a.NewRow()
		stops[i].PutWord("why", why)
	}
	a.PutRows("stops", stops)
	agents := make([]*form.Row, len(res.Agents))
	for i, agent := range res.Agents {
		agents[i] = a.NewRow()
		agents[i].PutWord("agent", agent.Name)
		agents[i].PutWord("osha", agent.PEL)
		agents[i].PutWord("niosh", agent.REL)
		harm := agent.Harm
		if agent.IARC != "" {
			harm += "; carcinogenic (IARC group " + agent.IARC + ")"
		}
		if agent.TLV != "" {
			harm += "; ACGIH advises " + agent.TLV
			a.Cite("acgih-tlv")
		}
		agents[i].PutWord("harm", harm)
		a.Cite(agent.Source)
	}
	a.PutRows("agents", agents)
	a.Cite("niosh-rel")
	a.Cite("iarc")
}

func sayFume(a *form.Answer, in FumeInput, res FumeResult) {
	for _, why := range res.Stops {
		a.Caution("Stop. %s", why)
	}
	if in.Place == "vessel" {
		a.Cite("osha-252a3")
	}
	if res.Strip > 0 {
		a.Caution("Strip the coating %s back from the cut, both faces, before the arc.", form.SayIn(a, res.Strip, "mm", "in"))
	}
	if in.Metal == material.Aluminium {
		a.Caution("Never cut aluminium over or in water: hydrogen collects.")
	}
	if in.Place == "enclosed" || in.Place == "confined" {
		a.Caution("Never freshen the air with oxygen. Power off at the machine when you leave the torch.")
	}
	a.Caution("Nitrogen dioxide and phosgene hurt the lungs hours later. Breathed them in? See a doctor or ask the poison line, even when well. Have somebody watch over you for a day or two. Short of breath or feverish: hospital. Say what you cut.")
	a.Caution("Welding fume and the arc's light are carcinogenic (IARC group 1): take cutting fume for no better.")
	a.Caution("This reads rules, not your air. Local code, a permit and a competent person decide; limits from memory want checking.")
}
