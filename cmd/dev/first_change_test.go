package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// guide is where the first changes are described.
const guide = "DEVELOPERS.md"

// copiesBuild has the Go command take from its cache what was built in another copy
// of the module: without it the path of each copy goes into all that is built there.
const copiesBuild = "-trimpath"

// change is one of them: a heading that says how many files it touches, and steps.
type change struct {
	title string
	files int
	steps []changeStep
}

// changeStep is a fenced block: "diff PATH" and "new PATH" change a file, "sh" is run.
type changeStep struct{ what, path, text string }

var (
	changeTitle = regexp.MustCompile(`(?m)^### (A .*) \((\d+) files\)$`)
	changeBlock = regexp.MustCompile("(?ms)^```(diff|new|sh) ?(\\S*)\n(.*?)^```$")
)

// firstChanges reads the changes that the guide describes.
func firstChanges(t *testing.T) []change {
	t.Helper()
	text, err := os.ReadFile(guide)
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(text), "\n## A first change\n")
	section, _, ended := strings.Cut(rest, "\n## ")
	if !found || !ended {
		t.Fatalf("%s has no section of first changes", guide)
	}
	var list []change
	at := changeTitle.FindAllStringSubmatchIndex(section, -1)
	for i, m := range at {
		end := len(section)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		n, err := strconv.Atoi(section[m[4]:m[5]])
		if err != nil {
			t.Fatal(err)
		}
		c := change{title: section[m[2]:m[3]], files: n}
		for _, b := range changeBlock.FindAllStringSubmatch(section[m[1]:end], -1) {
			c.steps = append(c.steps, changeStep{what: b[1], path: b[2], text: b[3]})
		}
		list = append(list, c)
	}
	return list
}

// TestFirstChanges makes each change that the guide describes, in a copy of the module:
// every line of it fits, and it touches as many files as its heading says. The long run
// runs its commands there too.
func TestFirstChanges(t *testing.T) {
	t.Chdir("../..")
	t.Setenv("GOFLAGS", copiesBuild)
	list := firstChanges(t)
	if len(list) != 3 {
		t.Fatalf("%s describes %d first changes, not three", guide, len(list))
	}
	for _, c := range list {
		t.Run(strings.ReplaceAll(c.title, " ", "-"), func(t *testing.T) {
			dir := copyOfModule(t)
			touched := map[string]bool{}
			for _, s := range c.steps {
				before := contentsOf(t, dir)
				if err := s.make(t, dir); err != nil {
					t.Fatal(err)
				}
				if s.what == "sh" && !startsCalculator(s.text) {
					continue // what follows from the change is not written by hand
				}
				for path, text := range contentsOf(t, dir) {
					if before[path] != text {
						touched[path] = true
					}
				}
			}
			if len(touched) != c.files && !t.Failed() {
				t.Errorf("it touches %d files, its heading says %d: %v", len(touched), c.files, touched)
			}
		})
	}
}

// make makes one step in a copy of the module. Commands take minutes: the short run
// only starts the calculator, without its tests.
func (s changeStep) make(t *testing.T, dir string) error {
	path := filepath.Join(dir, filepath.FromSlash(s.path))
	switch s.what {
	case "new":
		return writeNew(path, []byte(s.text))
	case "diff":
		return patch(path, s.text)
	}
	for _, line := range strings.Split(strings.TrimSpace(s.text), "\n") {
		words := strings.Fields(line)
		if os.Getenv("KERFSIDE_LONG") != "" {
			if err := cmd(words[0], words[1:]...).in(dir).with("KERFSIDE_LONG=").quiet(); err != nil {
				return err
			}
		} else if startsCalculator(line) {
			c, err := describeCalculator(words[4], words[5])
			if err != nil {
				return err
			}
			t.Chdir(dir)
			return c.write()
		}
	}
	return nil
}

// startsCalculator reports whether a command writes files that stay with their author.
func startsCalculator(line string) bool { return strings.HasPrefix(line, "go run ./cmd/dev new ") }

// copyOfModule copies what git has or would take, and lends the copy what the tasks
// have set up here.
func copyOfModule(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for path, text := range contentsOf(t, ".") {
		to := filepath.Join(dir, filepath.FromSlash(path))
		if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(to, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	modules := filepath.Join("cmd", "dev", "npm", "node_modules")
	there, err := filepath.Abs(modules)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(there, filepath.Join(dir, modules)); err != nil {
		t.Fatal(err)
	}
	return dir
}

// contentsOf returns the files of a module by their path, without what tasks make.
func contentsOf(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	for top := range topFolders {
		err := filepath.WalkDir(filepath.Join(dir, top), func(path string, e fs.DirEntry, err error) error {
			switch {
			case err != nil:
				return err
			case e.Name() == "node_modules":
				return skip(e)
			case e.IsDir() || strings.HasSuffix(filepath.Dir(path), filepath.Join("pwa", "gen")) && e.Name() != "README.md":
				return nil
			}
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			name, err := filepath.Rel(dir, path)
			all[filepath.ToSlash(name)] = string(text)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	for name := range topFiles {
		text, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		all[name] = string(text)
	}
	if len(all) < 500 {
		t.Fatalf("%d files in %s: this test looks in the wrong place", len(all), dir)
	}
	return all
}

// skip passes a folder, or a link to one, over.
func skip(e fs.DirEntry) error {
	if e.IsDir() {
		return fs.SkipDir
	}
	return nil
}

// patch makes the change of a diff: lines with a space or a minus stand in the file one
// after the other, once; lines with a plus come in, those with a minus go.
func patch(path, diff string) error {
	var was, is strings.Builder
	for _, line := range strings.SplitAfter(diff, "\n") {
		if line == "" {
			continue
		}
		if line[0] != '+' {
			was.WriteString(line[1:])
		}
		if line[0] != '-' {
			is.WriteString(line[1:])
		}
	}
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	if n := bytes.Count(text, []byte(was.String())); n != 1 {
		return fmt.Errorf("%s has these lines %d times, not once:\n%s", path, n, was.String())
	}
	return os.WriteFile(path, bytes.Replace(text, []byte(was.String()), []byte(is.String()), 1), 0o644)
}
