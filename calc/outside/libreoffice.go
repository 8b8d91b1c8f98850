package outside

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// Spreadsheet lets LibreOffice open each CSV file, with that separator, and save it in
// another format: "fods" for what is in the cells, "csv" for a file as it writes one. It
// fails if LibreOffice complains of a file. A profile of its own begins with what
// LibreOffice does where nobody has set anything.
func Spreadsheet(t testing.TB, files []string, separator byte, format string) []string {
	t.Helper()
	if err := Calc.Find(); err != nil {
		absent(t, err)
	}
	const utf8 = "76" // as LibreOffice counts codes
	dir := t.TempDir()
	args := []string{"-env:UserInstallation=file://" + filepath.Join(dir, "profile"), "--headless",
		fmt.Sprintf("--infilter=CSV:%d,34,%s,1", separator, utf8), "--convert-to", format, "--outdir", filepath.Join(dir, "out")}
	for i, file := range files {
		name := filepath.Join(dir, fmt.Sprintf("%d.csv", i))
		if err := os.WriteFile(name, []byte(file), 0o600); err != nil {
			t.Fatal(err)
		}
		args = append(args, name)
	}
	var said strings.Builder
	cmd := exec.Command(Calc.Program, args...)
	cmd.Stderr = &said
	cmd.Env = append(os.Environ(), "LC_ALL=C.UTF-8", "HOME="+dir)
	if err := cmd.Run(); err != nil {
		t.Fatalf("LibreOffice: %v\n%s", err, said.String())
	}
	for line := range strings.Lines(said.String()) {
		if !strings.Contains(line, "javaldx") { // it would like to have Java, for other things
			t.Errorf("LibreOffice says: %s", line)
		}
	}
	saved := make([]string, len(files))
	for i := range files {
		data, err := os.ReadFile(filepath.Join(dir, "out", fmt.Sprintf("%d.%s", i, format)))
		if err != nil {
			t.Fatalf("LibreOffice saved nothing: %v\n%s", err, said.String())
		}
		saved[i] = string(data)
	}
	return saved
}
