package guides

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
)

// include is a place in a guide where the steps of another belong.
type include struct {
	guide string
	title string // what the heading calls it
	at    int    // how many of the guide's own steps stand before it
	line  int
}

// wholeLink returns the link that a heading consists of, or nil.
func (p *page) wholeLink(h *ast.Heading) *ast.Link {
	if h.ChildCount() != 1 {
		return nil
	}
	l, _ := h.FirstChild().(*ast.Link)
	return l
}

// include reads a heading that takes in another guide.
func (p *page) include(g *Guide, s section, to *ast.Link) {
	line := p.line(s.heading)
	title, _ := p.words(s.heading)
	url, isGuide := strings.CutPrefix(string(to.Destination), guideURL)
	guide, step, _ := strings.Cut(url, "#")
	_, hasID := s.heading.AttributeString("id")
	switch {
	case strings.HasPrefix(string(to.Destination), sumURL):
		p.fault(line, "a heading that is a link takes in a guide: link to the calculator in the words of a step")
	case !isGuide: // settle has said so
	case step != "":
		p.fault(line, "a heading that is a link takes in a whole guide: write "+guide+".md without #"+step)
	case guide == g.ID:
		p.fault(line, "a guide cannot take in itself")
	case g.Form == "card":
		p.fault(line, "a card takes in no guide: link to "+guide+".md in its words instead")
	case hasID:
		p.fault(line, "the steps of "+guide+".md bring their own ids: take the id out of this heading")
	case len(s.blocks) > 0:
		p.fault(line, "nothing stands under a heading that takes in a guide: give what follows a step of its own")
	default:
		g.includes = append(g.includes, include{guide: guide, title: title, at: len(g.Steps), line: line})
	}
}

// takeIn puts the steps of included guides where they belong.
func (lib *Library) takeIn() Faults {
	var faults Faults
	for _, g := range lib.guides {
		for _, in := range slices.Backward(g.includes) {
			from := lib.byID[in.guide]
			if from == nil {
				continue // the check of links says so
			}
			if msg := refusal(g, from, in); msg != "" {
				faults = append(faults, Fault{File: g.file, Line: in.line, Msg: msg})
				continue
			}
			steps := stepsFor(g, from)
			g.Steps = slices.Insert(g.Steps, in.at, steps...)
			g.Taken = slices.Insert(g.Taken, 0, Taken{from.Title, idsOf(steps)})
		}
	}
	return faults
}

// refusal says why g cannot take in from; nothing if it can.
func refusal(g, from *Guide, in include) string {
	switch {
	case from.Form == "card":
		return from.file + " is a card: only a guide in steps can be taken in"
	case len(from.includes) > 0:
		return from.file + " takes in " + from.includes[0].guide + ".md itself: take in that one, or write the steps here"
	case in.title != from.Title:
		return from.file + " is called \"" + from.Title + "\": write ## [" + from.Title + "](" + from.file + ")"
	}
	for _, st := range from.Steps {
		if g.Step(st.ID) != nil {
			return "step {#" + st.ID + "} of " + from.file + " stands in this guide already: give the step here another id"
		}
	}
	return ""
}

// stepsFor returns the steps of from as they stand in g: links among them stay
// in g.
func stepsFor(g, from *Guide) []Step {
	here := strings.NewReplacer(guideURL+from.ID+"#", guideURL+g.ID+"#")
	steps := slices.Clone(from.Steps)
	for i := range steps {
		st := &steps[i]
		st.included = true
		st.Caution, st.Do = HTML(here.Replace(string(st.Caution))), HTML(here.Replace(string(st.Do)))
	}
	return steps
}

// idsOf lists the ids of steps.
func idsOf(steps []Step) []string {
	ids := []string{}
	for _, st := range steps {
		ids = append(ids, st.ID)
	}
	return ids
}
