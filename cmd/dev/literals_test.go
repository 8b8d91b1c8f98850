package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// A literal of a struct names its fields from this many values on: with fewer,
// which is which can still be seen.
const keyedFrom = 3

// TestLiteralsNameTheirFields: no table, no test and no code leaves a reader to
// count the fields of a type.
func TestLiteralsNameTheirFields(t *testing.T) {
	checked := 0
	for _, file := range goFiles(t) {
		ast.Inspect(file.tree, func(n ast.Node) bool {
			if lit, ok := n.(*ast.CompositeLit); ok && lit.Type != nil {
				file.literals(lit, lit.Type, file.folder, func(unnamed *ast.CompositeLit) {
					t.Errorf("%s: %d values without the names of their fields", file.set.Position(unnamed.Pos()), len(unnamed.Elts))
				}, &checked)
			}
			return true
		})
	}
	if checked < 4000 {
		t.Errorf("only %d literals of structs were read: this test looks in the wrong place", checked)
	}
}

// goFile is a Go file of ours with the types that all files of its folder declare.
type goFile struct {
	set    *token.FileSet
	folder string
	tree   *ast.File
	types  map[string]map[string]ast.Expr // by folder and name
}

// goFiles parses every Go file of the module.
func goFiles(t *testing.T) []goFile {
	t.Helper()
	types := map[string]map[string]ast.Expr{}
	var files []goFile
	for name := range goImports(t) {
		f := goFile{set: token.NewFileSet(), folder: path.Dir(name), types: types}
		var err error
		if f.tree, err = parser.ParseFile(f.set, filepath.FromSlash(name), nil, parser.ParseComments|parser.SkipObjectResolution); err != nil {
			t.Fatal(err)
		}
		if types[f.folder] == nil {
			types[f.folder] = map[string]ast.Expr{}
		}
		ast.Inspect(f.tree, func(n ast.Node) bool {
			if spec, ok := n.(*ast.TypeSpec); ok {
				types[f.folder][spec.Name.Name] = spec.Type
			}
			return true
		})
		files = append(files, f)
	}
	return files
}

// literals reads lit, whose type is written as of in that folder, and the
// literals in it that leave their type out.
func (f goFile) literals(lit *ast.CompositeLit, of ast.Expr, folder string, unnamed func(*ast.CompositeLit), checked *int) {
	within := func(value, of ast.Expr, folder string) {
		if inner, ok := value.(*ast.CompositeLit); ok && inner.Type == nil {
			f.literals(inner, of, folder, unnamed, checked)
		}
	}
	of, folder = f.written(of, folder)
	switch of := of.(type) {
	case *ast.StructType:
		*checked++
		if len(lit.Elts) >= keyedFrom {
			if _, named := lit.Elts[0].(*ast.KeyValueExpr); !named {
				unnamed(lit)
			}
		}
	case *ast.ArrayType:
		for _, value := range lit.Elts {
			if pair, ok := value.(*ast.KeyValueExpr); ok {
				value = pair.Value
			}
			within(value, of.Elt, folder)
		}
	case *ast.MapType:
		for _, value := range lit.Elts {
			if pair, ok := value.(*ast.KeyValueExpr); ok {
				within(pair.Key, of.Key, folder)
				within(pair.Value, of.Value, folder)
			}
		}
	}
}

// written follows the names of our types to how the type is written, and where.
func (f goFile) written(of ast.Expr, folder string) (ast.Expr, string) {
	for range 10 {
		var next ast.Expr
		switch of := of.(type) {
		case *ast.StarExpr:
			next = of.X
		case *ast.IndexExpr:
			next = of.X
		case *ast.Ident:
			next = f.types[folder][of.Name]
		case *ast.SelectorExpr:
			if name, ok := of.X.(*ast.Ident); ok {
				folder = f.imported(name.Name)
				next = f.types[folder][of.Sel.Name]
			}
		}
		if next == nil {
			break
		}
		of = next
	}
	return of, folder
}

// imported returns the folder of ours that the file imports by that name.
func (f goFile) imported(name string) string {
	for _, spec := range f.tree.Imports {
		from, err := strconv.Unquote(spec.Path.Value)
		ours, ok := strings.CutPrefix(from, module+"/")
		if err == nil && ok && (path.Base(ours) == name || spec.Name != nil && spec.Name.Name == name) {
			return ours
		}
	}
	return ""
}
