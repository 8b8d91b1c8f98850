package book

import (
	"strconv"
	"strings"

	"kerfside/calc/unit"
)

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
