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
	{Field: "drop_advice", What: "what loss the machine bears", Best: "10%", Where: "The least volts are in its manual.", Basis: "iec-60974-1"},
	{Field: "power_factor", What: "the power factor", Best: "0.95", Where: "The machine's plate tells, by that or by I1max.", Basis: "from-memory"},
	{Field: "machine_efficiency", What: "the machine's efficiency", Best: "92%", Where: "The machine's plate tells, by that or by I1max.", Basis: "from-memory"},
	{Field: "size", What: "the size of the cord", Best: "6AWG", Where: "It is printed on its jacket.", Basis: source.CommonPractice},
	{Field: "start_factor", What: "how many times its running power the compressor starts with", Best: "3.5", Where: "The code letter on its motor's plate tells.", Basis: source.CommonPractice},
	{Field: "headroom", What: "the part of the generator left unused", Best: "0%", Where: "Its book says what it gives for hours.", Basis: source.CommonPractice},
	{Field: "stretch", What: "how far the arc is stretched", Best: "1.1", Where: "Drag the tip or keep the standoff short.", Basis: "from-memory"},
	{Field: "bore", What: "the bore of the hose", Best: "13mm", Where: "It is printed on it.", Basis: source.CommonPractice},
	{Field: "cut_in", What: "what the compressor starts at", Best: "7.5bar", Where: "Watch its gauge, or read the switch.", Basis: source.CommonPractice},
	{Field: "cut_out", What: "what the compressor stops at", Best: "10bar", Where: "Watch its gauge, or read the switch.", Basis: source.CommonPractice},
	{Field: "pressure", What: "the pressure before the hose", Best: "7.5bar", Where: "Read the gauge while air flows.", Basis: source.CommonPractice},
	{Field: "air_least", What: "the least pressure at the machine's inlet", Best: "4bar", Where: "It is on its plate or in its manual.", Basis: source.CommonPractice},
	{Field: "coupler_c", What: "the couplers' conductance", Best: "8 l/(s·bar)", Where: "It is on their data sheet.", Basis: "from-memory"},
	{Field: "couplers", What: "the number of couplers", Best: "0", Where: "Count them.", Basis: source.CommonPractice},
	{Field: "compressor_duty", What: "how much of the time the compressor may be on", Best: "100%", Where: "It is in its manual.", Basis: source.CommonPractice},
	{Field: "tank", What: "the compressor's tank", Best: "100l", Where: "It is on its plate.", Basis: source.CommonPractice},
	{Field: "share", What: "how much of the time you cut", Best: "15%", Where: "It is yours to say.", Basis: "from-memory"},
	{Field: "longest_cut", What: "the longest cut", Best: "200mm", Where: "It is yours to say.", Basis: "from-memory"},
	{Field: "after_flow", What: "the after-flow", Best: "5s", Where: "Time it once.", Basis: "from-memory"},
	{Field: "tip_growth", What: "when this tip is to be changed", Best: "20%", Where: "It is in the torch's manual.", Basis: source.CommonPractice},
	{Field: "pit_limit", What: "when this electrode is to be changed", Best: "2mm", Where: "It is in the torch's manual: never past its insert.", Basis: source.CommonPractice},
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
	return "Not entered: " + Joined(what) + ". With the usual " + Joined(usual) + " it is short; with " + Joined(best) + " it holds." + where
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
