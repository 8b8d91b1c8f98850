package guides

import (
	"cmp"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// unsourced is what a step says whose content is what the trade does, with
// nothing published behind it.
const unsourced = "common practice, no published source"

var (
	places  = []string{"ready", "cut", "fix", "book", "safety"}
	forms   = []string{"steps", "card"}
	slots   = []string{"cup", "tip", "diffuser", "electrode", "o-ring", "head"}
	answers = []string{Good, Worn, Change, Unsure, Done, NotDone}

	takes      = regexp.MustCompile(`^(\d{1,3}) min$`)
	readingKey = regexp.MustCompile(`^[a-z][a-z0-9]*$`)
)

func (p *page) headerField(g *Guide, f field) {
	switch f.label {
	case "When":
		g.When = f.words
	case "Takes":
		if m := takes.FindStringSubmatch(f.words); m != nil {
			g.Minutes, _ = strconv.Atoi(m[1])
		}
		if g.Minutes == 0 {
			p.fault(f.line, "Takes \""+short(f.words)+"\": write whole minutes, as \"10 min\"")
		}
	case "Place":
		g.Place = p.choice(f, places)
	case "Form":
		g.Form = p.choice(f, forms)
	case "Search":
		g.Terms = list(f.words)
	case "Source":
		g.Sources = append(g.Sources, f.words)
	}
}

func (p *page) stepField(st *Step, f field) {
	switch f.label {
	case "Good looks like":
		st.Good = f.words
	case "Worn looks like":
		st.Worn = f.words
	case "Change when":
		st.Change = f.words
	case "Go on when":
		st.Pass = f.words
	case "Stop when":
		st.Fail = f.words
	case "Why":
		st.Why = f.words
	case "Part":
		st.Slot = p.choice(f, slots)
	case "Drawing":
		st.Drawing = p.drawing(f)
	case "Reading":
		if r, ok := p.reading(f, st.Readings); ok {
			st.Readings = append(st.Readings, r)
		}
	case "Answers":
		for _, a := range list(f.words) {
			if !slices.Contains(answers, a) {
				p.fault(f.line, "answer \""+short(a)+"\": use "+strings.Join(answers, ", "))
				continue
			}
			st.Answers = append(st.Answers, a)
		}
	case "Source":
		if st.Source != "" {
			st.Source += "; "
		}
		st.Source += f.words
	}
}

func (p *page) choice(f field, allowed []string) string {
	if !slices.Contains(allowed, f.words) {
		p.fault(f.line, f.label+" \""+short(f.words)+"\": use one of "+strings.Join(allowed, ", "))
		return ""
	}
	return f.words
}

// reading reads "key | label | quantity | unit".
func (p *page) reading(f field, before []Reading) (Reading, bool) {
	c := columns(f.words)
	if len(c) != 4 || slices.Contains(c, "") {
		p.fault(f.line, "Reading has four columns: key | label | quantity | unit, as: dmin | Smallest | length | mm")
		return Reading{}, false
	}
	r := Reading{Key: c[0], Label: c[1], Quantity: c[2], Unit: c[3]}
	allowed, known := readable[r.Quantity]
	scale, fits := allowed[r.Unit]
	r.Scale = scale
	switch {
	case !readingKey.MatchString(r.Key):
		p.fault(f.line, "reading key \""+short(r.Key)+"\": use lower-case letters and digits")
	case slices.ContainsFunc(before, func(b Reading) bool { return b.Key == r.Key }):
		p.fault(f.line, "reading key \""+r.Key+"\" stands twice in this step: give this reading another")
	case !known:
		p.fault(f.line, "quantity \""+short(r.Quantity)+"\" is not known: use "+strings.Join(sorted(readable), ", "))
	case !fits:
		p.fault(f.line, "unit \""+short(r.Unit)+"\" does not fit "+r.Quantity+": use "+strings.Join(sorted(allowed), ", "))
	default:
		return r, true
	}
	return Reading{}, false
}

// drawing reads "name key=value … | words".
func (p *page) drawing(f field) *Drawing {
	c := columns(f.words)
	if len(c) != 2 || c[0] == "" || c[1] == "" {
		p.fault(f.line, "Drawing has two columns: name key=value … | what it shows, in words")
		return nil
	}
	parts := strings.Fields(c[0])
	known, ok := Drawings[parts[0]]
	if !ok && !slices.Contains(StillDrawings, parts[0]) {
		all := slices.Sorted(slices.Values(append(sorted(Drawings), StillDrawings...)))
		p.fault(f.line, "there is no drawing \""+short(parts[0])+"\": use one of "+strings.Join(all, ", "))
		return nil
	}
	d := &Drawing{Name: parts[0], Params: map[string]any{}, Text: c[1]}
	for _, part := range parts[1:] {
		key, value, _ := strings.Cut(part, "=")
		value, isExample := strings.CutPrefix(value, "~")
		if isExample {
			d.Example = append(d.Example, key)
		}
		words, ok := known[key]
		switch n, err := strconv.ParseFloat(value, 64); {
		case !ok:
			p.fault(f.line, "drawing "+d.Name+" has no parameter \""+short(key)+"\": it takes "+cmp.Or(strings.Join(sorted(known), ", "), "none"))
		case len(words) > 0 && !slices.Contains(words, value):
			p.fault(f.line, d.Name+" "+key+" \""+short(value)+"\": use one of "+strings.Join(words, ", "))
		case len(words) > 0:
			d.Params[key] = value
		case err != nil || math.IsNaN(n) || math.IsInf(n, 0):
			p.fault(f.line, d.Name+" "+key+" \""+short(value)+"\": write a number")
		default:
			d.Params[key] = n
		}
	}
	return d
}

// sorted returns the keys of m in order, for a message.
func sorted[V any](m map[string]V) []string {
	var keys []string
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
