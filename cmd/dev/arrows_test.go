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
	"calc/job":      set("sync"),
	"calc/life":     set("sync"),
	"calc/source":   set("sync"),
	"calc/sheet":    set("unicode/utf8"),
	"calc/ics":      set("unicode/utf8"),
	"calc/outside":  set("bytes", "encoding/xml", "os", "os/exec", "path/filepath", "runtime", "testing"), // see TestOnlyTestsImport

	"calc/listen/listentest": set("bytes", "encoding/binary", "math/rand/v2"), // see TestOnlyTestsImport

	"calc/journal/event":    set("bytes", "crypto/sha256", "encoding/base64", "encoding/hex", "sync", "unicode/utf8"),
	"calc/journal/exchange": set("bytes", "encoding/hex"),
	"calc/journal/fold":     set("bytes", "encoding/hex"),
	"calc/journal/engine":   set("bytes"),
	"calc/journal/book":     set("unicode"),

	"calc/journal/journaltest": set("bytes", "flag", "math/rand/v2", "os", "runtime", "testing", "pgregory.net/rapid"), // see TestOnlyTestsImport
}

// journal is where the packages of the journal lie.
const journal = "calc/journal"

// journalMayImport says for each package of the journal which others of them its
// code may import: what events are knows of nothing, how they travel and what they
// mean know of events and not of each other, and what runs on a phone knows all. The
// packages' own tests keep to it too, but for journaltest.
var journalMayImport = map[string][]string{
	"event":       {},
	"exchange":    {"event"},
	"fold":        {"event"},
	"book":        {"event", "fold"},
	"engine":      {"event", "exchange", "fold", "book"},
	"journaltest": {"event"},
}

// serverMayImport are the packages of the journal that the code of server and
// server/store may import: it passes events on and computes nothing of what they
// mean. Their tests stand in for phones and may import all.
var serverMayImport = []string{"event", "exchange"}

// mayImport says for every top folder which others its code may import; every
// folder may import itself. This is the arrow calc ← guides, server/… ← server
// ← cmd, with pwa standing alone.
var mayImport = map[string][]string{
	"calc":           {},
	"pwa":            {},
	"guides":         {"calc"},
	"server/disk":    {},
	"server/store":   {"calc", "server/disk"},
	"server/backup":  {"calc", "server/disk", "server/store"},
	"server/move":    {"calc", "server/disk", "server/store"},
	"server/metrics": {},
	"server/assets":  {"calc", "guides", "pwa"},
	"server":         {"calc", "guides", "pwa", "server/assets", "server/disk", "server/metrics", "server/store"},
	"cmd":            {"calc", "guides", "pwa", "server", "server/backup", "server/metrics", "server/move", "server/store"},
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

func TestArrowsOfTheJournal(t *testing.T) {
	seen := map[string]int{}
	for path, imports := range goImports(t) {
		test := strings.HasSuffix(path, "_test.go")
		dir := filepath.ToSlash(filepath.Dir(path))
		from, ofJournal := strings.CutPrefix(dir, journal+"/")
		may := serverMayImport
		switch {
		case dir == journal:
			t.Errorf("%s: %s itself holds no Go", path, journal)
			continue
		case ofJournal:
			ok := false
			if may, ok = journalMayImport[from]; !ok {
				t.Errorf("%s: the journal has no package %s", path, from)
			}
			if test {
				may = append(slices.Clone(may), from, "journaltest") // from: a test from outside it
			}
		case test || folder(path) != "server" && folder(path) != "server/store" || strings.HasPrefix(dir, "server/store/storetest"):
			continue
		}
		for _, imported := range imports {
			if to, ok := strings.CutPrefix(imported, module+"/"+journal+"/"); ok {
				seen[to]++
				if !slices.Contains(may, to) {
					t.Errorf("%s imports %s; of the journal it may import %v only", path, imported, may)
				}
			}
		}
	}
	for _, name := range []string{"event", "exchange", "fold"} {
		if seen[name] < 2 {
			t.Errorf("%d files import %s: this test looks in the wrong place", seen[name], name)
		}
	}
}

// forTests are the packages that only tests import, and what else may beside them:
// what runs other people's programs, for the task that installs them, and what draws
// journals or makes sounds.
var forTests = map[string]string{"calc/outside": "cmd", journal + "/journaltest": "", "calc/listen/listentest": ""}

func TestOnlyTestsImport(t *testing.T) {
	users := map[string]int{}
	for path, imports := range goImports(t) {
		for name, beside := range forTests {
			if !slices.Contains(imports, module+"/"+name) {
				continue
			}
			users[name]++
			if !strings.HasSuffix(path, "_test.go") && folder(path) != beside {
				t.Errorf("%s imports %s; only tests may", path, name)
			}
		}
	}
	for name := range forTests {
		if users[name] < 2 {
			t.Errorf("%d files import %s: this test looks in the wrong place", users[name], name)
		}
	}
}

// TestTheServerCarriesNoFold asks the linker: nothing of what a journal means is in
// the program that a crew's server runs.
func TestTheServerCarriesNoFold(t *testing.T) {
	t.Chdir("../..")
	program := filepath.Join(t.TempDir(), "kerfside")
	if err := cmd("go", "build", "-o", program, "./cmd/kerfside").quiet(); err != nil {
		t.Fatal(err)
	}
	symbols, err := cmd("go", "tool", "nm", program).output()
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]bool{"event": true, "exchange": true, "fold": false, "engine": false} {
		if carries := strings.Contains(symbols, module+"/"+journal+"/"+name+"."); carries != want {
			t.Errorf("cmd/kerfside carries %s/%s: %v, want %v", journal, name, carries, want)
		}
	}
}

// Tables are the store's: a backup asks it and speaks no SQL.
func TestBackupSpeaksNoSQL(t *testing.T) {
	for path, imports := range goImports(t) {
		if folder(path) == "server/backup" && !strings.HasSuffix(path, "_test.go") && slices.Contains(imports, "database/sql") {
			t.Errorf("%s imports database/sql; only server/store may", path)
		}
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
			var imports []string
			for _, spec := range file.Imports {
				name, err := strconv.Unquote(spec.Path.Value)
				if err != nil {
					return err
				}
				imports = append(imports, name)
			}
			all[filepath.ToSlash(path)] = imports
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
