package main

import (
	"flag"
	"strings"
	"testing"

	"kerfside/cmd/internal/command"
)

// TestExamples: each example reads well, and is one of the command that shows it.
func TestExamples(t *testing.T) {
	t.Chdir(t.TempDir())
	read := 0
	program.Walk(func(path string, c *command.Command, _ *flag.FlagSet) {
		for _, e := range c.Examples {
			words := strings.Fields(e.Line)
			if _, err := program.Read(words[1:]); err != nil || !strings.HasPrefix(e.Line, path) || e.Does == "" {
				t.Errorf("the example %q of %s: %v", e.Line, path, err)
			}
			read++
		}
		if c.About == "" || strings.HasSuffix(c.About, ".") || (c.Declare == nil) == (len(c.Verbs) == 0) {
			t.Errorf("%s is declared by halves", path)
		}
	})
	if read < len(program.Verbs) {
		t.Errorf("%d examples for %d commands", read, len(program.Verbs))
	}
}
