package guides

import (
	"path"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
)

// Parse reads one guide and checks everything that can be checked without the
// others. file is its name, as "pierce.md". The error, if any, is Faults.
func Parse(file string, src []byte) (*Guide, error) {
	p := newPage(file, src)
	id, isMarkdown := strings.CutSuffix(path.Base(file), ".md")
	g := &Guide{ID: id, Form: "steps", file: file, line: 1}
	if !isMarkdown || !validID(id) {
		p.fault(1, "the file's name is the guide's id: use lower-case letters, digits and hyphens, then .md")
	}
	g.links = p.settle(id)
	parts := p.sections()
	p.header(g, parts[0])
	for _, s := range parts[1:] {
		title, _ := p.words(s.heading)
		switch to := p.wholeLink(s.heading); {
		case title == "Cautions":
			p.cautions(g, s)
		case to != nil:
			p.include(g, s, to)
		default:
			p.step(g, s)
		}
	}
	p.checkWhole(g)
	return g, p.faults.orNil()
}

// section is a heading with the blocks under it.
type section struct {
	heading *ast.Heading // nil if the file starts without one
	blocks  []ast.Node
}

// sections splits the file at its headings; the first is the title's.
func (p *page) sections() []section {
	all := []section{{}}
	for n := p.tree.FirstChild(); n != nil; n = n.NextSibling() {
		h, isHeading := n.(*ast.Heading)
		switch last := &all[len(all)-1]; {
		case !isHeading:
			last.blocks = append(last.blocks, n)
		case h.Level == 1 && last.heading == nil && len(last.blocks) == 0:
			last.heading = h
		case h.Level == 2:
			all = append(all, section{heading: h})
		default:
			p.fault(p.line(n), "only one # title at the top and ## steps are allowed")
		}
	}
	return all
}

func (p *page) header(g *Guide, s section) {
	if s.heading == nil {
		p.fault(1, "start with the title: # and a few words")
	} else {
		g.Title, _ = p.words(s.heading)
		g.line = p.line(s.heading)
	}
	if len(s.blocks) == 0 || !p.isFields(s.blocks[0], headerLabels) {
		p.fault(g.line, "put the header under the title: a list with When, Takes, Place, Search and Source")
		return
	}
	for _, f := range p.checkBreathOfFields(p.fields(s.blocks[0], headerLabels)) {
		p.headerField(g, f)
	}
	p.checkBreathOf(s.blocks[1:])
	g.About = p.html(s.blocks[1:])
	g.bodyText = p.wordsOf(s.blocks[1:])
}

func (p *page) cautions(g *Guide, s section) {
	line := p.line(s.heading)
	switch {
	case g.Cautions != "":
		p.fault(line, "Cautions stands twice: join the two lists")
	case len(g.Steps)+len(g.includes) > 0:
		p.fault(line, "Cautions come before the first step: move them up")
	case len(s.blocks) != 1 || s.blocks[0].Kind() != ast.KindList:
		p.fault(line, "Cautions hold one list: one caution an item")
	default:
		p.checkBreathOf(s.blocks)
		g.Cautions = p.html(s.blocks)
		g.bodyText += " " + p.wordsOf(s.blocks)
	}
}

func (p *page) step(g *Guide, s section) {
	st := Step{line: p.line(s.heading), Answers: []string{}}
	st.Title, _ = p.words(s.heading)
	if id, ok := s.heading.AttributeString("id"); ok {
		st.ID = string(id.([]byte))
	}
	blocks := s.blocks
	hasFields := false
	if len(blocks) > 0 && blocks[0].Kind() == ast.KindBlockquote {
		var inner []ast.Node
		for n := blocks[0].FirstChild(); n != nil; n = n.NextSibling() {
			inner = append(inner, n)
		}
		p.checkBreathOf(inner)
		st.Caution = p.html(inner)
		st.doText = p.wordsOf(inner) + " "
		blocks = blocks[1:]
	}
	if last := len(blocks) - 1; last < 0 || !p.isFields(blocks[last], stepLabels) {
		p.fault(st.line, "end the step with its list of fields: Good looks like …, or Go on when …; then Why and Source")
	} else {
		for _, f := range p.checkBreathOfFields(p.fields(blocks[last], stepLabels)) {
			p.stepField(&st, f)
		}
		hasFields = true
		blocks = blocks[:last]
	}
	for _, b := range blocks {
		if p.isFields(b, stepLabels) {
			p.fault(p.line(b), "fields stand last in a step: move what follows them above them")
		}
	}
	p.checkBreathOf(blocks)
	st.Do = p.html(blocks)
	st.doText += p.wordsOf(blocks)
	p.checkHeading(g, &st)
	if hasFields {
		p.checkFields(&st)
	}
	g.Steps = append(g.Steps, st)
}

// checkHeading says what a step lacks above its fields.
func (p *page) checkHeading(g *Guide, st *Step) {
	at := func(msg string) { p.fault(st.line, msg) }
	switch {
	case st.ID == "":
		at("give the step its id at the end of the heading: {#a-word-or-two}")
	case !validID(st.ID):
		at("step id \"" + st.ID + "\": use lower-case letters, digits and hyphens")
	case g.Step(st.ID) != nil:
		at("step id \"" + st.ID + "\" stands twice in this guide: give this step another")
	}
	if st.Do == "" {
		at("say what to do under the heading")
	}
}

// checkFields says what a step's fields lack, and fills in the answers that
// follow from the kind of judgement.
func (p *page) checkFields(st *Step) {
	at := func(msg string) { p.fault(st.line, msg) }
	isLook := st.Good != "" && st.Worn != "" && st.Change != ""
	isGate := st.Pass != "" && st.Fail != ""
	anyLook := st.Good != "" || st.Worn != "" || st.Change != ""
	anyGate := st.Pass != "" || st.Fail != ""
	switch {
	case anyLook && anyGate:
		at("a step is either a look (Good, Worn, Change) or a pass and fail (Go on, Stop): keep one kind")
	case anyLook && !isLook:
		at("a look needs all three: Good looks like, Worn looks like, Change when")
	case anyGate && !isGate:
		at("a pass needs its fail: both Go on when and Stop when")
	case !isLook && !isGate:
		at("say how to judge the step: Good looks like, Worn looks like and Change when; or Go on when and Stop when")
	}
	if st.Why == "" {
		at("say in one line why it matters: Why")
	}
	if st.Source == "" {
		at("name the source, or write: Source: " + unsourced)
	}
	if len(st.Answers) == 0 {
		st.Answers = gate
		if isLook {
			st.Answers = look
		}
	}
}

// checkWhole says what the guide lacks.
func (p *page) checkWhole(g *Guide) {
	at := func(msg string) { p.fault(g.line, msg) }
	for _, need := range []struct {
		label  string
		absent bool
	}{
		{"When", g.When == ""}, {"Takes", g.Minutes == 0}, {"Place", g.Place == ""},
		{"Search", len(g.Terms) == 0}, {"Source", len(g.Sources) == 0},
	} {
		if need.absent {
			at("the header lacks " + need.label)
		}
	}
	if g.About == "" {
		at("say under the header, in a sentence or two, what the guide is about")
	}
	if g.Cautions == "" {
		at("put ## Cautions with a list before the first step")
	}
	if len(g.Steps)+len(g.includes) == 0 {
		at("a guide needs at least one step: a ## heading")
	}
	if slices.Contains(g.Terms, "") {
		at("Search holds an empty term")
	}
}
