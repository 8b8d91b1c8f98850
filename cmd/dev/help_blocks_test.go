package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"kerfside/server/help"
)

// asked is how a test asks for a block of a page.
var asked = regexp.MustCompile(`help\.Block\("([\w-]+)", "([\w-]+)"\)`)

// Every command that a page of /help shows is run by a test, as it stands there.
func TestEachBlockIsRun(t *testing.T) {
	t.Chdir("../..")
	run := map[string]bool{}
	for _, dir := range []string{"cmd", "server"} {
		err := walkFiles(dir, func(path string) error {
			if !strings.HasSuffix(path, "_test.go") || strings.Contains(path, "node_modules") {
				return nil
			}
			src, err := os.ReadFile(path)
			for _, m := range asked.FindAllStringSubmatch(string(src), -1) {
				run[m[1]+" "+m[2]] = true
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	seen := map[string]bool{}
	for _, p := range help.Pages() {
		for _, f := range p.Fences() {
			at := filepath.Join("server", "help", p.Name+".md")
			switch key := p.Name + " " + f.Name; {
			case f.Language == "text" && f.Name == "":
			case f.Name == "":
				t.Errorf("%s:%d: a block of commands needs a name, by which a test runs it", at, f.Line)
			case !run[key]:
				t.Errorf("%s:%d: no test asks for help.Block(%q, %q)", at, f.Line, p.Name, f.Name)
			case seen[key]:
				t.Errorf("%s:%d: there are two blocks %q", at, f.Line, f.Name)
			default:
				seen[key] = true
			}
		}
	}
	for key := range run {
		if !seen[key] {
			t.Errorf("a test asks for the block %q, which no page has", key)
		}
	}
}
