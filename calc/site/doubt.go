package site

import (
	"slices"
	"strings"

	"kerfside/calc/cutting"
	"kerfside/calc/margin"
	"kerfside/calc/source"
)

// Guess is a figure that stands for what nobody has read.
type Guess struct {
	Field string
	What  string
	Best  string // what it may well be instead, at the favourable end, as a field takes it
	Where string // to read it
	Basis source.ID

	checks []string // that rest on it
}

// guesses are the defaults that a check may fail by, the likeliest to be wrong
// first, with the favourable end of what each could be.
var guesses = []Guess{
	{"drop_advice", "what loss the machine bears", "10%", "The least volts are in its manual.", "iec-60974-1", []string{"cord"}},
	{"power_factor", "the power factor", "0.95", "The machine's plate tells, by that or by I1max.", "from-memory", []string{"cord", "volts", "breaker", "generator"}},
	{"machine_efficiency", "the machine's efficiency", "92%", "The machine's plate tells, by that or by I1max.", "from-memory", []string{"cord", "volts", "breaker", "generator"}},
	{"size", "the size of the cord", "6AWG", "It is printed on its jacket.", source.CommonPractice, []string{"cord", "volts"}},
	{"start_factor", "how many times its running power the compressor starts with", "3.5", "The code letter on its motor's plate tells.", source.CommonPractice, []string{"generator"}},
	{"headroom", "how much of the generator is to stay unused", "0%", "Its book says what it gives for hours.", source.CommonPractice, []string{"generator"}},
	{"stretch", "how far the arc is stretched", "1.1", "Drag the tip or keep the standoff short.", "from-memory", []string{"generator"}},
	{"bore", "the bore of the hose", "13mm", "It is printed on it.", source.CommonPractice, []string{"hose", "tank"}},
	{"cut_in", "what the compressor starts at", "7.5bar", "Watch its gauge, or read the switch.", source.CommonPractice, []string{"hose", "tank"}},
	{"cut_out", "what the compressor stops at", "10bar", "Watch its gauge, or read the switch.", source.CommonPractice, []string{"hose", "tank"}},
	{"air_least", "the least pressure at the machine's inlet", "4bar", "It is on its plate or in its manual.", source.CommonPractice, []string{"hose", "tank"}},
	{"coupler_c", "the couplers' conductance", "8 l/(s·bar)", "It is on their data sheet.", "from-memory", []string{"hose", "tank"}},
	{"couplers", "the number of couplers", "0", "Count them.", source.CommonPractice, []string{"hose", "tank"}},
	{"compressor_duty", "how much of the time the compressor may be on", "100%", "It is in its manual.", source.CommonPractice, []string{"compressor"}},
	{"tank", "the compressor's tank", "100l", "It is on its plate.", source.CommonPractice, []string{"tank"}},
	{"share", "how much of the time you cut", "15%", "It is yours to say.", "from-memory", []string{"compressor", "duty", "breaker"}},
	{"longest_cut", "the longest cut", "200mm", "It is yours to say.", "from-memory", []string{"tank"}},
	{"after_flow", "the after-flow", "5s", "Time it once.", "from-memory", []string{"compressor", "tank"}},
	{"tip_growth", "when this tip is to be changed", "20%", "It is in the torch's manual.", source.CommonPractice, []string{"tip"}},
	{"pit_limit", "when this electrode is to be changed", "2mm", "It is in the torch's manual: never past its insert.", source.CommonPractice, []string{"electrode"}},
}

// rests returns what a short check is short by alone: the one guess with which,
// at its favourable end, it would hold; else, with all of them together, as
// many as that takes; none if it is short even then.
func (in Input) rests(c Check, plan cutting.PlanResult) []Guess {
	var open []Guess
	for _, g := range guesses {
		if slices.Contains(g.checks, c.Key) && !in.Given(g.Field) {
			if in.holdsWith(c.Key, []Guess{g}, plan) {
				return []Guess{g}
			}
			open = append(open, g)
		}
	}
	if len(open) == 0 || !in.holdsWith(c.Key, open, plan) {
		return nil
	}
	for i := len(open) - 1; i >= 0; i-- { // leave out what it does not take
		if fewer := slices.Concat(open[:i], open[i+1:]); in.holdsWith(c.Key, fewer, plan) {
			open = fewer
		}
	}
	return open
}

// note says what a check in doubt rests on, with both ends, and where to read it.
func (in Input) note(rests []Guess) string {
	var what, usual, best []string
	where := ""
	for _, g := range rests {
		what, usual, best = append(what, g.What), append(usual, in.Said(g.Field, "")), append(best, in.Said(g.Field, g.Best))
		if !strings.Contains(where, g.Where) {
			where += " " + g.Where
		}
	}
	return " Nobody has entered " + joined(what) + ": with the usual " + joined(usual) + " it is short, with " + joined(best) + " it holds." + where
}

// joined lists words as a sentence does.
func joined(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	last := len(list) - 1
	return strings.Join(list[:last], ", ") + " and " + list[last]
}

// holdsWith reports whether a check holds with those guesses at their best.
func (in Input) holdsWith(key string, best []Guess, plan cutting.PlanResult) bool {
	texts := map[string]string{}
	for _, g := range best {
		texts[g.Field] = g.Best
	}
	eased, err := in.With(texts)
	if err != nil {
		return false
	}
	for _, other := range eased.judge(plan).Checks {
		if other.Key == key {
			return margin.Judge(other.Margin) != margin.Fails
		}
	}
	return false
}
