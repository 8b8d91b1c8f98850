package guides

import (
	"bytes"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

// markdown has raw HTML off (goldmark's default), tables with an align
// attribute instead of a style (the page's policy forbids style), and heading
// ids only where they are written.
var markdown = goldmark.New(
	goldmark.WithExtensions(extension.NewTable(
		extension.WithTableCellAlignMethod(extension.TableCellAlignAttribute))),
	goldmark.WithParserOptions(parser.WithHeadingAttribute()),
)

// link is a link to another guide or step, kept for the check that it leads
// somewhere.
type link struct {
	line        int
	guide, step string
	sum, text   string // the calculator of a link to one, which has no guide, and what the link calls it
}

// page is one parsed file: the tree and what is needed to speak about it.
type page struct {
	file   string
	src    []byte
	tree   ast.Node
	faults Faults
}

func newPage(file string, src []byte) *page {
	return &page{file: file, src: src, tree: markdown.Parser().Parse(text.NewReader(src))}
}

func (p *page) fault(line int, msg string) {
	p.faults = append(p.faults, Fault{File: p.file, Line: line, Msg: msg})
}

// html renders the nodes one after the other.
func (p *page) html(nodes []ast.Node) HTML {
	var b bytes.Buffer
	for _, n := range nodes {
		if err := markdown.Renderer().Render(&b, p.src, n); err != nil {
			p.fault(p.line(n), "cannot be rendered: "+err.Error())
		}
	}
	return HTML(strings.TrimSpace(b.String()))
}

// line returns the line on which n, or the first thing inside it, starts.
func (p *page) line(n ast.Node) int {
	at := -1
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch {
		case !entering:
			return ast.WalkContinue, nil
		case n.Kind() == ast.KindText:
			at = n.(*ast.Text).Segment.Start
		case n.Type() != ast.TypeInline && n.Lines().Len() > 0:
			at = n.Lines().At(0).Start
		default:
			return ast.WalkContinue, nil
		}
		return ast.WalkStop, nil
	})
	if at < 0 {
		if before := n.PreviousSibling(); before != nil {
			return p.line(before)
		}
		return 1
	}
	return 1 + bytes.Count(p.src[:at], []byte("\n"))
}

// words returns the text inside n with line ends as spaces, and whether it
// holds anything but text.
func (p *page) words(n ast.Node) (s string, plain bool) {
	var b strings.Builder
	plain = true
	_ = ast.Walk(n, func(c ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			if c.Type() == ast.TypeBlock {
				b.WriteByte(' ')
			}
			return ast.WalkContinue, nil
		}
		switch c := c.(type) {
		case *ast.Text:
			b.Write(c.Segment.Value(p.src))
			if c.SoftLineBreak() || c.HardLineBreak() {
				b.WriteByte(' ')
			}
		case *ast.String:
			b.Write(c.Value)
		default:
			plain = plain && c.Type() != ast.TypeInline
		}
		return ast.WalkContinue, nil
	})
	return strings.Join(strings.Fields(b.String()), " "), plain
}

// wordsOf joins the words of several nodes.
func (p *page) wordsOf(nodes []ast.Node) string {
	var all []string
	for _, n := range nodes {
		s, _ := p.words(n)
		all = append(all, s)
	}
	return strings.Join(all, " ")
}
