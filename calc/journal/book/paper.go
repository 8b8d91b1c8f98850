package book

import (
	"fmt"
	"strconv"
	"strings"

	"kerfside/calc/journal/fold"
	"kerfside/calc/problem"
)

// paper begins a page for a job: its name and number, whose it is, and how it leaves the
// phone.
func (b *book) paper(name string, view fold.JobView) Report {
	number := b.number(view)
	r := Report{Title: name + " " + number, Paper: true, Actions: []Action{{Label: "Print", Print: true}}}
	head := Section{Actions: []Action{{Label: "Share", Act: "words"}}}
	if crew := b.crewName(""); crew != "" {
		r.Says = append(r.Says, crew)
	}
	if other := b.alsoNumbered(view, number); other != "" {
		next := b.nextNumber()
		r.Cautions = append(r.Cautions, "Number "+number+" is on "+other+" too.")
		head.Actions = append(head.Actions, Action{Label: "Take " + next, Act: "on-paper", With: map[string]string{"key": "number", "value": next}})
	}
	r.Sections = []Section{head}
	return r
}

// crewName is what the crew calls itself on its papers.
func (b *book) crewName(none string) string {
	if name := b.setting("crew_name"); name != "" {
		return name
	}
	return none
}

// forWhom are the figures of the head that are of the job as it is now.
func (b *book) forWhom(view fold.JobView, place string) []Figure {
	var all []Figure
	for _, f := range [...]Figure{{Label: "Job", Text: view.Name}, {Label: "For", Text: textOf(view.Fields.Fields["customer"])}, {Label: "Place", Text: place}} {
		if f.Text != "" {
			all = append(all, f)
		}
	}
	return all
}

// siteOf is where the job is, "" if nobody says.
func (b *book) siteOf(view fold.JobView) string {
	for _, t := range b.fold.Things().Sites {
		if t.ID == view.Site {
			return textOf(t.Fields.Fields["name"])
		}
	}
	return ""
}

// number is the job's own, or the next that is free.
func (b *book) number(view fold.JobView) string {
	if number := strings.TrimSpace(textOf(view.Fields.Fields["number"])); number != "" {
		return number
	}
	return b.nextNumber()
}

// nextNumber counts on as the crew does; a crew that begins, or counts by years and has
// begun another, begins this year's: 2026-001. Phones that do not hear of each other may
// give one number to two jobs; both papers say so.
func (b *book) nextNumber() string {
	n := b.fold.Numbers()
	year := strconv.Itoa(b.Zone.at(b.Now).Year) + "-"
	begin := strings.TrimRight(n.Next, "0123456789")
	if len(n.Numbers) > 0 && (begin == year || !isYear(begin)) {
		return n.Next
	}
	most := 0
	for _, one := range n.Numbers {
		if count, err := strconv.Atoi(strings.TrimPrefix(one.Number, year)); err == nil && strings.HasPrefix(one.Number, year) {
			most = max(most, count)
		}
	}
	return fmt.Sprintf("%s%03d", year, most+1)
}

// isYear reports whether a number begins with a year: 2026-.
func isYear(begin string) bool {
	return len(begin) == 5 && begin[4] == '-' && strings.Trim(begin[:4], "0123456789") == ""
}

// alsoNumbered names another job that has the number, "" if none does.
func (b *book) alsoNumbered(view fold.JobView, number string) string {
	for _, one := range b.fold.Numbers().Numbers {
		for _, id := range one.Jobs {
			if other, err := b.fold.Job(id); one.Number == number && id != view.ID && err == nil {
				return jobName(other.Name)
			}
		}
	}
	return ""
}

func jobName(name string) string {
	if name == "" {
		return "a job without a name"
	}
	return name
}

// onPaper are rows of what stands on a paper and is not told by the work, each with its
// button.
func (b *book) onPaper(view fold.JobView, keys ...string) []Row {
	rows := map[string]Row{
		"crew_name":  {Title: "Your crew’s name", Says: []string{b.setting("crew_name")}},
		"number":     {Title: "Number", Says: []string{b.number(view)}},
		"customer":   {Title: "Customer, in your own words", Says: []string{textOf(view.Fields.Fields["customer"])}},
		"tax":        {Title: "Rate of tax", Says: []string{b.setting("tax")}},
		"quote_days": {Title: "Valid for, days", Says: []string{strconv.FormatInt(b.validFor(), 10)}},
		"currency":   {Title: "Currency", Says: []string{b.setting("currency")}},
	}
	if rate, err := b.taxRate(view); err == nil && rate > 0 {
		rows["tax"].Says[0] = sayRate(rate)
	}
	var list []Row
	for _, key := range keys {
		row := rows[key]
		ask := Ask{Key: "value", Label: row.Title, Value: row.Says[0], Count: key == "quote_days"}
		if row.Says[0] == "" {
			row.Says = []string{"Not said"}
		}
		row.Action = &Action{Label: "Change", Act: "on-paper", With: map[string]string{"key": key}, Ask: []Ask{ask}}
		list = append(list, row)
	}
	return list
}

// setOnPaper answers the buttons of onPaper. What is the customer's stands in an entry of
// its own: an export leaves it out whole.
func (b *book) setOnPaper(in Act) (Done, error) {
	key, text := in.of("key"), strings.TrimSpace(in.of("value"))
	var value any = text
	if text == "" {
		value = nil
	}
	switch key {
	case "number", "customer":
		return Done{Said: "Kept.", Entries: []Entry{{Kind: "job.set", About: b.ID, Body: map[string]any{key: value}}}}, nil
	case "crew_name":
	case "tax":
		if _, err := rateOf("value", text); err != nil {
			return Done{}, err
		}
	case "quote_days":
		if _, err := validDays(text); err != nil {
			return Done{}, err
		}
	case "currency":
		if len([]rune(text)) > 4 || strings.ContainsAny(text, "0123456789.,") {
			return Done{}, problem.New(problem.Range, "value", "a currency has at most 4 letters", "Enter its sign or its short name: €, EUR.")
		}
	default:
		return Done{}, problem.Newf(problem.Unknown, "", "no paper has a %q", key)
	}
	return Done{Said: "Kept for the crew.", Entries: []Entry{{Kind: "setting.set", About: prices, Body: map[string]any{key: value}}}}, nil
}

// words answers "Share": the report that is shown as plain text.
func (b *book) words(in Act) (Done, error) {
	r, err := Make(b.fold, in.Look)
	if err != nil {
		return Done{}, err
	}
	name := strings.Map(func(c rune) rune {
		if strings.ContainsRune(`\/:*?"<>| `, c) || c < ' ' {
			return '-'
		}
		return c
	}, strings.ToLower(r.Title))
	return Done{Name: name + ".txt", Text: r.plain()}, nil
}

// plain is a report as it is written in a message: what is on paper, but no pictures.
func (r Report) plain() string {
	var w strings.Builder
	line := func(text string) { w.WriteString(text + "\n") }
	line(r.Title)
	for _, text := range append(r.Says, r.Cautions...) {
		line(text)
	}
	for _, s := range r.Sections {
		if s.Screen {
			continue
		}
		line("")
		if s.Title != "" {
			line(s.Title)
		}
		for _, text := range append(s.Says, s.Cautions...) {
			line(text)
		}
		for _, f := range s.Figures {
			line(f.Label + ": " + f.Text)
		}
		for _, row := range s.Rows {
			line(strings.Join(append([]string{row.Title}, row.Says...), " · "))
		}
	}
	return strings.ReplaceAll(strings.TrimSpace(w.String())+"\n", "\u00a0", " ")
}
