package book

import (
	"math"
	"strconv"
	"strings"

	"kerfside/calc/day"
	"kerfside/calc/form"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

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

// due is how a task of a rig stands.
type due struct {
	task
	of     fold.UpkeepTask
	rig    string
	limits fold.UpkeepLimits
	own    bool    // the crew set the limits
	used   float64 // of the nearest limit; 1 and more is due
	at     int64   // by the calendar; 0 where that sets nothing
	never  bool    // nobody has told of it yet
}

// upkeepOf is how all tasks stand that are kept, the most urgent first in each rig.
func (b *book) upkeepOf() []due {
	var all []due
	for _, r := range b.rigUpkeep() {
		for _, t := range r.Tasks {
			if !t.Limits.Off {
				all = append(all, b.dueOf(r.Rig, t))
			}
		}
	}
	return all
}

// rigUpkeep is the upkeep of all rigs, which is gathered once.
func (b *book) rigUpkeep() []fold.RigUpkeep {
	if b.kept == nil {
		b.kept = b.fold.Upkeep(b.Now).Rigs
	}
	return b.kept
}

func (b *book) dueOf(rig string, t fold.UpkeepTask) due {
	d := due{task: taskOf(t), of: t, rig: rig, limits: t.Limits, own: t.Limits.By != "" && t.Limits.Days+t.Limits.Arc+t.Limits.Hours > 0, never: t.At == 0}
	if t.Task == "drain" {
		d.own = t.Limits.Arc > 0 && t.Limits.By != ""
	} else if !d.own {
		d.limits.Days = d.days
	}
	share := func(n, of int64) {
		if of > 0 {
			d.used = max(d.used, float64(n)/float64(of))
		}
	}
	share(t.Ms, d.limits.Arc)
	if d.never {
		if t.Task != "drain" { // of a trap the arc tells, whoever logs it
			d.used = 0
		}
		return d
	}
	share(t.Hours, d.limits.Hours)
	if d.limits.Days > 0 {
		from := b.Zone.at(t.At).Number
		share(b.Zone.at(b.Now).Number-from, d.limits.Days)
		d.at = b.Zone.ms(from + d.limits.Days)
	}
	if t.Next > 0 {
		if d.at == 0 || t.Next < d.at {
			d.at = t.Next
		}
		if b.Zone.at(b.Now).Number >= b.Zone.at(t.Next).Number {
			d.used = max(d.used, 1)
		}
	}
	return d
}

func (d due) isDue() bool { return d.used >= 1-1e-9 }

// soon is what is left of a limit when a task is told as coming up.
const soon = 0.85

// says is how the task stands, in a sentence, and by what it is due.
func (b *book) saysDue(d due) []string {
	every := b.every(d)
	switch {
	case d.never && d.word == "drain":
		return []string{"Never logged. " + span(d.of.Ms) + " of arc so far.", every}
	case d.never:
		return []string{"Never logged: nobody knows when it is due.", every}
	}
	did := capital(d.did) + " " + b.day(d.of.At) + "."
	var left string
	switch n := b.Zone.at(d.at).Number - b.Zone.at(b.Now).Number; {
	case d.at > 0 && d.isDue() && n < 0:
		left = " Due for " + unit.Count(-n, "day", "days") + "."
	case d.at > 0 && d.isDue() && n == 0:
		left = " Due today."
	case d.isDue():
		left = " Due now."
	case d.at > 0:
		left = " Due " + b.day(d.at) + "."
	case d.limits.Arc > 0:
		left = " " + span(max(d.limits.Arc-d.of.Ms, 0)) + " of arc left."
	case d.limits.Hours > 0:
		left = " " + hours(max(d.limits.Hours-d.of.Hours, 0)) + " at work left."
	}
	return []string{did + left, every}
}

// every says how often a task is due, and whose word that is.
func (b *book) every(d due) string {
	var often []string
	if d.limits.Days > 0 {
		often = append(often, unit.Count(d.limits.Days, "day", "days"))
	}
	if d.limits.Arc > 0 {
		often = append(often, span(d.limits.Arc)+" of arc")
	}
	if d.limits.Hours > 0 {
		often = append(often, hours(d.limits.Hours)+" at work")
	}
	if len(often) == 0 {
		if d.of.Next > 0 {
			return "By the date on it: " + b.date(d.of.Next) + "."
		}
		return "Nobody has said how often."
	}
	said := "Every " + strings.Join(often, " or ")
	switch {
	case d.of.Next > 0:
		said += ", and by the date on it: " + b.date(d.of.Next)
	case !d.own && d.basis != "":
		said += ", " + d.basis
	}
	return said + "."
}

func hours(ms int64) string { return strconv.FormatInt((ms+hourMs/2)/hourMs, 10) + " h" }

// due reports in a line what is due.
func (b *book) due() (Report, error) {
	if b.Coming > 0 {
		return Report{Title: "Upkeep", Says: []string{"Older entries are still coming"}}, nil
	}
	return Report{Title: "Upkeep", Says: []string{b.dueLine(b.upkeepOf())}}, nil
}

// upkeep reports what is due, by rig.
func (b *book) upkeep() (Report, error) {
	r := Report{Title: "Upkeep"}
	all := b.upkeepOf()
	r.Says = []string{b.dueLine(all)}
	last := ""
	for _, d := range all {
		if d.rig != last || len(r.Sections) == 0 {
			r.Sections = append(r.Sections, Section{Title: b.rig(d.rig), Actions: b.upkeepActions(d.rig, all)})
			last = d.rig
		}
		s := &r.Sections[len(r.Sections)-1]
		row := Row{Title: d.name, Says: b.saysDue(d), Action: b.doneAction(d)}
		switch {
		case d.isDue():
			row.Tag = "due"
		case d.used >= soon:
			row.Tag = "soon"
		}
		i := len(s.Rows) // what is due stands first
		for i > 0 && row.Tag == "due" && s.Rows[i-1].Tag != "due" {
			i--
		}
		s.Rows = append(s.Rows[:i], append([]Row{row}, s.Rows[i:]...)...)
	}
	if len(all) == 0 {
		r.Says = []string{"No rig is known yet. Enter one to keep its upkeep."}
		r.Actions = []Action{{Label: "Rigs", Href: "/rigs"}}
		return r, nil
	}
	r.Sections = append(r.Sections, Section{Says: []string{"The machine's and the compressor's book come first: enter what they say under How often.", "At work counts the time of sessions: so long the compressor may have run."},
		Actions: []Action{{Label: "Into the phone's calendar", Act: "calendar"}}})
	return r, nil
}

// dueLine is what is due, in a line.
func (b *book) dueLine(all []due) string {
	var names, next []string
	never := 0
	for _, d := range all {
		name := lower(d.name)
		if len(b.rigUpkeep()) > 1 {
			name += ", " + b.rig(d.rig)
		}
		switch {
		case d.isDue():
			names = append(names, name)
		case d.used >= soon:
			next = append(next, name)
		case d.never:
			never++
		}
	}
	switch {
	case len(names) > 2:
		return "Due: " + names[0] + ", and " + strconv.Itoa(len(names)-1) + " more."
	case len(names) > 0:
		return "Due: " + strings.Join(names, "; ") + "."
	case len(next) > 0:
		return "Soon: " + next[0] + "."
	case never > 0 && never == len(all):
		return "Nothing was ever logged: nobody knows what is due."
	case never > 0:
		return "Nothing that is known is due; " + unit.Count(never, "task was", "tasks were") + " never logged."
	}
	return "Nothing is due."
}

// lower makes a name fit into a sentence; what is written in capitals stays.
func lower(name string) string {
	if len(name) > 1 && name[1] >= 'A' && name[1] <= 'Z' {
		return name
	}
	return strings.ToLower(name[:1]) + name[1:]
}

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

// upkeepDone answers that a task was done.
func (b *book) upkeepDone(in Act) (Done, error) {
	word, rig := in.of("task"), in.of("rig")
	t := taskOf(fold.UpkeepTask{Task: word})
	d := Done{Said: t.name + " " + t.did + "."}
	body := map[string]any{"rig": rig}
	switch word {
	case "drain":
		d.Entries = []Entry{{Kind: "trap.drained", Body: body}}
		return d, nil
	case "filter":
		d.Entries = []Entry{{Kind: "filter.changed", Body: body}}
		return d, nil
	}
	body["task"] = word
	if text := strings.TrimSpace(in.of("next")); text != "" {
		at, err := b.readDay(text)
		if err != nil {
			return d, problem.From(err).WithField("next")
		}
		body["next"] = at
	}
	d.Entries = []Entry{{Kind: "upkeep.done", Body: body}}
	return d, nil
}

// readDay reads a day such as 2027-03-15, or the last of a month: 2027-03.
func (b *book) readDay(text string) (int64, error) {
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == '-' || r == '/' || r == '.' })
	var n [3]int
	ok := len(parts) == 2 || len(parts) == 3
	for i := range min(len(parts), 3) {
		v, err := strconv.Atoi(strings.TrimSpace(parts[i]))
		n[i], ok = v, ok && err == nil
	}
	if !ok || n[0] < 2000 || n[0] > 2200 || n[1] < 1 || n[1] > 12 || len(parts) == 3 && (n[2] < 1 || n[2] > 31) {
		return 0, problem.Newf(problem.Malformed, "", "%.40q is no date", text).WithHint("Write the year first: 2027-03, or 2027-03-15.")
	}
	number := daysOf(n[0], n[1], n[2])
	if len(parts) == 2 {
		number = daysOf(n[0], n[1]+1, 1) - 1
	} else if int64(n[2]) > day.In(int64(n[0]), int64(n[1])) {
		return 0, problem.Newf(problem.Range, "", "%.40q is no date: that month is shorter", text).WithHint("Write the year first: 2027-03-15.")
	}
	return b.Zone.ms(number), nil
}

// upkeepOften answers how often a task of a rig is due.
func (b *book) upkeepOften(in Act) (Done, error) {
	word, by := in.of("task"), in.of("by")
	limits := map[string]any{"off": true}
	said := taskOf(fold.UpkeepTask{Task: word}).name + ": not kept for this rig."
	if by != "off" {
		n, err := wholeNumber(in.of("n"), 10_000)
		if err != nil {
			return Done{}, err
		}
		size := map[string]int64{"days": 1, "arc": minuteMs, "hours": hourMs}[by]
		limits = map[string]any{by: n * size}
		said = taskOf(fold.UpkeepTask{Task: word}).name + ": kept every " + map[string]string{"days": unit.Count(n, "day", "days"), "arc": span(n*minuteMs) + " of arc", "hours": hours(n*hourMs) + " at work"}[by] + "."
	}
	if name := b.taskName(in.of("rig"), word); name != "" {
		limits["name"] = name
	}
	return Done{Said: said, Entries: []Entry{{Kind: "rig.set", About: in.of("rig"), Body: map[string]any{event.UpkeepField + word: limits}}}}, nil
}

// taskName is the name that the crew gave a task of its own.
func (b *book) taskName(rig, word string) string {
	for _, r := range b.rigUpkeep() {
		for _, t := range r.Tasks {
			if r.Rig == rig && t.Task == word {
				return t.Limits.Name
			}
		}
	}
	return ""
}

// upkeepOwn answers a task of the crew's own.
func (b *book) upkeepOwn(in Act) (Done, error) {
	name := strings.TrimSpace(in.of("name"))
	word := keyOf(name)
	if word == "" {
		return Done{}, problem.New(problem.Missing, "name", "the task has no name", "Write what is to be done, such as: Grease the reel.")
	}
	n, err := wholeNumber(in.of("n"), 10_000)
	if err != nil {
		return Done{}, err
	}
	return Done{Said: name + ": kept every " + unit.Count(n, "day", "days") + ".", Entries: []Entry{{Kind: "rig.set", About: in.of("rig"), Body: map[string]any{event.UpkeepField + word: map[string]any{"days": n, "name": name}}}}}, nil
}

// keyOf makes a short word of a name: letters and figures, the rest one hyphen.
func keyOf(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r > 127:
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 40 {
			break
		}
	}
	return strings.Trim(b.String(), "-")
}

// wholeNumber reads what the pad was answered.
func wholeNumber(text string, most int64) (int64, error) {
	n, err := unit.ReadNumber(text)
	if err != nil || n != math.Trunc(n) || n < 1 || n > float64(most) {
		return 0, problem.Newf(problem.Range, "n", "%.20q is no whole number from 1 to %d", text, most).WithHint("Enter a whole number.")
	}
	return int64(n), nil
}
