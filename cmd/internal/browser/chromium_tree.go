package browser

import (
	"context"
	"encoding/json"
	"errors"
)

// Node is one thing that a screen reader is told of.
type Node struct {
	Role, Name, Description string
	Level                   int    // of a heading
	Live                    string // "polite" or "assertive" where what changes is told at once
	Modal                   bool
	Children                []*Node
}

// axNode is a node as the protocol has it.
type axNode struct {
	NodeID      string
	Ignored     bool
	Role        struct{ Value string }
	Name        struct{ Value string }
	Description struct{ Value string }
	Properties  []struct {
		Name  string
		Value struct{ Value json.RawMessage }
	}
	ChildIDs []string `json:"childIds"`
}

// Tree returns the page's accessibility tree: what is kept from screen readers is not in it.
func (p *Page) Tree(ctx context.Context) (*Node, error) {
	t, err := p.chromium("tell its accessibility tree")
	if err != nil {
		return nil, err
	}
	var got struct{ Nodes []axNode }
	if err := t.call(ctx, "Accessibility.getFullAXTree", struct{}{}, &got); err != nil {
		return nil, err
	}
	if len(got.Nodes) == 0 {
		return nil, errors.New("the accessibility tree is empty")
	}
	byID := make(map[string]*axNode, len(got.Nodes))
	for i := range got.Nodes {
		byID[got.Nodes[i].NodeID] = &got.Nodes[i]
	}
	root := &Node{}
	grow(root, &got.Nodes[0], byID)
	return root, nil
}

// grow hangs a node under its parent; the children of one that is ignored hang there in its place.
func grow(parent *Node, from *axNode, byID map[string]*axNode) {
	to := parent
	if !from.Ignored {
		to = &Node{Role: from.Role.Value, Name: from.Name.Value, Description: from.Description.Value}
		for _, p := range from.Properties {
			switch p.Name {
			case "level":
				json.Unmarshal(p.Value.Value, &to.Level)
			case "live":
				json.Unmarshal(p.Value.Value, &to.Live)
			case "modal":
				json.Unmarshal(p.Value.Value, &to.Modal)
			}
		}
		parent.Children = append(parent.Children, to)
	}
	for _, id := range from.ChildIDs {
		if child := byID[id]; child != nil {
			grow(to, child, byID)
		}
	}
}
