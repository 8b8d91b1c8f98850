package journey

import (
	"context"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"kerfside/cmd/internal/browser"
)

// The roles of Chromium's accessibility tree that a person works.
var controlRoles = []string{"button", "link", "textbox", "searchbox", "spinbutton", "combobox", "listbox", "slider",
	"radio", "checkbox", "switch", "tab", "option", "menuitem", "DisclosureTriangle"}

var (
	letter = regexp.MustCompile(`[\p{L}\p{N}]`)
	key    = regexp.MustCompile(`^[a-z][\w-]*(\.[a-z][\w-]*)+$`) // of words, like ready.title
	broken = regexp.MustCompile(`\b(undefined|null|NaN)\b|\[object|\{\w+\}`)
)

// Tree tells what a screen reader would stumble over on the page that is shown: what its accessibility
// tree says of controls, headings, landmarks and what lies over the page, and errors that are shown and
// not tied to their field.
func Tree(ctx context.Context, page *browser.Page) ([]string, error) {
	var shown struct {
		Untied []string
		Modal  bool // a dialog lies over the page
	}
	if err := page.Evaluate(ctx, library+`frame().then(frame).then(() => ({ untied: untiedErrors(), modal: document.querySelector("dialog[open], [role=dialog]") !== null }))`+ending, &shown); err != nil {
		return nil, err
	}
	root, err := page.Tree(ctx)
	if err != nil {
		return nil, err
	}
	return append(treeFindings(root, shown.Modal), shown.Untied...), nil
}

// tree checks the accessibility tree, where the engine tells it.
func tree(ctx context.Context, r *run, _ Step) error {
	if r.engine != browser.Chromium {
		return nil
	}
	found, err := Tree(ctx, r.page())
	if err == nil && len(found) > 0 {
		err = errors.New(strings.Join(found, "\n"))
	}
	return err
}

// treeFindings tells what is wrong with a tree.
func treeFindings(root *browser.Node, modal bool) (found []string) {
	wrong := func(form string, values ...any) { found = append(found, fmt.Sprintf(form, values...)) }
	if modal {
		dialogs := collect(root, func(n *browser.Node) bool { return n.Role == "dialog" || n.Role == "alertdialog" })
		if len(dialogs) != 1 {
			wrong("a dialog lies over the page and the tree has %d", len(dialogs))
			return found
		}
		if !letter.MatchString(dialogs[0].Name) {
			wrong("the dialog has no name")
		}
		inside := collect(dialogs[0], speaks)
		for _, n := range collect(root, speaks) {
			if !slices.Contains(inside, n) {
				wrong("%s lies beneath the dialog and is told", told(n))
			}
		}
		root = dialogs[0]
	}
	for _, n := range collect(root, func(n *browser.Node) bool { return slices.Contains(controlRoles, n.Role) }) {
		switch words := strings.Fields(n.Name); {
		case !letter.MatchString(n.Name):
			wrong("%s has no name in words", told(n))
		case broken.MatchString(n.Name) || broken.MatchString(n.Description) || slices.ContainsFunc(words, key.MatchString):
			wrong("%s is called as no person would", told(n))
		case doubled(words):
			wrong("%s is called so twice", told(n))
		case strings.EqualFold(n.Name, n.Description):
			wrong("%s is described by its name once more", told(n))
		}
	}
	level, tops := 0, 0
	if modal {
		level = 1 // the heading beneath
	}
	for _, n := range collect(root, func(n *browser.Node) bool { return n.Role == "heading" }) {
		if !letter.MatchString(n.Name) {
			wrong("a heading of level %d is empty", n.Level)
		}
		if n.Level > level+1 {
			wrong("%s is of level %d after one of level %d", told(n), n.Level, level)
		}
		if level = n.Level; level == 1 {
			tops++
		}
	}
	if modal {
		return found
	}
	if tops != 1 {
		wrong("there are %d headings of level 1", tops)
	}
	if mains := collect(root, func(n *browser.Node) bool { return n.Role == "main" }); len(mains) != 1 {
		wrong("there are %d main landmarks", len(mains))
	}
	return found
}

// speaks says whether a node would lead a reader to it.
func speaks(n *browser.Node) bool {
	return slices.Contains(controlRoles, n.Role) || slices.Contains([]string{"heading", "main", "navigation", "banner", "region", "StaticText"}, n.Role)
}

// doubled says whether a name begins with the same words twice: "Search Search".
func doubled(words []string) bool {
	for k := 1; k <= len(words)/2; k++ {
		if first := strings.Join(words[:k], " "); len(first) > 2 && letter.MatchString(first) && strings.EqualFold(first, strings.Join(words[k:2*k], " ")) {
			return true
		}
	}
	return false
}

// told names a node in a message.
func told(n *browser.Node) string { return fmt.Sprintf("%s %q", n.Role, n.Name) }

// collect finds nodes in the order in which they are told.
func collect(n *browser.Node, want func(*browser.Node) bool) (all []*browser.Node) {
	if want(n) {
		all = append(all, n)
	}
	for _, child := range n.Children {
		all = append(all, collect(child, want)...)
	}
	return all
}

// Live tells what a screen reader says by itself when it changes: the text of each live region.
func Live(ctx context.Context, page *browser.Page) ([]string, error) {
	root, err := page.Tree(ctx)
	if err != nil {
		return nil, err
	}
	var all []string
	for _, n := range collect(root, func(n *browser.Node) bool { return n.Live == "polite" || n.Live == "assertive" }) {
		var words []string
		for _, text := range collect(n, func(n *browser.Node) bool { return n.Role == "StaticText" }) {
			words = append(words, text.Name)
		}
		all = append(all, strings.Join(words, " "))
	}
	return all, nil
}
