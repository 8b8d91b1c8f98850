package main

import (
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/cmd/internal/command"
)

// TestManPage has mandoc look for what is wrong in the man page, and groff set it:
// each command with each of its flags is in what a reader sees.
func TestManPage(t *testing.T) {
	for _, tool := range []string{"mandoc", "man", "groff"} {
		if _, err := exec.LookPath(tool); err != nil {
			if os.Getenv("KERFSIDE_LONG") != "" {
				t.Fatalf("no %s: go run ./cmd/dev test -long installs it", tool)
			}
			t.Skipf("no %s here", tool)
		}
	}
	page := runBuilt(t, t.TempDir(), "man")
	file := filepath.Join(t.TempDir(), "kerfside.1")
	if err := os.WriteFile(file, []byte(page.out), 0o644); err != nil {
		t.Fatal(err)
	}
	said, _ := exec.Command("mandoc", "-Tlint", file).CombinedOutput() // it fails where it says something
	for _, line := range lines(string(said)) {
		if line != "" && (thisBuild().Committed != "" || !strings.Contains(line, `missing date, using "": TH`)) {
			t.Error(line)
		}
	}
	c := exec.Command("man", "--warnings", "-l", file)
	c.Env = append(os.Environ(), "MANWIDTH=300", "LC_ALL=C.UTF-8", "MANPAGER=cat")
	var told strings.Builder
	c.Stderr = &told
	set, err := c.Output()
	if err != nil || told.Len() > 0 {
		t.Errorf("man: %v, %q", err, told.String())
	}
	shown := strings.NewReplacer("‐", "-", "−", "-", "…", "...").Replace(string(set))
	shown = strings.Join(strings.Fields(shown), " ")
	var sought int
	program.Walk(func(path string, c *command.Command, flags *flag.FlagSet) {
		if len(c.Verbs) > 0 {
			return
		}
		at := strings.Index(shown, path+" [flags]")
		if at < 0 {
			at = strings.Index(shown, path)
		}
		if at < 0 {
			t.Errorf("the page does not show %s", path)
			return
		}
		flags.VisitAll(func(f *flag.Flag) {
			sought++
			if !strings.Contains(shown[at:], " -"+f.Name+" ") {
				t.Errorf("the page does not show -%s of %s", f.Name, path)
			}
		})
	})
	if sought < 20 {
		t.Errorf("only %d flags were looked for", sought)
	}
	for _, s := range command.Statuses {
		if !strings.Contains(shown, s.Means) {
			t.Errorf("the page does not show status %d", s.Code)
		}
	}
}

// TestCompletionInBash has bash complete lines of kerfside by what the built command
// prints for it.
func TestCompletionInBash(t *testing.T) {
	if _, err := exec.LookPath("bash"); err != nil {
		t.Skip("no bash here")
	}
	script := runBuilt(t, t.TempDir(), "completion", "bash")
	for line, want := range map[string]string{
		"kerfside cr":               "crew",
		"kerfside crew ren":         "rename",
		"kerfside serve -day-e":     "-day-entries",
		"kerfside crew -db x.db re": "rename",
		"kerfside calc cut-pl":      "cut-plan",
		"kerfside completion f":     "fish",
	} {
		words := strings.Fields(line)
		out, err := exec.Command("bash", append([]string{"--norc", "-c", script.out + "\nCOMP_WORDS=(\"$@\"); COMP_CWORD=$(($# - 1)); _kerfside; printf '%s\\n' \"${COMPREPLY[@]}\"", "-"}, words...)...).CombinedOutput()
		if got := strings.Join(strings.Fields(string(out)), " "); err != nil || !strings.HasPrefix(got, want) {
			t.Errorf("%q is completed by %q, %v; want %q", line, got, err, want)
		}
	}
}
