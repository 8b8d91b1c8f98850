package guides

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
)

// breath is how many words a sentence may have: it is read at arm's length, with gloves on.
const breath = 18

var sentenceEnd = regexp.MustCompile(`[.!?:;](?:\s|$)`)

// longWinded are the fields that are read in peace, or are no sentences.
var longWinded = []string{"Source", "Drawing", "Search", "Reading", "Answers"}

// checkBreath finds the sentences that are too long to be read at a glance.
func (p *page) checkBreath(line int, words string) {
	for _, one := range sentenceEnd.Split(words, -1) {
		if n := len(strings.Fields(one)); n > breath {
			p.fault(line, fmt.Sprintf("a sentence of %d words, %d can be read at a glance: make two of %q", n, breath, short(strings.TrimSpace(one))))
		}
	}
}

// checkBreathOf does so in all that is read under a heading, block by block and cell by cell.
func (p *page) checkBreathOf(blocks []ast.Node) {
	for _, n := range blocks {
		if inner := n.FirstChild(); inner != nil && inner.Type() == ast.TypeBlock {
			var all []ast.Node
			for ; inner != nil; inner = inner.NextSibling() {
				all = append(all, inner)
			}
			p.checkBreathOf(all)
			continue
		}
		words, _ := p.words(n)
		p.checkBreath(p.line(n), words)
	}
}

// checkBreathOfFields does so in the fields of a header or a step.
func (p *page) checkBreathOfFields(fields []field) []field {
	for _, f := range fields {
		if !slices.Contains(longWinded, f.label) {
			p.checkBreath(f.line, f.words)
		}
	}
	return fields
}
