package book

import "kerfside/calc/form"

func (b *book) doneAction(d due) *Action {
	a := Action{Label: capital(d.did) + " now", Act: "upkeep-done", With: map[string]string{"rig": d.rig, "task": d.word}}
	if d.word == "extinguisher" {
		a.Ask = []Ask{{Key: "next", Label: "Date on its tag, such as 2027-03. Leave it empty if there is none.", Value: b.tagDate(d.of.Next)}}
	}
	return &a
}

func (b *book) tagDate(ms int64) string {
	if ms == 0 {
		return ""
	}
	return b.stamp(ms)[:len("2027-03-01")]
}

func (b *book) upkeepActions(rig string, all []due) []Action {
	which := Ask{Key: "task", Label: "Which?"}
	for _, d := range all {
		if d.rig == rig {
			which.Options = append(which.Options, Option{Word: d.word, Label: d.name, More: b.every(d)})
		}
	}
	for _, r := range b.rigUpkeep() {
		for _, t := range r.Tasks {
			if r.Rig == rig && t.Limits.Off {
				which.Options = append(which.Options, Option{Word: t.Task, Label: taskOf(t).name, More: "Not kept."})
			}
		}
	}
	by := Ask{Key: "by", Label: "How is it due?", Options: []Option{{Word: "days", Label: "By days"}, {Word: "arc", Label: "By minutes of arc"}, {Word: "hours", Label: "By hours at work"}, {Word: "off", Label: "Not kept for this rig"}}}
	return []Action{
		{Label: "How often", Act: "upkeep-often", With: map[string]string{"rig": rig}, Ask: []Ask{which, by, {Key: "n", Label: "After how many?", Count: true, Only: form.When("by", "days", "arc", "hours")}}},
		{Label: "A task of your own", Act: "upkeep-own", With: map[string]string{"rig": rig}, Ask: []Ask{{Key: "name", Label: "What is to be done?"}, {Key: "n", Label: "Every how many days?", Count: true}}},
	}
}
