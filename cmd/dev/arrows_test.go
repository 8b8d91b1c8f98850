package main

import (
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// module is our own import path.
const module = "kerfside"

// calcAllowed is all that calc may import besides itself: nothing that can fail
// for a reason outside its input, wait, or change. The list also guards the
// size of the wasm.
var calcAllowed = set("cmp", "errors", "fmt", "math", "slices", "sort", "strconv", "strings", "encoding/json",
	"gonum.org/v1/gonum/mathext")

// calcExtra is what single packages of calc may import on top: sync where
// something is made once, when it is first asked for.
var calcExtra = map[string]map[string]bool{
	"calc/diagnose": set("sync"),
	"calc/form":     set("sync"),
	"calc/source":   set("sync"),
	"calc/outside":  set("bytes", "os", "os/exec", "path/filepath", "runtime", "testing"), // see TestOutsideIsForTests
	"calc/journal":  set("bytes", "crypto/sha256", "encoding/base64", "encoding/hex", "unicode/utf8"),
}

// mayImport says for every top folder which others its code may import; every
// folder may import itself. This is the arrow calc ← guides, server/… ← server
// ← cmd, with pwa standing alone.
var mayImport = map[string][]string{
	"calc":          {},
	"pwa":           {},
	"guides":        {"calc"},
	"server/store":  {"calc"},
	"server/assets": {"calc", "guides", "pwa"},
	"server":        {"calc", "guides", "pwa", "server/assets", "server/store"},
	"cmd":           {"calc", "guides", "pwa", "server", "server/store"},
}

func TestArrows(t *testing.T) {
	for path, imports := range goImports(t) {
		from := folder(path)
		for _, imported := range imports {
			to, ours := strings.CutPrefix(imported, module+"/")
			if ours && folder(to) != from && !slices.Contains(mayImport[from], folder(to)) {
				t.Errorf("%s imports %s; %s may import %v only", path, imported, from, mayImport[from])
			}
		}
	}
}

func TestCalcImports(t *testing.T) {
	for path, imports := range goImports(t) {
		if folder(path) != "calc" || strings.HasSuffix(path, "_test.go") {
			continue
		}
		for _, imported := range imports {
			extra := calcExtra[filepath.ToSlash(filepath.Dir(path))]
			if !strings.HasPrefix(imported, module+"/calc/") && !calcAllowed[imported] && !extra[imported] {
				t.Errorf("%s imports %q; calc may not", path, imported)
			}
		}
	}
}

// What runs other people's programs is for tests, and for the task that installs them.
func TestOutsideIsForTests(t *testing.T) {
	users := 0
	for path, imports := range goImports(t) {
		if !slices.Contains(imports, module+"/calc/outside") {
			continue
		}
		users++
		if !strings.HasSuffix(path, "_test.go") && folder(path) != "cmd" {
			t.Errorf("%s imports calc/outside; only tests may", path)
		}
	}
	if users < 2 {
		t.Errorf("%d files import calc/outside: this test looks in the wrong place", users)
	}
}

// The wasm's only door to the browser is one file.
func TestOneDoorToTheBrowser(t *testing.T) {
	var doors []string
	for path, imports := range goImports(t) {
		if slices.Contains(imports, "syscall/js") {
			doors = append(doors, path)
		}
	}
	if len(doors) != 1 || filepath.Dir(doors[0]) != filepath.FromSlash("cmd/wasm") {
		t.Errorf("syscall/js is imported by %v, want one file of cmd/wasm", doors)
	}
}

// goImports returns the imports of every Go file of the module by its path
// from the top. Test files keep the arrows too.
func goImports(t *testing.T) map[string][]string {
	t.Helper()
	t.Chdir("../..")
	all := map[string][]string{}
	for dir := range topFolders {
		err := walkFiles(dir, func(path string) error {
			if !strings.HasSuffix(path, ".go") || strings.Contains(path, "node_modules") {
				return nil
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
			if err != nil {
				return err
			}
			for _, spec := range file.Imports {
				name, err := strconv.Unquote(spec.Path.Value)
				if err != nil {
					return err
				}
				all[filepath.ToSlash(path)] = append(all[filepath.ToSlash(path)], name)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if len(all) < 10 {
		t.Fatalf("only %d Go files found: this test looks in the wrong place", len(all))
	}
	return all
}

// folder returns the part of the module that a path belongs to.
func folder(path string) string {
	path = filepath.ToSlash(path)
	for room := range mayImport { // one within another folder has a name of two words
		if strings.Contains(room, "/") && (path == room || strings.HasPrefix(path, room+"/")) {
			return room
		}
	}
	top, _, _ := strings.Cut(path, "/")
	return top
}

func set(words ...string) map[string]bool {
	all := map[string]bool{}
	for _, w := range words {
		all[w] = true
	}
	return all
}
