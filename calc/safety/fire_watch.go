package safety

import (
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// WatchInput is what could burn around the cut, and the rules of the place.
type WatchInput struct {
	Near     bool   // something that burns within ClearDistance
	Done     string // about Near: "moved", "shielded", "neither"
	Far      bool   // further off, but easily lit by sparks
	Openings bool   // in wall or floor within ClearDistance, with something that burns behind
	Behind   bool   // burns on the far side of a metal wall, roof or ceiling
	Larger   bool   // more than a minor fire could start
	Smoulder bool   // lagging, sawdust, a cavity: what burns unseen

	Rule  unit.Duration // of the crew or its standard; at least LegalWatch
	Local unit.Duration // of the place or the permit; 0 if there is none
	Since unit.Duration // from the last arc until now; 0 if not asked
}

// WatchResult says whether to cut and how long to watch.
type WatchResult struct {
	Verdict  string // "stop", "watch required" or "watch anyway"
	Watch    unit.Duration
	Left     unit.Duration // of the watch, 0 or more
	Over     bool          // Since is past the watch
	Further  unit.Duration // looking in again after the watch; 0 if nothing smoulders
	Distance unit.Length
	Reasons  []WatchReason
}

// WatchReason is one thing that calls for a watch, and what to do about it.
type WatchReason struct {
	Why, Do string
	Source  source.ID
}

const (
	// LegalWatch is the least of 29 CFR 1910.252(a)(2)(iii)(B).
	LegalWatch = 30 * unit.Minute
	// ClearDistance is 35 ft; NFPA 51B rounds it to 11 m.
	ClearDistance = 35 * unit.Foot
	// furtherWatch is the most that NFPA 51B-2019 lets the issuer of a permit
	// add as further monitoring, from memory.
	furtherWatch = 3 * unit.Hour
)

// watchRules are the cases of 29 CFR 1910.252(a)(2)(iii)(A) in which a fire
// watch is required. The last stands in no rule: what smoulders is a judgement.
var watchRules = []struct {
	holds func(WatchInput) bool
	WatchReason
}{
	{func(in WatchInput) bool { return in.Larger }, WatchReason{Why: "more than a minor fire could start", Do: "Have a charged hose or the right extinguisher at hand, and someone who can use it.", Source: "osha-252a2"}},
	{func(in WatchInput) bool { return in.Near }, WatchReason{Why: "something that burns is within 35 ft (11 m)", Do: "Move it out of reach, or cover it with a fire blanket or sheet metal.", Source: "osha-252a2"}},
	{func(in WatchInput) bool { return in.Far }, WatchReason{Why: "something further off is easily lit by sparks", Do: "Move it, cover it or wet it down, and watch it.", Source: "osha-252a2"}},
	{func(in WatchInput) bool { return in.Openings }, WatchReason{Why: "openings within 35 ft (11 m) lead to something that burns", Do: "Close or cover cracks and holes in wall and floor, and watch what lies below.", Source: "osha-252a2"}},
	{func(in WatchInput) bool { return in.Behind }, WatchReason{Why: "something burns on the far side of the metal", Do: "Move it away from the far side, or post a second watch there.", Source: "osha-252a2"}},
	{func(in WatchInput) bool { return in.Smoulder }, WatchReason{Why: "something could smoulder unseen", Do: "Look in again for hours after the watch: a cavity burns late.", Source: source.CommonPractice}},
}

// ComputeWatch decides by the rules of 29 CFR 1910.252(a)(2) and NFPA 51B:
// what cannot be moved must be shielded, else there is no cutting; the watch
// is the longest of the crew's rule, the local one and the legal floor of
// 30 min, counted from the last arc.
func ComputeWatch(in WatchInput) (WatchResult, error) {
	if in.Rule < LegalWatch {
		return WatchResult{}, problem.New(problem.Range, "watch", "a fire watch is never shorter than 30 min", "29 CFR 1910.252(a)(2)(iii)(B) is the floor; 60 min is NFPA 51B.")
	}
	res := WatchResult{Verdict: "watch anyway", Watch: max(in.Rule, in.Local), Distance: ClearDistance}
	for _, rule := range watchRules {
		if rule.holds(in) {
			res.Verdict = "watch required"
			res.Reasons = append(res.Reasons, rule.WatchReason)
		}
	}
	if in.Near && in.Done == "neither" {
		res.Verdict = "stop"
	}
	if in.Smoulder {
		res.Further = furtherWatch
	}
	res.Left, res.Over = max(res.Watch-in.Since, 0), in.Since >= res.Watch
	return res, nil
}

// FireWatch is the calculator fire-watch.
var FireWatch = form.Declaration{Name: "fire-watch", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Fire watch",
		About: "Asks what could burn on both sides of the cut. Says how far to clear, and how long to watch after the last arc.",
		Place: "ready",
		Terms: []string{"fire", "hot work", "permit", "sparks", "blanket", "extinguisher", "clear", "timer", "35 feet"},
		Fields: []form.Field{
			{Key: "near", Label: "Anything that burns within 35 ft (11 m)?", Takes: form.YesNo(), Hazard: true, Help: "Paper, wood, oil, grass, dust, foam, upholstery, a fuel tank"},
			{Key: "done", Label: "And it is", Takes: form.OneOf("moved", "Moved away", "shielded", "Covered or shielded", "neither", "Neither: it cannot be"), Hazard: true, Only: form.When("near", "yes")},
			{Key: "far", Label: "Anything further off that sparks light easily?", Takes: form.YesNo(), Hazard: true, Help: "Dry grass, straw, dust, vapour"},
			{Key: "openings", Label: "Cracks, holes or open doors to something that burns?", Takes: form.YesNo(), Hazard: true, Help: "In wall or floor, within 35 ft (11 m). Look below"},
			{Key: "behind", Label: "Anything that burns on the far side of the metal?", Takes: form.YesNo(), Hazard: true, Help: "Go round and look: lining, lagging, stacked goods"},
			{Key: "larger", Label: "Could it become more than a small fire?", Takes: form.YesNo(), Hazard: true},
			{Key: "smoulder", Label: "A cavity, lagging, sawdust or chaff?", Takes: form.YesNo(), Hazard: true},
			{Key: "watch", Label: "Watch after the last arc", Takes: form.Number[unit.Duration]("min", "min"), Default: "60min", Basis: "nfpa-51b-2019",
				Chips: []string{"30min", "60min", "2h"}, Help: "Never under 30 min", Limits: form.Within(LegalWatch, 24*unit.Hour)},
			{Key: "local", Label: "Watch asked by the place or the permit", Takes: form.Number[unit.Duration]("min", "min"), Optional: true, Help: "The longer one counts", Limits: form.Within(0, 24*unit.Hour)},
			{Key: "since", Label: "Time since the last arc", Takes: form.Number[unit.Duration]("min", "min"), Optional: true, Fine: true, Limits: form.Within(0, 48*unit.Hour)},
		},
		Results: []form.Result{
			{Key: "verdict", Label: "Fire", Gives: form.Text(), Main: true},
			{Key: "watch", Label: "Watch after the last arc", Gives: form.Number[unit.Duration]("min", "min"), Main: true},
			{Key: "left", Label: "Still to watch", Gives: form.Number[unit.Duration]("min", "min"), Main: true},
			{Key: "over", Label: "Watch is over", Gives: form.YesNo()},
			{Key: "further", Label: "Look in again for up to", Gives: form.Number[unit.Duration]("h", "h")},
			{Key: "distance", Label: "Clear around the cut", Gives: form.Number[unit.Length]("m", "ft"), Main: true},
			{Key: "floor", Label: "Never less than", Gives: form.Number[unit.Duration]("min", "min")},
			{Key: "reasons", Label: "Because", Gives: form.Rows("why", "Because", "do", "Do")},
		},
		Sources: []source.ID{"osha-252a2", "nfpa-51b-2019"},
		Run:     runWatch,
	}
}}

func runWatch(r *form.Reader, a *form.Answer) error {
	in := WatchInput{
		Near: form.GetYes(r, "near"), Done: form.GetWord(r, "done"), Far: form.GetYes(r, "far"), Openings: form.GetYes(r, "openings"),
		Behind: form.GetYes(r, "behind"), Larger: form.GetYes(r, "larger"), Smoulder: form.GetYes(r, "smoulder"),
		Rule: form.Get[unit.Duration](r, "watch"), Local: form.Get[unit.Duration](r, "local"), Since: form.Get[unit.Duration](r, "since"),
	}
	if err := r.Err(); err != nil {
		return err
	}
	res, err := ComputeWatch(in)
	if err != nil {
		return err
	}
	a.PutWord("verdict", res.Verdict)
	a.Draw(map[bool]string{false: "fire-area", true: "fire-area-wall"}[in.Behind], nil)
	form.Put(a, "watch", res.Watch)
	if r.Given("since") {
		form.Put(a, "left", res.Left)
		a.PutYes("over", res.Over)
		a.Step("still to watch = %s − %s = %s", form.SayIn(a, res.Watch, "min", "min"), form.SayIn(a, in.Since, "min", "min"), form.SayIn(a, res.Left, "min", "min"))
	}
	if res.Further > 0 {
		form.Put(a, "further", res.Further)
		a.Cite("from-memory")
	}
	form.Put(a, "distance", res.Distance)
	form.Put(a, "floor", LegalWatch)
	rows := make([]*form.Row, len(res.Reasons))
	for i, reason := range res.Reasons {
		rows[i] = a.NewRow()
		rows[i].PutWord("why", reason.Why)
		rows[i].PutWord("do", reason.Do)
		a.Cite(reason.Source)
	}
	a.PutRows("reasons", rows)
	a.Step("watch = the longest of your %s, the place's %s and the legal 30 min = %s", form.SayIn(a, in.Rule, "min", "min"), form.SayIn(a, in.Local, "min", "min"), form.SayIn(a, res.Watch, "min", "min"))
	sayWatch(a, res)
	return nil
}

func sayWatch(a *form.Answer, res WatchResult) {
	if res.Verdict == "stop" {
		a.Caution("Do not cut here: what burns can be neither moved nor shielded. Take the work to another place, or cut it cold.")
	}
	a.Caution("Clear 35 ft (11 m) around, and above, below and behind. Know both sides of the wall.")
	a.Caution("Count from the last arc; any new arc starts the watch again.")
	a.Caution("Set the phone's own alarm too: a locked phone may stay silent. You stay, or a named person does, with an extinguisher in reach and the fire brigade's number.")
	a.Caution("Local fire code, the site's hot-work permit and its issuer decide; they may ask for more, and this gives no permit.")
}
