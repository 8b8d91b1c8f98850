package browser

import (
	"os"
	"slices"
	"strings"
	"testing"
)

// What WebKit prints is a fault, but for what comes of leaving a page. The lines are
// WebKitGTK 2.50's.
func TestWebKitLines(t *testing.T) {
	said, theirs, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	lines := []string{
		`http://localhost:39935/a/d9be/journal/crew/ask.js:1:137: CONSOLE JS ERROR Fetch API cannot load http://localhost:39935/api/devices due to access control checks.`,
		`http://localhost:39935/devices: CONSOLE JS ERROR Cannot load http://localhost:39935/a/d9be/calc/worker.js due to access control checks.`,
		`CONSOLE JS ERROR Importing a module script failed.`,
		`CONSOLE JS ERROR Unhandled Promise Rejection: TypeError: Importing a module script failed.`,
		`http://localhost:39935/a/d9be/app.js:1:137: CONSOLE JS ERROR ReferenceError: Can't find variable: rig`,
		`CONSOLE ERROR lost`,
		`CRASHED`,
	}
	if _, err := theirs.WriteString(strings.Join(lines, "\n")); err != nil {
		t.Fatal(err)
	}
	theirs.Close()
	p := &Page{}
	(&webkit{tabs: []*webkitTab{{page: p}}}).listen(said)
	want := []Fault{
		{"exception", "Unhandled Promise Rejection: TypeError: Importing a module script failed."},
		{"exception", "ReferenceError: Can't find variable: rig"},
		{"console", "lost"},
		{"crash", ErrCrashed.Error()},
	}
	if got := p.Faults(); !slices.Equal(got, want) {
		t.Errorf("the faults are %q, want %q", got, want)
	}
}
