package guides

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"kerfside/calc/source"
)

// How rules and standards are named, in the list of package source as in a
// guide's Source: a section of a CFR, an article of the NEC, a standard. A guide
// may add a clause to what is listed.
var (
	named = regexp.MustCompile(`(?:(\d\d) CFR )?\b(19\d\d\.\d+)(\(\w+\))*` +
		`|\b(\d\d CFR \d+)(\(\w+\))*` +
		`|(?:NFPA 70 \(NEC\)|NEC \(NFPA 70\)|NEC),? (?:table )?\d{3}\.\d+(\(\w+\))*` +
		`|\b\d{3}\.\d+(\(\w+\))*` + // more of the NEC, if it was named before
		`|\b(?:ISO|IEC|EN|ANSI|AWS|DIN|NFPA|CSA) [A-Z]?\d[\w.]*(?:-\d{1,2})*(?:[:-](?:19|20)\d\d)?\b` +
		`|\bIARC Monographs?`) // all volumes as one work
	cfr      = regexp.MustCompile(`^(?:29 CFR )?(19\d\d\.\d+)`)
	article  = regexp.MustCompile(`^(?:.*NEC\)?(?: \(NFPA 70\))?,? )?(?:table )?(\d{3}\.\d+)`)
	clauses  = regexp.MustCompile(`(?:\(\w+\))+$`)
	edition  = regexp.MustCompile(`[:-]((?:19|20)\d\d)$`)
	acronym  = regexp.MustCompile(`\b[A-Z]{3,}\b`)
	stretch  = regexp.MustCompile(`;|\. `)
	standing = regexp.MustCompile(`from memory|second-hand`)
)

// work is a named work, as "29 CFR 1910.252" with the clause "(a)(3)".
type work struct{ name, clause, edition string }

func (w work) String() string { return w.name + w.clause + w.edition }

// workOf reads one name.
func workOf(s string) work {
	w := work{name: s}
	if m := cfr.FindStringSubmatch(s); m != nil {
		w.name, w.clause = "29 CFR "+m[1], clauses.FindString(s)
	} else if m := article.FindStringSubmatch(s); m != nil {
		w.name, w.clause = "NEC "+m[1], clauses.FindString(s)
	} else if strings.HasPrefix(s, "IARC") {
		w.name = "IARC Monographs"
	} else if strings.Contains(s, "CFR") {
		w.clause = clauses.FindString(s)
		w.name = strings.TrimSuffix(s, w.clause)
	} else if m := edition.FindStringSubmatchIndex(s); m != nil {
		w.name, w.edition = s[:m[0]], ":"+s[m[2]:m[3]]
	}
	return w
}

// citation is a work in a guide's Source with how well it was read: the first
// that is said of that after it, up to the next semicolon or sentence.
type citation struct {
	work
	standing string
}

// citations finds the works that a text names, by their numbers or by titles,
// and what is left of its words.
func citations(text string, titles []string) (found []citation, rest string) {
	for _, part := range stretch.Split(text, -1) {
		for _, title := range titles {
			if at := strings.Index(part, title); at >= 0 {
				found = append(found, citation{work{name: title}, standing.FindString(part[at:])})
				part = part[:at] + strings.Repeat(" ", len(title)) + part[at+len(title):]
			}
		}
		for _, m := range named.FindAllStringIndex(part, -1) {
			name := part[m[0]:m[1]]
			if name[0] >= '0' && name[0] <= '9' && article.MatchString(name) && !strings.Contains(part[:m[0]], "NEC") {
				continue // just a number
			}
			found = append(found, citation{workOf(name), standing.FindString(part[m[1]:])})
		}
		rest += named.ReplaceAllString(part, "") + " "
	}
	return found, rest
}

// listing is a list of sources by work.
type listing struct {
	entries []source.Source
	works   []work   // of the entries; an entry that names two stands twice
	titles  []string // of those without numbers, the longest first
}

func listingOf(sources []source.Source) listing {
	var l listing
	for _, s := range sources {
		if s.By == "" {
			continue // no work
		}
		found, _ := citations(s.Title, nil)
		if len(found) == 0 {
			title := shortTitle(s.Title)
			found = []citation{{work{name: title}, ""}}
			l.titles = append(l.titles, title)
		}
		for _, c := range found {
			l.entries, l.works = append(l.entries, s), append(l.works, c.work)
		}
	}
	slices.SortFunc(l.titles, func(a, b string) int { return len(b) - len(a) })
	return l
}

// find returns the entries for what a guide names: those of the longest clause
// that it lies in, all of a work that it names as a whole, and those of its
// edition where it names one.
func (l listing) find(c work) (best []source.Source) {
	longest := -1
	for i, w := range l.works {
		if w.name != c.name || c.clause != "" && !strings.HasPrefix(c.clause, w.clause) || c.edition != "" && w.edition != c.edition {
			continue
		}
		if c.clause != "" && len(w.clause) > longest {
			longest, best = len(w.clause), nil
		}
		if c.clause == "" || len(w.clause) == longest {
			best = append(best, l.entries[i])
		}
	}
	return best
}

// of returns the entries of a body that a guide names by its initials only.
func (l listing) of(acronym string) (found []source.Source) {
	for _, s := range l.entries {
		if strings.HasPrefix(initials(s.By), acronym) && !slices.Contains(found, s) {
			found = append(found, s)
		}
	}
	return found
}

// judge says what is wrong with a Source; nothing if it agrees with the list.
// cited takes in the ids that it rests on. A body stands for its work if it has
// one only; beside a work of its own it is just named.
func (l listing) judge(text string, cited map[source.ID]bool) (faults []string) {
	found, rest := citations(text, l.titles)
	bodies := ""
	agree := func(name, standing string, entries []source.Source) {
		isMemory := standing == string(source.Memory)
		if !slices.ContainsFunc(entries, func(s source.Source) bool { return isMemory == (s.Standing == source.Memory) }) {
			faults = append(faults, fmt.Sprintf("%s is %q in calc/source (%s) and %q here", name, entries[0].Standing, entries[0].ID, standing))
		}
		for _, s := range entries {
			cited[s.ID] = true
			bodies += " " + s.By + " " + initials(s.By)
		}
	}
	for _, c := range found {
		if entries := l.find(c.work); len(entries) > 0 {
			agree(c.String(), c.standing, entries)
		} else {
			faults = append(faults, c.String()+" is not in calc/source: list it, or name what is listed")
		}
	}
	for _, a := range acronym.FindAllString(rest, -1) {
		entries := l.of(a)
		switch {
		case a == "NEC" || strings.Contains(bodies, " "+a):
		case len(entries) == 1:
			agree(a, standing.FindString(rest[strings.Index(rest, a):]), entries)
		default:
			faults = append(faults, fmt.Sprintf("%s has %d works in calc/source: name the one by its title there", a, len(entries)))
		}
	}
	return faults
}

// shortTitle is a title up to its first comma, if that leaves three words.
func shortTitle(title string) string {
	if short, _, _ := strings.Cut(title, ","); len(strings.Fields(short)) >= 3 {
		return short
	}
	return title
}

// initials of a body: "HSE" of the "Health and Safety Executive".
func initials(body string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsUpper(r) {
			return r
		}
		return -1
	}, body)
}

// TestJudge: what is wrong with a Source is found, and nothing else.
func TestJudge(t *testing.T) {
	l := listingOf([]source.Source{
		{ID: "rule", By: "OSHA", Title: "29 CFR 1910.252(c), ventilation", Standing: source.Seen},
		{ID: "copy", By: "OSHA", Title: "29 CFR 1910.147, energy (same in 1915.89)", Standing: source.SecondHand},
		{ID: "memory", By: "OSHA", Title: "29 CFR 1926.353(d), solvents", Standing: source.Memory},
		{ID: "other", By: "OSHA", Title: "29 CFR 1926.353, ventilation", Standing: source.SecondHand},
		{ID: "code", By: "NFPA", Title: "NEC (NFPA 70), 210.19(A), informational note", Standing: source.SecondHand},
		{ID: "standard", By: "NFPA", Title: "NFPA 51B:2019, hot work", Standing: source.SecondHand},
		{ID: "book", By: "Health and Safety Executive (UK)", Title: "Noise in welding, hot work and allied processes", Standing: source.Seen},
	})
	for text, want := range map[string]string{
		"common practice, no published source":                                        "",
		"OSHA, in 29 CFR 1910.147(d)(5) (second-hand, a copy); the rest from memory":  "",
		"NFPA 70 (NEC) 210.19 (second-hand); NFPA 51B-2019 and NFPA 51B for the hour": "",
		"Noise in welding: 98 to 105 dB(A)":                                           "",
		"29 CFR 1910.252(a)(2)":                                                       "29 CFR 1910.252(a)(2) is not in",
		"29 CFR 1910.252(c) (from memory)":                                            `29 CFR 1910.252(c) is "seen"`,
		"29 CFR 1926.353(d)(1); the rest from memory":                                 `29 CFR 1926.353(d)(1) is "from memory"`,
		"1926.353(c) (from memory)":                                                   `29 CFR 1926.353(c) is "second-hand"`,
		"NFPA 51B:2014":                                                               "NFPA 51B:2014 is not in",
		"HSE gives 98 to 105 dB(A)":                                                   "",
		"HSE gives 98 to 105 dB(A) (from memory)":                                     `HSE is "seen"`,
		"a circular of the EPA":                                                       "EPA has 0 works",
		"OSHA says so":                                                                "OSHA has 4 works",
	} {
		got := l.judge(text, map[source.ID]bool{})
		if want == "" && got != nil || want != "" && (len(got) != 1 || !strings.HasPrefix(got[0], want)) {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// forReaders is the list without what only check values rest on.
func forReaders() []source.Source {
	return slices.DeleteFunc(source.Listed(), func(s source.Source) bool {
		_, forSums := source.Get(s.ID)
		return !forSums && !slices.Contains(source.ForGuides(), s)
	})
}

// TestSourcesAgree: guides and the list of sources name the same works and say
// the same of how well they were read.
func TestSourcesAgree(t *testing.T) {
	l, cited := listingOf(forReaders()), map[source.ID]bool{}
	check := func(g *Guide, line int, text string) {
		for _, fault := range l.judge(text, cited) {
			t.Errorf("%s:%d: %s", g.file, line, fault)
		}
	}
	for _, g := range shipped(t).guides {
		for _, s := range g.Sources {
			check(g, g.line, s)
		}
		for _, st := range g.Steps {
			if !st.included {
				check(g, st.line, st.Source)
			}
		}
	}
	for _, s := range source.ForGuides() {
		if !cited[s.ID] {
			t.Errorf("source %q is listed for guides, and no guide cites it", s.ID)
		}
	}
}
