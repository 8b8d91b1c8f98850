// Package help holds the pages for whoever runs a server: how to install it, how
// phones reach it, how it is backed up. They are Markdown, served at /help by the
// program that they tell of, so that they tell of this version.
//
// A fenced block whose info string has two words, like
//
//	```sh install
//
// has a name, and a test runs its very text: Block gives it out. A block of output
// is ```text and has none.
package help

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

//go:embed *.md page.html page.css
var files embed.FS

// order is how the pages follow each other. The first is what /help shows.
var order = []string{"index", "install", "shop", "public", "proxy", "board", "backups", "watch", "look-after", "spread", "command"}

// Page is one page as it was read.
type Page struct {
	Name  string // as in its address, /help/NAME
	Title string // its only heading of the first level
	src   []byte
	tree  ast.Node
}

// markdown has raw HTML off, which is goldmark's default, and tables without
// styles, which the policy of every reply forbids.
var markdown = goldmark.New(
	goldmark.WithExtensions(extension.NewTable(extension.WithTableCellAlignMethod(extension.TableCellAlignAttribute))),
	goldmark.WithParserOptions(parser.WithAutoHeadingID(), parser.WithASTTransformers(util.Prioritized(links{}, 100))),
)

// Pages returns all pages in their order.
var Pages = sync.OnceValue(func() []*Page {
	names, err := fs.Glob(files, "*.md")
	if err != nil {
		panic(err) // the pattern is ours
	}
	var all []*Page
	for _, name := range names {
		src, err := files.ReadFile(name)
		if err != nil {
			panic(err) // it is embedded
		}
		all = append(all, parse(strings.TrimSuffix(name, ".md"), src))
	}
	slices.SortStableFunc(all, func(a, b *Page) int { return place(a.Name) - place(b.Name) })
	return all
})

// place is where a page stands among all, from 0; one that the list lacks comes last.
func place(name string) int {
	if i := slices.Index(order, name); i >= 0 {
		return i
	}
	return len(order)
}

func parse(name string, src []byte) *Page {
	p := &Page{Name: name, src: src, tree: markdown.Parser().Parse(text.NewReader(src))}
	for n := p.tree.FirstChild(); n != nil; n = n.NextSibling() {
		if h, ok := n.(*ast.Heading); ok && h.Level == 1 && p.Title == "" {
			p.Title = string(h.Lines().Value(src))
		}
	}
	return p
}

// find returns the page of that name, or nil.
func find(name string) *Page {
	for _, p := range Pages() {
		if p.Name == name {
			return p
		}
	}
	return nil
}

// links makes addresses of /help of the links to other pages, which are written as
// links to their files so that they work in a checkout too.
type links struct{}

func (links) Transform(doc *ast.Document, _ text.Reader, _ parser.Context) {
	_ = ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) { // the walker never fails
		if l, ok := n.(*ast.Link); ok && entering {
			if file, part, ok := strings.Cut(string(l.Destination), ".md"); ok && !strings.Contains(file, "/") {
				l.Destination = []byte("/help/" + file + part)
			}
		}
		return ast.WalkContinue, nil
	})
}

// HTML renders a page with the frame round it.
func (p *Page) HTML() ([]byte, error) {
	frame, err := template.ParseFS(files, "page.html")
	if err != nil {
		return nil, err
	}
	var body, whole bytes.Buffer
	if err := markdown.Renderer().Render(&body, p.src, p.tree); err != nil {
		return nil, fmt.Errorf("%s.md: %w", p.Name, err)
	}
	err = frame.Execute(&whole, map[string]any{
		"Title": p.Title, "Name": p.Name, "Pages": Pages(),
		"Body": template.HTML(body.String()), // made by goldmark with raw HTML off, of our own pages
	})
	return whole.Bytes(), err
}
