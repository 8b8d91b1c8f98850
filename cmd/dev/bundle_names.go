package main

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"github.com/tdewolff/parse/v2"
	"github.com/tdewolff/parse/v2/js"
)

// The bundler gives no variable a name that any scope around it has, whether that is
// used inside or not. So a function within another begins further down the alphabet
// than one that stands alone, and what reads the same has other letters. shortNames
// names them anew: each scope begins with the first letter, and passes over what it uses
// of scopes around it. The texts are hardly shorter, but they pack better.

// letters are what names are made of, in the order in which they are taken: those first
// that are frequent in code. A figure may come second.
const letters = "tesinrolacdhupmfgbywkvxjzqOCEASMFTDNLRPHIBV_$WUKYGXQZJ"

// renaming is a name in a text that another takes the place of.
type renaming struct {
	at       int // in bytes
	was, now string
}

// shortNames returns what to change in a joined file. The names of its top level stay:
// other files ask for some, and the bundler has them by how often they are used.
func shortNames(text string) ([]renaming, error) {
	p, err := parseNames(text)
	if err != nil {
		return nil, err
	}
	found, err := p.occurrences(text)
	if err != nil {
		return nil, err
	}
	names := p.choose()
	var changes []renaming
	for _, f := range found {
		c := renaming{at: f.at, was: p.was[f.variable], now: names[f.variable]}
		if c.was == c.now {
			continue
		}
		if f.isKey {
			c.now = c.was + ":" + c.now
		}
		changes = append(changes, c)
	}
	return changes, p.same(changed(text, changes))
}

// changed returns a text with the changes.
func changed(text string, changes []renaming) string {
	var out strings.Builder
	from := 0
	for _, c := range changes {
		out.WriteString(text[from:c.at] + c.now)
		from = c.at + len(c.was)
	}
	return out.String() + text[from:]
}

// named is a text of which each variable below the top level is known.
type named struct {
	scopes    []*js.Scope // each after the one around it
	variables []*js.Var   // in the order of the scopes
	was       []string    // their names
	marked    string      // the text as it is printed with marks in their place
}

// A mark stands for a variable, and can stand for nothing else in a text.
const mark = "\x01"

// finder collects scopes, and what stands for a variable that is declared only later.
type finder struct {
	scopes []*js.Scope
	early  []*js.Var
}

// Enter takes down what is come to.
func (f *finder) Enter(node js.INode) js.IVisitor {
	switch node := node.(type) {
	case *js.BlockStmt:
		f.scopes = append(f.scopes, &node.Scope)
	case *js.SwitchStmt:
		f.scopes = append(f.scopes, &node.Scope)
	case *js.Var:
		if node.Link != nil {
			f.early = append(f.early, node)
		}
	}
	return f
}

// Exit does nothing.
func (f *finder) Exit(js.INode) {}

func parseNames(text string) (*named, error) {
	tree, err := js.Parse(parse.NewInputString(text), js.Options{})
	if err != nil {
		return nil, fmt.Errorf("its names cannot be read: %w", err)
	}
	var f finder
	js.Walk(&f, tree)
	p, known := &named{}, map[*js.Var]bool{}
	for _, scope := range f.scopes {
		if scope.Parent == nil {
			continue
		}
		p.scopes = append(p.scopes, scope)
		for _, variable := range scope.Declared {
			if isPrivate := variable.Data[0] == '#'; isPrivate || known[variable] {
				continue
			}
			known[variable] = true
			p.variables = append(p.variables, variable)
			p.was = append(p.was, string(variable.Data))
		}
	}
	for i, variable := range p.variables {
		variable.Data = []byte(mark + strconv.Itoa(i) + mark)
	}
	for _, variable := range f.early {
		variable.Data = variable.Name() // else a key of the same name is not printed
	}
	var printed bytes.Buffer
	tree.JS(&printed) // into memory: cannot fail
	p.marked = printed.String()
	return p, nil
}

// markOf returns which variable a word is the mark of.
func (p *named) markOf(w word) (int, bool) {
	if !strings.HasPrefix(w.text, mark) {
		return 0, false
	}
	i, err := strconv.Atoi(strings.Trim(w.text, mark))
	return i, err == nil
}

// occurrence is a place at which a variable stands.
type occurrence struct {
	at, variable int
	isKey        bool // it is its own key there, as in {name}
}

// occurrences finds the variables in a text. The print has the same words in the same
// order, but for the return that it gives short functions, and for keys.
func (p *named) occurrences(text string) ([]occurrence, error) {
	var found []occurrence
	ours, printed := wordsIn(text), wordsIn(p.marked)
	for len(ours) > 0 && len(printed) > 0 {
		our, print := ours[0], printed[0]
		i, isMark := p.markOf(print)
		switch {
		case isMark && our.text == p.was[i]:
			found = append(found, occurrence{at: our.at, variable: i})
		case !isMark && our.text == print.text:
			if len(printed) == 1 || strings.HasPrefix(text[our.end():], ":") || p.marked[print.end():printed[1].at] != ": " {
				break
			}
			if i, isMark = p.markOf(printed[1]); isMark && p.was[i] == our.text {
				found = append(found, occurrence{at: our.at, variable: i, isKey: true})
				printed = printed[1:]
			}
		case print.text == "return":
			printed = printed[1:]
			continue
		default:
			return nil, fmt.Errorf("its names are lost at %.60s", text[our.at:])
		}
		ours, printed = ours[1:], printed[1:]
	}
	return found, nil
}

// choose gives each variable a name that its scope does not use otherwise.
func (p *named) choose() []string {
	names := make([]string, len(p.variables))
	for _, scope := range p.scopes {
		taken := map[string]bool{}
		for _, variable := range scope.Undeclared {
			name := string(variable.Name())
			if i, isMark := p.markOf(word{text: name}); isMark {
				name = names[i]
			}
			taken[name] = true
		}
		n := 0
		for _, variable := range scope.Declared {
			i, isMark := p.markOf(word{text: string(variable.Data)})
			for isMark && names[i] == "" {
				name := nthName(n)
				if _, isKeyword := js.Keywords[name]; !taken[name] && !isKeyword {
					names[i], taken[name] = name, true
				}
				n++
			}
		}
	}
	return names
}

// nthName returns one name after the other.
func nthName(n int) string {
	if n < len(letters) {
		return letters[n : n+1]
	}
	n -= len(letters)
	seconds := letters + "0123456789"
	return nthName(n/len(seconds)) + seconds[n%len(seconds):][:1]
}

// same makes sure that each name of a text means what it meant before.
func (p *named) same(text string) error {
	now, err := parseNames(text)
	if err == nil && now.marked != p.marked {
		err = fmt.Errorf("with other names it would mean something else")
	}
	return err
}

// word is a name, a number or a part of a text.
type word struct {
	text string
	at   int
}

func (w word) end() int { return w.at + len(w.text) }

// wordsIn returns the words of a text in their order.
func wordsIn(text string) []word {
	var words []word
	for i := 0; i < len(text); i++ {
		if !isInWord(text[i]) {
			continue
		}
		end := i + 1
		for end < len(text) && isInWord(text[end]) && text[end] != '#' {
			end++
		}
		words = append(words, word{text: text[i:end], at: i})
		i = end - 1
	}
	return words
}

func isInWord(c byte) bool {
	return c == mark[0] || c == '#' || c >= 0x80 || c >= '0' && c <= '9' || strings.IndexByte(letters, c) >= 0
}
