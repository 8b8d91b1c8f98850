package main

import (
	"bytes"
	"io"
	"strings"
	"testing"

	cli "kerfside/cmd/internal/command"
)

// TestMistyped: a task, a flag or a word that there is not is told in two lines,
// before anything is done, and ends in the status for that.
func TestMistyped(t *testing.T) {
	t.Chdir(".") // tasks go to the top of the module
	for line, says := range map[string][2]string{
		"tset":               {`no task "tset"`, "Do you mean test?"},
		"test -lon":          {"has no flag -lon", "Do you mean -long?"},
		"test -only jurneys": {`no step "jurneys"`, "Do you mean journeys?"},
		"test long":          {`what "long" is`, "-long"},
		"bench -only snyc":   {`no part "snyc"`, "Do you mean sync?"},
		"build -out x":       {"has no flag -out", "-o"},
		"soak -for long":     {`cannot take "long" for -for`, "-for 10m"},
		"shots x":            {`what "x" is`, "-o"},
		"faults -x":          {"has no flag -x", "no flags"},
		"types x":            {`what "x" is`, "alone"},
		"new air":            {"a package of calc and a name", "air air-dryness"},
	} {
		var told bytes.Buffer
		status := complain(&told, dispatch(strings.Fields(line), io.Discard))
		lines := strings.Split(strings.TrimRight(told.String(), "\n"), "\n")
		if status != cli.Usage || len(lines) != 2 || !strings.Contains(lines[0], says[0]) || !strings.Contains(lines[1], says[1]) {
			t.Errorf("%s: status %d, %q; want %q in two lines", line, status, told.String(), says)
		}
	}
}
