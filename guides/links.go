package guides

import (
	"strings"

	"github.com/yuin/goldmark/ast"
)

// Where the app shows a guide, whose step follows as the fragment, and a calculator.
const (
	guideURL = "/guide/"
	sumURL   = "/sum/"
)

// anySum is what a link may call any calculator.
const anySum = "the sum"

// settle walks the tree once: it turns links between files into links of the
// app, and refuses what a guide may not hold.
func (p *page) settle(id string) []link {
	var links []link
	_ = ast.Walk(p.tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.RawHTML, *ast.HTMLBlock:
			p.fault(p.line(n), "raw HTML is not allowed: write it in Markdown")
		case *ast.Heading:
			if n.Parent().Kind() != ast.KindDocument {
				p.fault(p.line(n), "a heading stands inside a list or a quotation: begin it in the first column")
			}
		case *ast.Image:
			p.fault(p.line(n), "images are not allowed: use a Drawing field in a step")
		case *ast.AutoLink:
			p.fault(p.line(n), "links to other sites do not work offline: name the source in words")
		case *ast.Link:
			l, ok := readLink(string(n.Destination), id)
			if !ok {
				p.fault(p.line(n), "link to \""+string(n.Destination)+"\" is not allowed: "+
					"link to a guide as guide.md, guide.md#step or #step, to a calculator as sum:name")
				return ast.WalkContinue, nil
			}
			l.line = p.line(n)
			l.text, _ = p.words(n)
			links = append(links, l)
			n.Destination = []byte(l.url())
		}
		return ast.WalkContinue, nil
	})
	return links
}

func readLink(dest, here string) (link, bool) {
	if sum, isSum := strings.CutPrefix(dest, "sum:"); isSum {
		return link{sum: sum}, validID(sum)
	}
	file, step, _ := strings.Cut(dest, "#")
	if file == "" {
		return link{guide: here, step: step}, validID(step)
	}
	guide, isFile := strings.CutSuffix(file, ".md")
	ok := isFile && validID(guide) && (step == "" || validID(step))
	return link{guide: guide, step: step}, ok
}

func (l link) url() string {
	if l.sum != "" {
		return sumURL + l.sum
	}
	if l.step == "" {
		return guideURL + l.guide
	}
	return guideURL + l.guide + "#" + l.step
}

// validID says whether s is made of lower-case words joined by hyphens.
func validID(s string) bool {
	for _, word := range strings.Split(s, "-") {
		if word == "" || strings.Trim(word, "abcdefghijklmnopqrstuvwxyz0123456789") != "" {
			return false
		}
	}
	return true
}
