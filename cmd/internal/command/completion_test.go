package command

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// asks is how each shell is asked what completes a line, given as its words and the
// one that is begun, behind the script in a file.
var asks = map[string]func(script string, words []string) []string{
	"bash": func(script string, words []string) []string {
		return []string{"bash", "--norc", "-c", `source "$0"; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _tool; printf '%s\n' "${COMPREPLY[@]}"`, script}
	},
	"zsh": func(script string, words []string) []string {
		return []string{"zsh", "-f", "-c", `compadd() { shift; print -l -- ${(M)@:#$words[CURRENT]*} }; _files() { print -l -- *(N) }; source "$0"; words=("$@"); CURRENT=$#; _tool`, script}
	},
	"fish": func(script string, words []string) []string {
		return []string{"fish", "--no-config", "-c", `source $argv[1]; complete -C (string join ' ' -- $argv[2..]) | string replace -r '\t.*' ''`, script}
	},
}

// TestCompletion asks bash, zsh and fish themselves what they offer.
func TestCompletion(t *testing.T) {
	for shell, ask := range asks {
		t.Run(shell, func(t *testing.T) {
			if _, err := exec.LookPath(shell); err != nil {
				if os.Getenv("KERFSIDE_LONG") != "" {
					t.Fatalf("no %s: go run ./cmd/dev test -long installs it", shell)
				}
				t.Skipf("no %s here", shell)
			}
			dir := t.TempDir()
			script := filepath.Join(t.TempDir(), "script")
			var text bytes.Buffer
			if err := tool.Completion(shell, &text); err != nil {
				t.Fatal(err)
			}
			for path, content := range map[string][]byte{script: text.Bytes(), filepath.Join(dir, "a file.txt"): nil} {
				if err := os.WriteFile(path, content, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			for _, c := range []struct {
				line string // a blank at its end begins a word
				want []string
			}{
				{line: "tool ", want: []string{"box", "copy", "say", "show"}},
				{line: "tool s", want: []string{"say", "show"}},
				{line: "tool box ", want: []string{"open", "paint"}},
				{line: "tool box p", want: []string{"paint"}},
				{line: "tool box paint -", want: []string{"-colour", "-key"}},
				{line: "tool box paint -c", want: []string{"-colour"}},
				{line: "tool copy -d", want: []string{"-deep"}},
				{line: "tool copy a", want: []string{"a file.txt"}},
				{line: "tool copy -to x a", want: []string{"a file.txt"}},
				{line: "tool show ", want: []string{"crumbs", "rind"}},
				{line: "tool show r", want: []string{"rind"}},
				{line: "tool box paint -key ", want: nil},
				{line: "tool show -into a", want: []string{"a file.txt"}},
			} {
				words := strings.Split(c.line, " ")
				line := append(ask(script, words), words...)
				if shell == "fish" {
					line[4] = script
				}
				x := exec.Command(line[0], line[1:]...)
				x.Dir = dir
				x.Env = append(os.Environ(), "HOME="+dir)
				var told bytes.Buffer
				x.Stderr = &told
				out, _ := x.Output() // what it says shows below
				got := strings.FieldsFunc(strings.ReplaceAll(string(out), `\ `, " "), func(r rune) bool { return r == '\n' })
				slices.Sort(got)
				if !slices.Equal(got, c.want) || told.Len() > 0 {
					t.Errorf("%q is completed by %q, want %q; it says %q", c.line, got, c.want, told.String())
				}
			}
		})
	}
}
