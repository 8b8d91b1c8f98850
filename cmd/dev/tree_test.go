package main

import (
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// The top level holds these, and besides them only dotfiles.
var (
	topFolders = set("cmd", "server", "calc", "pwa", "guides", "testdata")
	topFiles   = set("README.md", "DEVELOPERS.md", "go.mod", "go.sum")
)

// committed lists all files of the working copy that git has or would take.
func committed(t *testing.T) []string {
	t.Helper()
	t.Chdir("../..")
	out, err := exec.Command("git", "ls-files", "--cached", "--others", "--exclude-standard").Output()
	if err != nil {
		t.Fatalf("git ls-files: %v", err)
	}
	return strings.Split(strings.TrimSpace(string(out)), "\n")
}

func TestTopLevel(t *testing.T) {
	met := map[string]bool{}
	for _, path := range committed(t) {
		top, _, inFolder := strings.Cut(path, "/")
		met[top] = true
		allowed := strings.HasPrefix(top, ".") || inFolder && topFolders[top] || !inFolder && topFiles[top]
		if !allowed {
			t.Errorf("%s does not belong to the top level", path)
		}
	}
	for _, want := range []map[string]bool{topFolders, topFiles} {
		for name := range want {
			if !met[name] {
				t.Errorf("%s is missing", name)
			}
		}
	}
}

// No lock file names the registry that it was made with.
func TestNoRegistryIsNamed(t *testing.T) {
	locks := 0
	for _, path := range committed(t) {
		if !strings.HasSuffix(path, "package-lock.json") {
			continue
		}
		locks++
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(data), `"resolved"`) {
			t.Errorf("%s names a registry (\"resolved\"); make it again in its folder, whose .npmrc leaves it out", path)
		}
	}
	if locks == 0 {
		t.Error("no package-lock.json found")
	}
}

var devCommand = regexp.MustCompile(`go run \./cmd/dev ([a-z]+)`)

// Every task that the documents name exists, and the documents name every task
// or the command that lists them.
func TestDocumentsNameTasks(t *testing.T) {
	t.Chdir("../..")
	for _, doc := range []struct {
		name string
		must []string
	}{
		{"README.md", []string{"serve", "test"}},
		{"DEVELOPERS.md", []string{"serve", "test", "build", "bench", "shots", "soak", "new"}},
	} {
		data, err := os.ReadFile(doc.name)
		if err != nil {
			t.Error(err)
			continue
		}
		var named []string
		for _, m := range devCommand.FindAllStringSubmatch(string(data), -1) {
			named = append(named, m[1])
			if !slices.ContainsFunc(tasks, func(k task) bool { return k.name == m[1] }) {
				t.Errorf("%s names the task %s, which does not exist", doc.name, m[1])
			}
		}
		for _, want := range doc.must {
			if !slices.Contains(named, want) {
				t.Errorf("%s does not name: go run ./cmd/dev %s", doc.name, want)
			}
		}
	}
}
