package vector

import (
	"kerfside/calc/source"
)

// other origins than a source's id
var origins = map[string]bool{"worked": true, "law": true, "refusal": true}

// Standing says what a case's expected values are worth.
type Standing string

// The standings, the best first.
const (
	Published      Standing = "published" // printed in a source that a reader could find
	Run            Standing = "run"       // given by somebody else's program
	LookUp         Standing = "look-up"   // a table or rule against itself
	Worked         Standing = "worked"
	Law            Standing = "law"
	Refusal        Standing = "refusal"
	CommonPractice Standing = "common practice"
	Memory         Standing = "from memory"
	Judgement      Standing = "judgement"
)

// Standings lists them in that order.
var Standings = []Standing{Published, Run, LookUp, Worked, Law, Refusal, CommonPractice, Memory, Judgement}

// Standing tells what the case's expected values are worth.
func (c Case) Standing() Standing {
	s, ok := source.ForCheck(source.ID(c.From))
	switch {
	case !ok:
		return Standing(c.From)
	case s.ID == source.CommonPractice:
		return CommonPractice
	case s.Standing == source.Judgement:
		return Judgement
	case s.Standing == source.Memory:
		return Memory
	case c.Mark == "lookup":
		return LookUp
	case c.Mark == "run":
		return Run
	}
	return Published
}

// Checks counts what the case holds: its numbers, or one if it has none. What it
// is known to miss it does not hold.
func (c Case) Checks() int {
	n := 0
	for _, w := range c.Wants {
		if !w.IsWord {
			n++
		}
	}
	if n == 0 && len(c.Miss) == 0 {
		return 1
	}
	return n
}
