package book

import (
	"math"
	"strconv"
	"strings"

	"kerfside/calc/day"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

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
