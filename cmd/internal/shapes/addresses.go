package shapes

import (
	"fmt"
	"go/ast"
	"go/types"
	"strings"
)

// address is what the server answers at one address.
type address struct {
	name string // "GET /api/devices"
	out  types.Type
}

// addresses reads the list of the server's addresses of JSON: r.Handle("/api/…",
// s.who(s.handler)).Methods("GET"). What a handler answers is what it gives writeJSON.
func (s *source) addresses() ([]address, error) {
	var list []address
	for _, p := range s.packages {
		if !strings.HasPrefix(p.path, module+"server") {
			continue
		}
		for _, file := range p.files {
			ast.Inspect(file, func(n ast.Node) bool {
				methods, ok := n.(*ast.CallExpr)
				if !ok || len(methods.Args) == 0 {
					return true
				}
				chosen, ok := methods.Fun.(*ast.SelectorExpr)
				if !ok || chosen.Sel.Name != "Methods" {
					return true
				}
				handle := called(chosen.X)
				if handle == nil || len(handle.Args) != 2 || !strings.HasPrefix(word(p, handle.Args[0]), "/api/") {
					return true
				}
				wrapped := called(handle.Args[1])
				if wrapped == nil || len(wrapped.Args) != 1 {
					return true
				}
				handler := p.info.Uses[nameOf(wrapped.Args[0])]
				if out := s.written(handler); out != nil {
					list = append(list, address{word(p, methods.Args[0]) + " " + word(p, handle.Args[0]), out})
				}
				return true
			})
		}
	}
	if len(list) < 5 {
		return nil, fmt.Errorf("the server's addresses were not found: r.Handle(\"/api/…\", s.who(s.handler)).Methods(\"GET\")")
	}
	return list, nil
}

// written is the type that a handler gives writeJSON.
func (s *source) written(handler types.Object) (out types.Type) {
	body, ok := s.bodies[handler]
	if !ok {
		return nil
	}
	ast.Inspect(body.decl, func(n ast.Node) bool {
		if made, ok := n.(*ast.CallExpr); ok && len(made.Args) == 3 {
			if name := nameOf(made.Fun); name != nil && name.Name == "writeJSON" {
				out = body.in.info.TypeOf(made.Args[2])
			}
		}
		return true
	})
	return out
}

// declareAddresses declares what the phone asks of the server.
func (d *declarations) declareAddresses(list []address) {
	d.file = serverFile
	rows := map[string]string{}
	for _, a := range list {
		if _, isAny := a.out.Underlying().(*types.Interface); isAny || strings.HasSuffix(a.name, "/api/calc/{name}") {
			continue
		}
		rows[a.name] = d.typed(a.out)
	}
	d.table("Addresses", "What the server answers, by method and address.", rows)
}
