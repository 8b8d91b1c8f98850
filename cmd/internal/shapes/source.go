package shapes

import (
	"bytes"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// module is our own import path.
const module = "kerfside/"

// source is the module's Go, read with its comments and its types known.
type source struct {
	packages []*goPackage // those of the module, each after what it imports
	said     map[types.Object]string
	bodies   map[types.Object]function
}

// goPackage is one package of the module.
type goPackage struct {
	path  string // "kerfside/calc/form"
	files []*ast.File
	types *types.Package
	info  *types.Info
}

// function is a function's text and the package that it stands in.
type function struct {
	decl *ast.FuncDecl
	in   *goPackage
}

// listed is a package as go list tells it.
type listed struct {
	ImportPath, Dir, Export string
	GoFiles                 []string
}

// readSource reads the packages of the module at dir that the patterns name, and
// those they import.
func readSource(dir string, patterns ...string) (*source, error) {
	list, err := listPackages(dir, patterns)
	if err != nil {
		return nil, err
	}
	s := &source{said: map[types.Object]string{}, bodies: map[types.Object]function{}}
	exports, ours := map[string]string{}, map[string]*types.Package{}
	fset := token.NewFileSet()
	others := importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	find := importFunc(func(path string) (*types.Package, error) {
		if p := ours[path]; p != nil {
			return p, nil
		}
		return others.Import(path)
	})
	for _, l := range list {
		if !strings.HasPrefix(l.ImportPath, module) {
			exports[l.ImportPath] = l.Export
			continue
		}
		p := &goPackage{path: l.ImportPath, info: &types.Info{
			Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{},
			Uses: map[*ast.Ident]types.Object{}, Instances: map[*ast.Ident]types.Instance{},
		}}
		for _, name := range l.GoFiles {
			file, err := parser.ParseFile(fset, filepath.Join(l.Dir, name), nil, parser.ParseComments|parser.SkipObjectResolution)
			if err != nil {
				return nil, err
			}
			p.files = append(p.files, file)
		}
		if p.types, err = (&types.Config{Importer: find}).Check(l.ImportPath, fset, p.files, p.info); err != nil {
			return nil, err
		}
		ours[l.ImportPath] = p.types
		s.packages = append(s.packages, p)
		s.note(p)
	}
	return s, nil
}

type importFunc func(path string) (*types.Package, error)

func (f importFunc) Import(path string) (*types.Package, error) { return f(path) }

// listPackages asks the go command for the packages, each after what it imports.
func listPackages(dir string, patterns []string) ([]listed, error) {
	list := exec.Command("go", append([]string{"list", "-deps", "-export", "-json=ImportPath,Dir,Export,GoFiles"}, patterns...)...)
	list.Dir = dir
	var said bytes.Buffer
	list.Stderr = &said
	out, err := list.Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w\n%s", err, said.String())
	}
	var all []listed
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var l listed
		if err := d.Decode(&l); err == io.EOF {
			return all, nil
		} else if err != nil {
			return nil, fmt.Errorf("go list: %w", err)
		}
		all = append(all, l)
	}
}

// note remembers what the comments of a package say, and its functions.
func (s *source) note(p *goPackage) {
	for _, file := range p.files {
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				s.bodies[p.info.Defs[n.Name]] = function{n, p}
			case *ast.GenDecl:
				for _, spec := range n.Specs {
					if t, ok := spec.(*ast.TypeSpec); ok {
						s.say(p.info.Defs[t.Name], t.Doc, n.Doc, t.Comment)
					}
				}
			case *ast.StructType:
				for _, field := range n.Fields.List {
					for _, name := range field.Names {
						s.say(p.info.Defs[name], field.Doc, field.Comment)
					}
				}
			}
			return true
		})
	}
}

// say takes the first of the comments that there is as what is said of an object.
func (s *source) say(of types.Object, comments ...*ast.CommentGroup) {
	for _, c := range comments {
		if text := strings.TrimSpace(c.Text()); text != "" && of != nil {
			s.said[of] = text
			return
		}
	}
}

// object returns what stands at the top level of a package of the module under
// that name: "calc/registry", "Describe".
func (s *source) object(path, name string) (types.Object, error) {
	for _, p := range s.packages {
		if p.path == module+path {
			if o := p.types.Scope().Lookup(name); o != nil {
				return o, nil
			}
		}
	}
	return nil, fmt.Errorf("%s has no %s any more; cmd/internal/shapes asks for it", path, name)
}
