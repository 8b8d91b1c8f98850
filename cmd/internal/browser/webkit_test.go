package browser

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// What WebKit prints is a fault, but for what comes of leaving a page, from then
// until the next begins. The lines are WebKitGTK 2.50's.
func TestWebKitLines(t *testing.T) {
	cutOff := []string{
		`http://localhost:39935/a/d9be/journal/crew/request.js:1:137: CONSOLE JS ERROR Fetch API cannot load http://localhost:39935/api/devices due to access control checks.`,
		`http://localhost:39935/devices: CONSOLE JS ERROR Cannot load http://localhost:39935/a/d9be/worker/worker.js due to access control checks.`,
		`CONSOLE JS ERROR Importing a module script failed.`,
	}
	ofCutOff := []Fault{
		{"exception", "Fetch API cannot load http://localhost:39935/api/devices due to access control checks."},
		{"exception", "Cannot load http://localhost:39935/a/d9be/worker/worker.js due to access control checks."},
		{"exception", "Importing a module script failed."},
	}
	never := []string{
		`CONSOLE JS ERROR Unhandled Promise Rejection: TypeError: Importing a module script failed.`,
		`http://localhost:39935/a/d9be/app.js:1:137: CONSOLE JS ERROR ReferenceError: Can't find variable: rig`,
		`CONSOLE ERROR lost`,
		`CRASHED`,
	}
	ofNever := []Fault{
		{"exception", "Unhandled Promise Rejection: TypeError: Importing a module script failed."},
		{"exception", "ReferenceError: Can't find variable: rig"},
		{"console", "lost"},
		{"crash", ErrCrashed.Error()},
	}
	for _, c := range []struct {
		name, turns string
		leaving     bool
	}{
		{name: "before any document"},
		{name: "a document", turns: "1 begins"},
		{name: "left", turns: "1 begins,1 is left", leaving: true},
		{name: "the next", turns: "1 begins,1 is left,1 begins"},
		{name: "left, while another window begins", turns: "1 begins,1 is left,2 begins", leaving: true},
	} {
		t.Run(c.name, func(t *testing.T) {
			var lines []string
			for _, turn := range strings.FieldsFunc(c.turns, func(r rune) bool { return r == ',' }) {
				lines = append(lines, "user-script:1:1:12: CONSOLE LOG window "+turn)
			}
			want := ofNever
			if !c.leaving {
				want = slices.Concat(ofCutOff, ofNever)
			}
			said, theirs, err := os.Pipe()
			if err != nil {
				t.Fatal(err)
			}
			if _, err := theirs.WriteString(strings.Join(slices.Concat(lines, cutOff, never), "\n")); err != nil {
				t.Fatal(err)
			}
			theirs.Close()
			p := &Page{}
			(&webkit{tabs: []*webkitTab{{page: p}}}).listen(said)
			if got := p.Faults(); !slices.Equal(got, want) {
				t.Errorf("the faults are %q, want %q", got, want)
			}
		})
	}
}

// A window that reads the look at any moment finds a whole one.
func TestWebKitLookIsWhole(t *testing.T) {
	k := &webkit{look: filepath.Join(t.TempDir(), "look")}
	if err := k.setLook("dark reduce"); err != nil {
		t.Fatal(err)
	}
	done := make(chan error)
	go func() {
		var err error
		for range 5000 {
			err = errors.Join(err, k.setLook("dark reduce"))
		}
		done <- err
	}()
	for {
		select {
		case err := <-done:
			if err != nil {
				t.Error(err)
			}
			return
		default:
		}
		if words, err := os.ReadFile(k.look); err != nil || string(words) != "dark reduce" {
			t.Errorf("the look is %q, %v", words, err)
			<-done
			return
		}
	}
}
