package guides

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
)

// field is one "- Label: words" line.
type field struct {
	label string
	words string
	line  int
}

var (
	headerLabels = []string{"When", "Takes", "Place", "Form", "Search", "Source"}
	stepLabels   = []string{"Good looks like", "Worn looks like", "Change when",
		"Go on when", "Stop when", "Why", "Part", "Drawing", "Reading", "Answers", "Source"}
	// manyLabels may stand more than once in one list.
	manyLabels = []string{"Source", "Reading"}
)

// longest is what a field may hold, in characters, so that a step still fits a
// phone's screen with its buttons.
const longest = 260

// isFields says whether the list's first item starts with one of the labels.
func (p *page) isFields(n ast.Node, labels []string) bool {
	list, ok := n.(*ast.List)
	if !ok || list.IsOrdered() || list.FirstChild() == nil {
		return false
	}
	s, _ := p.words(list.FirstChild())
	label, _, ok := strings.Cut(s, ":")
	return ok && slices.Contains(labels, label)
}

// fields reads a list of fields; each item is one paragraph of plain words.
func (p *page) fields(list ast.Node, labels []string) []field {
	var fields []field
	seen := map[string]bool{}
	for item := list.FirstChild(); item != nil; item = item.NextSibling() {
		line := p.line(item)
		s, plain := p.words(item)
		label, words, ok := strings.Cut(s, ":")
		words = strings.TrimSpace(words)
		switch {
		case !ok || !slices.Contains(labels, label):
			p.fault(line, "\""+short(s)+"\" is no field here: start with one of "+
				strings.Join(labels, ", ")+" and a colon")
			continue
		case words == "":
			p.fault(line, label+" is empty: write it or take the line out")
			continue
		case !plain || item.ChildCount() != 1:
			p.fault(line, label+" holds more than plain words: take out bold, links and inner lists")
		case seen[label] && !slices.Contains(manyLabels, label):
			p.fault(line, label+" stands twice: keep one")
			continue
		case len([]rune(words)) > longest:
			p.fault(line, label+" is too long for a phone: say it in fewer words, or move some above the fields")
		}
		seen[label] = true
		fields = append(fields, field{label: label, words: words, line: line})
	}
	return fields
}

// columns splits a field's words at its pipes and trims each part.
func columns(words string) []string {
	parts := strings.Split(words, "|")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	return parts
}

// list splits words at commas and trims each part.
func list(words string) []string {
	var out []string
	for _, s := range strings.Split(words, ",") {
		if s = strings.TrimSpace(s); s != "" {
			out = append(out, s)
		}
	}
	return out
}

// short cuts a quotation for a message.
func short(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}
