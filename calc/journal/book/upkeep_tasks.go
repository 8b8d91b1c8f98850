package book

import "kerfside/calc/journal/fold"

// task is a sort of upkeep that every rig has.
type task struct {
	word  string
	name  string // "Air filter"
	did   string // "changed"
	days  int64  // how often, where the crew says nothing; 0 where its arc limit stands
	basis string
}

// tasks are the sorts of upkeep, the most urgent first. How often is common practice,
// without a published source, but for the extinguisher: a look each month, a check each
// year (29 CFR 1910.157(e)(2) and (3), second-hand). The date on its tag counts besides.
var tasks = []task{
	{word: "drain", name: "Water trap", did: "drained", basis: common},
	{word: "filter", name: "Air filter", did: "changed", days: 90, basis: common},
	{word: "oil", name: "Compressor oil", did: "changed", days: 180, basis: common},
	{word: "lead", name: "Work lead and torch lead", did: "looked over", days: 30, basis: common},
	{word: "blow-out", name: "Machine", did: "blown out", days: 90, basis: common},
	{word: "extinguisher", name: "Fire extinguisher", did: "looked over", days: 30, basis: "29 CFR 1910.157(e)(2)"},
}

const common = "common practice"

// taskOf is what a word of the journal stands for; the crew's own tasks have the name
// that it gave.
func taskOf(t fold.UpkeepTask) task {
	for _, known := range tasks {
		if known.word == t.Task {
			if t.Limits.Name != "" {
				known.name = t.Limits.Name
			}
			return known
		}
	}
	name := t.Limits.Name
	if name == "" {
		name = capital(spaced(t.Task))
	}
	return task{word: t.Task, name: name, did: "done"}
}
