package shapes

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// oneCall is a call that the worker makes into the sums, by its name.
type oneCall struct {
	name    string
	in, out types.Type
}

// engineCalls reads the journal's table of calls, wherever it stands: a map literal
// from names that begin with "journal-" to call(f), whose type arguments are what
// goes in and comes out.
func (s *source) engineCalls() ([]oneCall, error) {
	var list []oneCall
	for _, p := range s.packages {
		for _, file := range p.files {
			ast.Inspect(file, func(n ast.Node) bool {
				row, ok := n.(*ast.KeyValueExpr)
				if !ok {
					return true
				}
				name, made := word(p, row.Key), called(row.Value)
				if !strings.HasPrefix(name, "journal-") || made == nil || len(made.Args) != 1 {
					return true
				}
				if args := p.info.Instances[nameOf(made.Fun)].TypeArgs; args.Len() == 2 {
					list = append(list, oneCall{name: name, in: args.At(0), out: s.concrete(args.At(1), p, made.Args[0])})
				}
				return true
			})
		}
	}
	if len(list) < 5 {
		return nil, fmt.Errorf("the journal's table of calls was not found: a map from \"journal-…\" to call(f)")
	}
	return list, nil
}

// concrete returns out, or, where that is any, the type of what the function f gives back.
func (s *source) concrete(out types.Type, p *goPackage, f ast.Expr) types.Type {
	if _, isAny := out.Underlying().(*types.Interface); !isAny {
		return out
	}
	if body, ok := s.bodies[p.info.Uses[nameOf(f)]]; ok {
		ast.Inspect(body.decl, func(n ast.Node) bool {
			if r, ok := n.(*ast.ReturnStmt); ok && len(r.Results) > 0 {
				if t := body.in.info.TypeOf(r.Results[0]); t != types.Typ[types.UntypedNil] {
					out = t
				}
			}
			return true
		})
	}
	return out
}

// views reads the journal's list of views: a list of name and function, in which
// each function returns one expression.
func (s *source) views() (map[string]types.Type, error) {
	views := map[string]types.Type{}
	for _, p := range s.packages {
		for _, file := range p.files {
			ast.Inspect(file, func(n ast.Node) bool {
				row, ok := n.(*ast.CompositeLit)
				if !ok || !isView(p.info.TypeOf(row)) {
					return true
				}
				name := ""
				for _, value := range row.Elts {
					if pair, ok := value.(*ast.KeyValueExpr); ok {
						value = pair.Value
					}
					if w := word(p, value); w != "" {
						name = w
					}
					if f, ok := value.(*ast.FuncLit); ok && len(f.Body.List) == 1 {
						if r, ok := f.Body.List[0].(*ast.ReturnStmt); ok {
							views[name] = p.info.TypeOf(r.Results[0])
						}
					}
				}
				return true
			})
		}
	}
	if len(views) < 3 {
		return nil, fmt.Errorf("the journal's list of views was not found: {name, mark, make func() any}")
	}
	return views, nil
}

// isView reports whether a type is that of a row of the list of views.
func isView(t types.Type) bool {
	row, ok := t.Underlying().(*types.Struct)
	if !ok {
		return false
	}
	has := map[string]bool{}
	for i := range row.NumFields() {
		has[row.Field(i).Name()+" "+row.Field(i).Type().String()] = true
	}
	return has["name string"] && has["make func() any"]
}

// registryCalls reads the calls beside the calculators from registry.Call: each case
// of its switch that returns what a function makes of the input.
func (s *source) registryCalls() ([]oneCall, error) {
	o, err := s.object("calc/registry", "Call")
	if err != nil {
		return nil, err
	}
	body := s.bodies[o]
	var list []oneCall
	ast.Inspect(body.decl, func(n ast.Node) bool {
		c, ok := n.(*ast.CaseClause)
		if !ok || len(c.List) == 0 || len(c.Body) != 1 {
			return true
		}
		r, ok := c.Body[0].(*ast.ReturnStmt)
		if !ok {
			return true
		}
		made := called(r.Results[0])
		f := body.in.info.Uses[nameOf(made.Fun)]
		out := f.Type().(*types.Signature).Results().At(0).Type()
		list = append(list, oneCall{name: word(body.in, c.List[0]), in: s.decoded(f, 2), out: out})
		return true
	})
	if len(list) < 4 {
		return nil, fmt.Errorf("the calls of registry.Call were not found: case \"name\": return f(input)")
	}
	ear, err := s.object("calc/listen", "Ear")
	if err != nil {
		return nil, err
	}
	listen, _, _ := types.LookupFieldOrMethod(types.NewPointer(ear.Type()), true, ear.Pkg(), "Call")
	return append(list, oneCall{name: "listen", in: s.decoded(listen, 0), out: listen.Type().(*types.Signature).Results().At(0).Type()}), nil
}

// decoded returns the type into which f decodes its JSON: what its first
// json.Unmarshal fills, or that of a function that it calls.
func (s *source) decoded(f types.Object, deeper int) types.Type {
	body, ok := s.bodies[f]
	if !ok {
		return nil
	}
	var found types.Type
	var further []types.Object
	ast.Inspect(body.decl, func(n ast.Node) bool {
		made, ok := n.(*ast.CallExpr)
		if !ok || found != nil {
			return found == nil
		}
		to := body.in.info.Uses[nameOf(made.Fun)]
		if to == nil || to.Pkg() == nil {
			return true
		}
		if into := last(made.Args); into != nil && to.Pkg().Path() == "encoding/json" && (to.Name() == "Unmarshal" || to.Name() == "Decode") {
			if at, ok := into.(*ast.UnaryExpr); ok && at.Op == token.AND {
				found = body.in.info.TypeOf(at.X)
			}
		}
		further = append(further, to)
		return true
	})
	for _, next := range further {
		if found == nil && deeper > 0 {
			found = s.decoded(next, deeper-1)
		}
	}
	return found
}

func last(list []ast.Expr) ast.Expr {
	if len(list) == 0 {
		return nil
	}
	return list[len(list)-1]
}

// called is the call that an expression is, or nil.
func called(e ast.Expr) *ast.CallExpr {
	c, _ := e.(*ast.CallExpr)
	return c
}

// nameOf is the last name of what is called: f of f, p.f and f[T].
func nameOf(e ast.Expr) *ast.Ident {
	switch e := e.(type) {
	case *ast.Ident:
		return e
	case *ast.SelectorExpr:
		return e.Sel
	case *ast.IndexExpr:
		return nameOf(e.X)
	case *ast.IndexListExpr:
		return nameOf(e.X)
	}
	return nil
}

// word is the text of a constant expression, "" if it is none.
func word(p *goPackage, e ast.Expr) string {
	if v := p.info.Types[e].Value; v != nil && v.Kind() == constant.String {
		return constant.StringVal(v)
	}
	return ""
}

// declareCalls declares a table of calls in a file.
func (d *declarations) declareCalls(file, name, said string, list []oneCall) {
	d.file = file
	rows := map[string]string{}
	for _, c := range list {
		out := answered[c.name]
		if out == "" {
			out = d.typed(c.out)
		}
		in := "{}"
		if c.in != nil {
			in = d.typed(c.in)
		}
		rows[c.name] = fmt.Sprintf("{ in: %s; out: %s }", in, out)
	}
	d.table(name, said, rows)
}

// table declares an interface of rows.
func (d *declarations) table(name, said string, rows map[string]string) {
	var b strings.Builder
	b.WriteString(comment(said, "") + "export interface " + name + " {\n")
	for _, key := range slices.Sorted(maps.Keys(rows)) {
		fmt.Fprintf(&b, "  %s: %s;\n", keyText(key), rows[key])
	}
	d.declare(name, b.String()+"}\n")
}

// union declares a type of words.
func (d *declarations) union(name, said string, words []string) {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = strconv.Quote(w)
	}
	d.declare(name, comment(said, "")+"export type "+name+" = "+strings.Join(quoted, " | ")+";\n")
}
