package book

import (
	"strconv"
	"strings"

	"kerfside/calc/journal/fold"
	"kerfside/calc/unit"
)

// checksOf tells which guides were answered, and what may-i-cut said.
func (b *book) checksOf(view fold.JobView) Section {
	s := Section{Title: "Checks"}
	for _, g := range view.Checks.Guides {
		var results []string
		for _, share := range g.Results {
			results = append(results, strconv.Itoa(int(share.N))+" "+spaced(share.Word))
		}
		said := capital(spaced(g.Guide)) + ": " + strings.Join(results, ", ")
		if g.Fails > 0 {
			said += "; " + unit.Count(g.Fails, "failed check was", "failed checks were") + " not cleared"
		}
		s.Says = append(s.Says, said+".")
	}
	for _, g := range view.Checks.Gates {
		said := "May I cut, " + b.clock(g.At) + ": "
		switch {
		case len(g.Stops) > 0:
			said += unit.Count(len(g.Stops), "stop", "stops")
		case g.Verdict == "conditions":
			said += "yes, with conditions"
		default:
			said += "yes"
		}
		s.Says = append(s.Says, said+".")
		for _, stop := range g.Stops {
			s.Says = append(s.Says, b.sayStop(stop, g.Device))
		}
	}
	return s
}

// sayStop tells a stop: whose it was to clear, and how it was cleared.
func (b *book) sayStop(stop fold.JobStop, device string) string {
	said := capital(stop.Says)
	if stop.By != "" && stop.By != "you" {
		said += ", for " + strings.Replace(stop.By, "you ", "the crew ", 1) + " to clear"
	}
	if stop.Cleared == "" {
		return said + ": not cleared."
	}
	said += ": cleared " + b.clock(stop.ClearedAt)
	if stop.ClearedBy != device {
		said += " on another phone"
	}
	if stop.How != "" {
		said += ", " + stop.How
	}
	return strings.TrimSuffix(said, ".") + "."
}

// faultsOf tells the faults of which a cause was found.
func (b *book) faultsOf(view fold.JobView) Section {
	s := Section{Title: "Faults found"}
	for _, f := range view.Faults {
		said := cause(f.Cause)
		switch {
		case f.Mended:
			said += ", mended"
		case f.Helped != "":
			said += ", mended in part"
		}
		s.Says = append(s.Says, said+".")
	}
	return s
}
