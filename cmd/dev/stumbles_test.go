package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// stumbles are turns over which people stumbled who read them aloud: none comes back.
var stumbles = regexp.MustCompile(`(?i)` + strings.Join([]string{
	`may you cut here`, `nothing is set before it can be read`, `\blook that\b (?:a|an|the|it|its|no|nothing)\b`, `a comfort, not a filter`, `cup of tea`, `ask its doctor`,
	`block it from its own weight`, `ladder leaned too far`, `lost is not found again`, `drives away with what you did`, `has a habit against it`,
	`earns nothing`, `would not have it`,
}, "|"))

// TestNothingStumbles reads what people are told: words, templates, calculators, guides and messages.
func TestNothingStumbles(t *testing.T) {
	for _, text := range []string{"Look that a plastic bowl has its guard.", "Cold air earns nothing."} {
		if !stumbles.MatchString(text) {
			t.Errorf("not found: %s", text)
		}
	}
	t.Chdir("../..")
	read := 0
	for _, dir := range []string{"calc", "guides", "pwa", "server", "cmd/kerfside"} {
		err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if d.IsDir() && (d.Name() == "gen" || d.Name() == "testdata") {
				return fs.SkipDir
			}
			if ext := filepath.Ext(path); ext != ".go" && ext != ".js" && ext != ".html" && ext != ".md" || strings.HasSuffix(path, "_test.go") {
				return nil
			}
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			read++
			for i, line := range strings.Split(string(text), "\n") {
				if found := stumbles.FindString(line); found != "" && !strings.HasPrefix(strings.TrimSpace(line), "//") {
					t.Errorf("%s:%d says %q", path, i+1, found)
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if read < 400 {
		t.Errorf("only %d files were read", read)
	}
}
