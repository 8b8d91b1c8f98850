package help

import (
	"fmt"
	"strings"

	"github.com/yuin/goldmark/ast"
)

// Fence is a fenced block of a page.
type Fence struct {
	Language string // the first word of its info string: sh, text, nginx …
	Name     string // the second, by which a test asks for it
	Text     string // with its last line break
	Line     int    // of the page, from 1, on which the text begins
}

// Fences returns the fenced blocks of a page, in order.
func (p *Page) Fences() []Fence {
	var all []Fence
	_ = ast.Walk(p.tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) { // the walker never fails
		block, ok := n.(*ast.FencedCodeBlock)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		f := Fence{Text: string(block.Lines().Value(p.src))}
		if block.Info != nil {
			f.Language, f.Name, _ = strings.Cut(string(block.Info.Value(p.src)), " ")
		}
		if block.Lines().Len() > 0 {
			f.Line = 1 + strings.Count(string(p.src[:block.Lines().At(0).Start]), "\n")
		}
		all = append(all, f)
		return ast.WalkContinue, nil
	})
	return all
}

// Block returns the text of a named block, for the test that runs it. It panics
// where there is none: page or test is misspelt.
func Block(page, name string) string {
	if p := find(page); p != nil {
		for _, f := range p.Fences() {
			if f.Name == name && name != "" {
				return f.Text
			}
		}
	}
	panic(fmt.Sprintf("server/help/%s.md has no block named %q", page, name))
}
