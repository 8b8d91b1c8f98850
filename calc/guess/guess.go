// Package guess tells what is short for certain from what is short only by a
// figure that nobody has read. Such a figure is a default, and each has a
// favourable end: what it may well be instead.
package guess

import (
	"slices"
	"strings"

	"kerfside/calc/form"
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
}

// known are the defaults that something may be short by, each under the key that
// the site check has for it.
var known = []Guess{
	{"drop_advice", "what loss the machine bears", "10%", "The least volts are in its manual.", "iec-60974-1"},
	{"power_factor", "the power factor", "0.95", "The machine's plate tells, by that or by I1max.", "from-memory"},
	{"machine_efficiency", "the machine's efficiency", "92%", "The machine's plate tells, by that or by I1max.", "from-memory"},
	{"size", "the size of the cord", "6AWG", "It is printed on its jacket.", source.CommonPractice},
	{"start_factor", "how many times its running power the compressor starts with", "3.5", "The code letter on its motor's plate tells.", source.CommonPractice},
	{"headroom", "how much of the generator is to stay unused", "0%", "Its book says what it gives for hours.", source.CommonPractice},
	{"stretch", "how far the arc is stretched", "1.1", "Drag the tip or keep the standoff short.", "from-memory"},
	{"bore", "the bore of the hose", "13mm", "It is printed on it.", source.CommonPractice},
	{"cut_in", "what the compressor starts at", "7.5bar", "Watch its gauge, or read the switch.", source.CommonPractice},
	{"cut_out", "what the compressor stops at", "10bar", "Watch its gauge, or read the switch.", source.CommonPractice},
	{"pressure", "the pressure before the hose", "7.5bar", "Read the gauge while air flows.", source.CommonPractice},
	{"air_least", "the least pressure at the machine's inlet", "4bar", "It is on its plate or in its manual.", source.CommonPractice},
	{"coupler_c", "the couplers' conductance", "8 l/(s·bar)", "It is on their data sheet.", "from-memory"},
	{"couplers", "the number of couplers", "0", "Count them.", source.CommonPractice},
	{"compressor_duty", "how much of the time the compressor may be on", "100%", "It is in its manual.", source.CommonPractice},
	{"tank", "the compressor's tank", "100l", "It is on its plate.", source.CommonPractice},
	{"share", "how much of the time you cut", "15%", "It is yours to say.", "from-memory"},
	{"longest_cut", "the longest cut", "200mm", "It is yours to say.", "from-memory"},
	{"after_flow", "the after-flow", "5s", "Time it once.", "from-memory"},
	{"tip_growth", "when this tip is to be changed", "20%", "It is in the torch's manual.", source.CommonPractice},
	{"pit_limit", "when this electrode is to be changed", "2mm", "It is in the torch's manual: never past its insert.", source.CommonPractice},
}

// Of returns the guesses behind fields, the likeliest to be wrong first. A field
// that has another key than the site check's is written "efficiency=machine_efficiency".
func Of(fields ...string) []Guess {
	list := make([]Guess, len(fields))
	for i, field := range fields {
		key, name, renamed := strings.Cut(field, "=")
		if !renamed {
			name = key
		}
		list[i] = known[slices.IndexFunc(known, func(g Guess) bool { return g.Field == name })]
		list[i].Field = key
	}
	return list
}

// Rests returns what something short is short by alone: the one guess with which,
// at its favourable end, it would hold; else, with all of them together, as many
// as that takes; none if it is short even then. given tells what was read, holds
// whether it holds with other texts in some fields.
func Rests(guesses []Guess, given func(field string) bool, holds func(texts map[string]string) bool) []Guess {
	holdsWith := func(some []Guess) bool {
		texts := map[string]string{}
		for _, g := range some {
			texts[g.Field] = g.Best
		}
		return holds(texts)
	}
	var open []Guess
	for _, g := range guesses {
		if !given(g.Field) {
			if holdsWith([]Guess{g}) {
				return []Guess{g}
			}
			open = append(open, g)
		}
	}
	if len(open) == 0 || !holdsWith(open) {
		return nil
	}
	for i := len(open) - 1; i >= 0; i-- { // leave out what it does not take
		if fewer := slices.Concat(open[:i], open[i+1:]); holdsWith(fewer) {
			open = fewer
		}
	}
	return open
}

// Note says what something in doubt rests on, with both ends, and where to read
// it. said is a text of a field, or its default with "", as a person reads it.
func Note(rests []Guess, said func(field, text string) string) string {
	var what, usual, best []string
	where := ""
	for _, g := range rests {
		what, usual, best = append(what, g.What), append(usual, said(g.Field, "")), append(best, said(g.Field, g.Best))
		if !strings.Contains(where, g.Where) {
			where += " " + g.Where
		}
	}
	return "Nobody has entered " + Joined(what) + ": with the usual " + Joined(usual) + " it is short, with " + Joined(best) + " it holds." + where
}

// Joined lists words as a sentence does.
func Joined(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	last := len(list) - 1
	return strings.Join(list[:last], ", ") + " and " + list[last]
}

// Judge returns a verdict of a calculator, or Doubt where it is short by guesses
// alone, and cautions then. what begins the caution; again judges once more by
// another reader, false where it cannot.
func Judge(a *form.Answer, r *form.Reader, what string, v margin.Verdict, guesses []Guess, again func(*form.Reader) (margin.Verdict, bool)) margin.Verdict {
	if v != margin.Fails {
		return v
	}
	rests := Rests(guesses, r.Given, func(texts map[string]string) bool {
		v, ok := again(r.With(texts))
		return ok && v != margin.Fails
	})
	if rests == nil {
		return v
	}
	a.Caution("%s may hold after all. %s", what, Note(rests, r.Said))
	return margin.Doubt
}
