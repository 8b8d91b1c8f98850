// Package source lists every source that a figure in Kerfside rests on, once,
// by a short id. Calculators, vectors and guides cite the id; a test finds ids
// that nobody uses, ids that do not exist and ids that stand in two lists.
package source

import (
	"strings"
	"sync"
)

// ID names a source, such as "osha-133".
type ID string

// Standing says how well a source was seen by whoever wrote it down here.
type Standing string

const (
	Seen       Standing = "seen"        // read in the source itself
	SecondHand Standing = "second-hand" // read in a copy, reprint or quotation
	Memory     Standing = "from memory" // verify before relying on it
	Judgement  Standing = "judgement"   // the authors' own, or common practice with no published source
)

// Source is one book, standard, rule, paper or data set.
type Source struct {
	ID       ID
	By       string // its author, or the body that put it out; empty for what has none
	Title    string // what a reader would ask a library for
	Where    string // edition, clause, table or page; may be empty
	Standing Standing
}

// Cite prints the source as a reader wants to see it.
func (s Source) Cite() string {
	var parts []string
	if !strings.HasPrefix(s.Title, s.By) {
		parts = append(parts, s.By)
	}
	parts = append(parts, s.Title)
	if s.Where != "" {
		parts = append(parts, s.Where)
	}
	if (s.Standing == SecondHand || s.Standing == Memory) && !strings.HasPrefix(s.Title, string(s.Standing)) {
		parts = append(parts, string(s.Standing))
	}
	return strings.Join(parts, ", ")
}

// Named reports whether a reader could find the source: somebody stands behind
// it, it has a title, and the place in it is told.
func (s Source) Named() bool { return s.By != "" && s.Title != "" && s.Where != "" }

// What is cited where nobody published the figure.
const (
	CommonPractice ID = "common-practice" // a rule of thumb
	Judged         ID = "judgement"       // the authors' choice
	Neutral        ID = "neutral"         // a default that adds nothing and takes nothing off
)

// all returns the lists of the other files, one file per subject. They are put
// together when the first source is asked for.
var all = sync.OnceValue(func() map[ID]Source {
	m := map[ID]Source{}
	for _, list := range [][]Source{general, diagnoseSources, cutting, metals, gauges, hazards, shop, gate, airSources, powerSources, photo, lives, spares, jobs, pipes, layout} {
		for _, s := range list {
			if _, ok := m[s.ID]; ok {
				panic("source: " + string(s.ID) + " is listed twice")
			}
			m[s.ID] = s
		}
	}
	return m
})

// Get returns the source of that id.
func Get(id ID) (Source, bool) {
	s, ok := all()[id]
	return s, ok
}

// IDs returns every id, those for check values too, in no particular order.
func IDs() []ID {
	var ids []ID
	for _, s := range checks {
		ids = append(ids, s.ID)
	}
	for id := range all() {
		ids = append(ids, id)
	}
	return ids
}

var general = []Source{
	{ID: CommonPractice, Title: "common practice, no published source", Standing: Judgement},
	{ID: Judged, Title: "the authors' judgement", Standing: Judgement},
	{ID: Neutral, Title: "the value that changes nothing, the authors' judgement", Standing: Judgement},
	{ID: "from-memory", Title: "from memory, verify before relying on it", Standing: Memory},
	{ID: "sp811", By: "NIST", Title: "NIST Special Publication 811 (2008), Guide for the Use of the International System of Units", Where: "appendix B.8", Standing: Seen},
}
