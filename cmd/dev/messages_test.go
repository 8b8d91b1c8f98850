package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var (
	sentenceEnd = regexp.MustCompile(`[.!?:;](?:\s|$)`)
	sql         = regexp.MustCompile(`\b(?:SELECT|INSERT|UPDATE|DELETE|CREATE|FROM)\b`)
)

// TestMessagesAreShort reads what the program and its server tell an owner: no sentence of more
// than 18 words. The calculators' own are read in calc/registry.
func TestMessagesAreShort(t *testing.T) {
	t.Chdir("../..")
	read := 0
	for _, dir := range []string{"server", "cmd/kerfside", "cmd/wasm", "calc/journal"} {
		err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
			if err != nil || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
				return err
			}
			fset := token.NewFileSet()
			file, err := parser.ParseFile(fset, path, nil, 0)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				lit, ok := n.(*ast.BasicLit)
				if !ok || lit.Kind != token.STRING {
					return true
				}
				text, err := strconv.Unquote(lit.Value)
				if err != nil || sql.MatchString(text) {
					return true
				}
				for _, one := range sentenceEnd.Split(text, -1) {
					read++
					if n := len(strings.Fields(one)); n > 18 {
						t.Errorf("%s: %d words in one sentence: %s", fset.Position(lit.Pos()), n, one)
					}
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if read < 1000 {
		t.Errorf("only %d sentences were read", read)
	}
}
