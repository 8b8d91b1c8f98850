package main

import (
	"bytes"
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// What a calculator's declaration says for its form and for the search alone is on the
// phone in calculators.json, and the sums never read it. So calc.wasm is built of the
// sources without it: without these fields of the types of package form, so that the
// compiler holds that nobody reads them, and without what calculators.json is made by.
var shownAlone = map[string][]string{
	"Calculator": {"Title", "About", "Place", "Terms", "Together"},
	"Field":      {"Help", "Chips", "ChipsUS", "Known"},
	"Result":     {"Main"},
	"Each":       {"Name", "Row", "LeftChips", "RightChips"},
}

// describes are what makes calculators.json: a file, and a function beside others.
const (
	describeFile     = "calc/form/describe.go"
	describeFunction = "Describe"
	formPackage      = module + "/calc/form"
)

// writeOverlay writes into a folder the sources of calc without what is shown alone, and
// returns the file by which the Go command takes them for the others.
func writeOverlay(to string) (string, error) {
	root, err := cmd("go", "list", "-m", "-f", "{{.Dir}}").output()
	if err != nil {
		return "", err
	}
	root = strings.TrimSpace(root)
	replace := map[string]string{filepath.Join(root, describeFile): ""}
	err = filepath.WalkDir(filepath.Join(root, "calc"), func(path string, entry fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
			return err
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		short, err := withoutShown(path, text)
		if err != nil || bytes.Equal(short, text) {
			return err
		}
		name, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		if _, gone := replace[path]; gone {
			return nil
		}
		replace[path] = filepath.Join(to, strings.ReplaceAll(filepath.ToSlash(name), "/", "_"))
		return os.WriteFile(replace[path], short, 0o644)
	})
	if err != nil {
		return "", err
	}
	list, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return "", err
	}
	overlay := filepath.Join(to, "overlay.json")
	return overlay, os.WriteFile(overlay, list, 0o644)
}

// withoutShown returns a source file without what is shown alone. Every line stays where
// it is, and what only those parts imported is imported for nothing.
func withoutShown(path string, text []byte) ([]byte, error) {
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, path, text, parser.SkipObjectResolution|parser.ParseComments)
	if err != nil {
		return nil, err
	}
	s := shownParts{text: slices.Clone(text), set: set}
	for _, i := range file.Imports {
		if strings.Trim(i.Path.Value, `"`) == formPackage {
			s.form = "form"
		}
	}
	s.here = file.Name.Name == "form"
	if !s.here && s.form == "" {
		return text, nil
	}
	for _, d := range file.Decls {
		if f, ok := d.(*ast.FuncDecl); ok && f.Name.Name == describeFunction && f.Recv == nil {
			s.cut(f.Pos(), f.End())
		}
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CompositeLit:
			s.literal(n, s.name(n.Type))
			if of, ok := n.Type.(*ast.ArrayType); ok {
				for _, e := range n.Elts {
					if e, ok := e.(*ast.CompositeLit); ok && e.Type == nil {
						s.literal(e, s.name(of.Elt))
					}
				}
			}
		case *ast.TypeSpec:
			if of, ok := n.Type.(*ast.StructType); ok && s.here {
				for _, f := range of.Fields.List {
					if len(f.Names) == 1 && slices.Contains(shownAlone[n.Name.Name], f.Names[0].Name) {
						s.cut(f.Pos(), f.End())
					}
				}
			}
		}
		return true
	})
	// what is imported is named in what is left, or for nothing
	left, err := parser.ParseFile(token.NewFileSet(), path, s.text, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	named := map[string]bool{}
	ast.Inspect(left, func(n ast.Node) bool {
		if of, ok := n.(*ast.SelectorExpr); ok {
			if x, ok := of.X.(*ast.Ident); ok {
				named[x.Name] = true
			}
		}
		return true
	})
	short := s.text
	for _, i := range slices.Backward(file.Imports) {
		path := strings.Trim(i.Path.Value, `"`)
		if i.Name == nil && !named[path[strings.LastIndex(path, "/")+1:]] && !unusualName(path) {
			at := set.Position(i.Pos()).Offset
			short = slices.Insert(short, at, []byte("_ ")...)
		}
	}
	return short, nil
}

// unusualName says whether a package may be named otherwise than its path ends.
func unusualName(path string) bool {
	return strings.Contains(path, ".") || strings.HasSuffix(path, "/v2")
}

// shownParts is a source whose parts are blanked.
type shownParts struct {
	text []byte
	set  *token.FileSet
	form string // how it names package form
	here bool   // whether it belongs to that itself
}

// name returns which type of package form that is, "" if it is none.
func (s shownParts) name(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		if s.here {
			return e.Name
		}
	case *ast.SelectorExpr:
		if x, ok := e.X.(*ast.Ident); ok && s.form != "" && x.Name == s.form {
			return e.Sel.Name
		}
	}
	return ""
}

func (s shownParts) literal(l *ast.CompositeLit, of string) {
	for i, e := range l.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			if key, ok := kv.Key.(*ast.Ident); ok && slices.Contains(shownAlone[of], key.Name) {
				end := l.Rbrace
				if i+1 < len(l.Elts) {
					end = l.Elts[i+1].Pos()
				}
				s.cut(kv.Pos(), end)
			}
		}
	}
}

// cut blanks a part but for its ends of lines.
func (s shownParts) cut(from, to token.Pos) {
	for i := s.set.Position(from).Offset; i < s.set.Position(to).Offset; i++ {
		if s.text[i] != '\n' {
			s.text[i] = ' '
		}
	}
}
