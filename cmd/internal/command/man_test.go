package command

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestMan has mandoc look at a page with a date and with what roff could read
// something into.
func TestMan(t *testing.T) {
	if _, err := exec.LookPath("mandoc"); err != nil {
		if os.Getenv("KERFSIDE_LONG") != "" {
			t.Fatal("no mandoc: go run ./cmd/dev test -long installs it")
		}
		t.Skip("no mandoc here")
	}
	odd := tool
	odd.More = ".hidden at the start. 'quoted' too, \\fBslashed\\fP and \"so\".\n\nMore."
	var out bytes.Buffer
	if err := odd.Man(&out, Manual{Date: "2026-11-30", Version: "v1.2.3", More: []Section{{Title: "SEE ALSO", Text: "Nothing."}}}); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "tool.1")
	if err := os.WriteFile(file, out.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	if said, err := exec.Command("mandoc", "-Tlint", file).CombinedOutput(); err != nil || len(said) > 0 {
		t.Errorf("mandoc: %v, %s", err, said)
	}
	shown, err := exec.Command("mandoc", "-Tascii", file).Output()
	if err != nil {
		t.Fatal(err)
	}
	plain := strings.Join(strings.Fields(string(shown)), " ")
	for _, sought := range []string{`.hidden at the start. 'quoted' too, \fBslashed\fP and "so".`, "tool v1.2.3 2026-11-30", `of "it's" and $HOME`} {
		if !strings.Contains(plain, sought) {
			t.Errorf("the page does not show %q:\n%s", sought, plain)
		}
	}
}
