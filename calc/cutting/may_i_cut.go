package cutting

import (
	"kerfside/calc/form"
	"kerfside/calc/safety"
	"kerfside/calc/source"
)

// GateInput holds the answers to the gate's questions by the keys of its
// fields: what, behind, near, place, coating and wet.
type GateInput map[string]string

// GateResult is what the answers amount to.
type GateResult struct {
	Verdict    string // "stop", "conditions" or "go"
	Stops      []Finding
	Conditions []Finding
}

// Finding is a reason to stop, or something to do first, and who clears it.
type Finding struct {
	Key    string // what the journal calls it
	Name   string // what it is, in a few words
	Text   string
	By     string
	Source source.ID
}

// ComputeGate applies gateRules to the answers. One stop makes the verdict
// "stop", whatever else was answered; else one condition makes it "conditions";
// else it is "go", which says only that these questions found no stop. The
// rules follow 29 CFR 1910.252 and common practice; they are fewer than what a
// permit asks, and never say that something is safe.
func ComputeGate(in GateInput) GateResult {
	res := GateResult{Verdict: "go"}
	for _, r := range gateRules {
		if !r.applies(in) {
			continue
		}
		f := Finding{Key: r.key, Name: r.name, Text: r.text, By: r.by, Source: r.source}
		if r.stops() {
			res.Stops = append(res.Stops, f)
		} else {
			res.Conditions = append(res.Conditions, f)
		}
	}
	switch {
	case len(res.Stops) > 0:
		res.Verdict = "stop"
	case len(res.Conditions) > 0:
		res.Verdict = "conditions"
	}
	return res
}

// MayICut is the calculator may-i-cut.
var MayICut = form.Declaration{Name: "may-i-cut", Make: func() form.Calculator {
	return form.Calculator{
		Title: "May I cut this?",
		About: "Asks what could kill you before the arc is struck: stop, or what to do first and who clears it.",
		Place: "ready",
		Terms: []string{"safety", "gate", "stop", "tank", "drum", "tyre", "tire", "sealed", "permit", "hot work", "gas strut", "fire"},
		Fields: []form.Field{
			{Key: "what", Label: "What is it?", Help: "The worst that is true of it", Takes: form.OneOf(
				"open", "Plate, or a section open at both ends",
				"vented", "Hollow, vented by an open hole",
				"sealed", "Closed post, roller, box, float: no way out",
				"vessel", "Tank, drum or container that has held anything",
				"wheel", "Wheel with a tyre on",
				"vehicle", "Vehicle or trailer",
				"strut", "Gas strut, cylinder, accumulator, air bag",
				"spring", "Spring, or a part under load",
				"line", "Pipe or line that may hold something",
				"loaded", "Part that holds something up"), Hazard: true},
			{Key: "behind", Label: "What is behind it?", Takes: form.OneOf(
				"open", "I looked: nothing", "wall", "Wall, floor or roof", "services", "Cables or pipes", "unknown", "I do not know"), Hazard: true},
			{Key: "near", Label: "What is within 35 ft (11 m)?", Help: "The worst that is true", Takes: form.OneOf(
				"clear", "Nothing that burns", "people", "People or animals", "burnable", "Things that burn", "vapour", "Fuel, gas, solvent, dust", "solvent", "Cleaner or degreaser, chlorinated or not known"), Hazard: true},
			{Key: "place", Label: "Where?", Takes: form.OneOf(
				"open", "Open air", "workshop", "Workshop", "enclosed", "Enclosed: little air", "confined", "Confined: tank, pit, hold, hull"), Hazard: true},
			{Key: "coating", Label: "What is on it?", Takes: form.OneOf(
				"bare", "Bare or only rusty", "galvanised", "Zinc", "painted", "Paint", "oily", "Oil or grease", "cadmium", "Cadmium", "plastic", "Plastic, foam or two-pack paint", "beryllium", "Beryllium copper", "unknown", "Something unknown"), Hazard: true},
			{Key: "wet", Label: "Is anything wet?", Help: "Ground, hands, gloves or gear", Takes: form.YesNo(), Hazard: true},
		},
		Together: []form.Together{
			{Title: "Around it", Label: "Open air. I looked: nothing behind it, nothing that burns and nobody within 35 ft (11 m)", Says: map[string]string{"behind": "open", "near": "clear", "place": "open"}},
			{Title: "On it", Label: "Bare or only rusty, and all dry: ground, hands, gloves, gear", Says: map[string]string{"coating": "bare", "wet": "no"}},
		},
		Results: []form.Result{
			{Key: "verdict", Label: "Verdict", Gives: form.OneOf("stop", "STOP", "conditions", "Only under conditions", "go", "No stop found in what you answered"), Main: true},
			{Key: "meaning", Label: "That means", Gives: form.Text(), Main: true},
			{Key: "stop", Label: "Stop, because", Gives: form.Rows("name", "What", "why", "Because", "cleared_by", "Cleared by"), Main: true},
			{Key: "conditions", Label: "First", Gives: form.Rows("name", "What", "do", "Do", "cleared_by", "Cleared by"), Main: true},
		},
		Sources: []source.ID{"osha-252a3", "osha-252a2", source.CommonPractice},
		Run:     runGate,
	}
}}

var meanings = map[string]string{
	"stop":       "Do not cut this. Deal with every line below first, then answer again.",
	"conditions": "No stop was found in what you answered. Do every line below first; each names who clears it.",
	"go":         "No stop was found in what you answered. That does not make it safe: look once more, and keep to the permit and the local code.",
}

func runGate(r *form.Reader, a *form.Answer) error {
	in := GateInput{}
	for _, key := range []string{"what", "behind", "near", "place", "coating"} {
		in[key] = form.GetWord(r, key)
	}
	in["wet"] = yesOrNo(form.GetYes(r, "wet"))
	if err := r.Err(); err != nil {
		return err
	}
	res := ComputeGate(in)
	a.PutWord("verdict", res.Verdict)
	a.PutWord("meaning", meanings[res.Verdict])
	putFindings(a, "stop", "why", res.Stops)
	putFindings(a, "conditions", "do", res.Conditions)
	a.Caution(safety.ArcOn)
	a.Caution(safety.Return)
	a.Caution("Your machine's manual, the hot-work permit and the local code stand above this.")
	return nil
}

func yesOrNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}

func putFindings(a *form.Answer, key, column string, list []Finding) {
	rows := make([]*form.Row, len(list))
	for i, f := range list {
		rows[i] = a.NewRow()
		rows[i].PutWord("key", f.Key)
		rows[i].PutWord("name", f.Name)
		rows[i].PutWord(column, f.Text)
		rows[i].PutWord("cleared_by", f.By)
		a.Cite(f.Source)
	}
	a.PutRows(key, rows)
}

// StopsSoFar says which stops the answers given so far bring, of a JSON object
// like that of may-i-cut in which any may be missing. What is missing is taken
// neither for a hazard nor for none: no stop is ever lifted by an answer that
// follows, so one found is told at once. Answers that cannot be read are passed
// over; may-i-cut itself refuses them.
func StopsSoFar(input []byte) (*form.Answer, error) {
	r, err := form.NewJSONReader(MayICut.Calculator(), input)
	if err != nil {
		return nil, err
	}
	in := GateInput{}
	for _, key := range []string{"what", "behind", "near", "place", "coating"} {
		if r.Given(key) {
			in[key] = form.GetWord(r, key)
		}
	}
	if r.Given("wet") {
		in["wet"] = yesOrNo(form.GetYes(r, "wet"))
	}
	a := form.NewAnswer(r)
	putFindings(a, "stop", "why", ComputeGate(in).Stops)
	return a, nil
}
