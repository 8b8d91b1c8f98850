package main

import (
	"encoding/json"
	"go/format"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/calc/vector"
)

// The scaffold compiles in a package of calculators, is listed there, and is
// formatted as gofmt would.
func TestScaffoldCompiles(t *testing.T) {
	t.Chdir("../..")
	c, err := describeCalculator("air", "air-scaffold-probe")
	if err != nil {
		t.Fatal(err)
	}
	code, err := c.fill("calculator.go.tmpl")
	if err != nil {
		t.Fatal(err)
	}
	if formatted, err := format.Source(code); err != nil || string(formatted) != string(code) {
		t.Errorf("the scaffold is not formatted: %v", err)
	}
	list, err := c.list()
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(list), "&AirScaffoldProbe,") {
		t.Errorf("the list does not name the new calculator:\n%s", list)
	}
	// The compiler sees both files where they would stand; nothing is written there.
	dir := t.TempDir()
	replace := map[string]string{}
	for path, text := range map[string][]byte{"calc/air/air_scaffold_probe.go": code, c.listPath(): list} {
		copied := filepath.Join(dir, filepath.Base(path))
		if err := os.WriteFile(copied, text, 0o644); err != nil {
			t.Fatal(err)
		}
		place, err := filepath.Abs(path)
		if err != nil {
			t.Fatal(err)
		}
		replace[place] = copied
	}
	overlay := filepath.Join(dir, "overlay.json")
	data, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(overlay, data, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := cmd("go", "build", "-overlay", overlay, "./calc/air").quiet(); err != nil {
		t.Error(err)
	}
}

// Its vectors are read, call it, and check against something published.
func TestScaffoldVectors(t *testing.T) {
	c, err := describeCalculator("air", "air-scaffold-probe")
	if err != nil {
		t.Fatal(err)
	}
	text, err := c.fill("vectors.txt.tmpl")
	if err != nil {
		t.Fatal(err)
	}
	cases, err := vector.Parse(string(text))
	if err != nil {
		t.Fatal(err)
	}
	published := 0
	for _, one := range cases {
		if one.Call != c.Name {
			t.Errorf("%q calls %s", one.Name, one.Call)
		}
		if one.Standing() == vector.Published {
			published++
		}
	}
	if published == 0 {
		t.Error("no vector of the scaffold shows how a published source is cited")
	}
}

func TestDescribeCalculator(t *testing.T) {
	got, err := describeCalculator("air", "air-dryness")
	if want := (newCalculator{Package: "air", Name: "air-dryness", Go: "AirDryness", Title: "Air dryness"}); err != nil || got != want {
		t.Errorf("describeCalculator = %+v, %v, want %+v", got, err, want)
	}
	for _, name := range []string{"", "Air", "air_dryness", "-air", "air-", "air dryness", "../air"} {
		if _, err := describeCalculator("air", name); err == nil {
			t.Errorf("the name %q was taken", name)
		}
	}
}
