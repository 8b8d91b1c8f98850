package guides

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// drawingFiles are the files of pwa/draw that hold no drawing.
var drawingFiles = []string{"index.js", "svg.js", "marks.js", "words.js", "torch.js"}

// The list that lint trusts and the drawings that exist are one set.
func TestDrawingsMatchFiles(t *testing.T) {
	files, err := filepath.Glob("../pwa/draw/*.js")
	if err != nil || len(files) == 0 {
		t.Fatalf("no drawings found: %v", err)
	}
	index := read(t, "../pwa/draw/index.js")
	found := map[string]bool{}
	for _, file := range files {
		base := filepath.Base(file)
		if slices.Contains(drawingFiles, base) {
			continue
		}
		name := strings.TrimSuffix(base, ".js")
		found[name] = true
		params, listed := Drawings[name]
		if !listed {
			t.Errorf("pwa/draw/%s is not in drawings.go: add its parameters there", base)
			continue
		}
		src := read(t, file)
		if want := "export function " + camel(name) + "("; !strings.Contains(src, want) {
			t.Errorf("pwa/draw/%s has no %q", base, want)
		}
		if want := "import { " + camel(name) + " } from \"./" + base + "\""; !strings.Contains(index, want) {
			t.Errorf("pwa/draw/index.js lacks %q", want)
		}
		typed := regexp.MustCompile(`@param \{\{([^}]*)\}\} params`).FindStringSubmatch(src)
		if typed == nil {
			t.Errorf("pwa/draw/%s does not type its params", base)
			continue
		}
		for key := range params {
			if !regexp.MustCompile(`\b` + key + `\?:`).MatchString(typed[1]) {
				t.Errorf("pwa/draw/%s does not take %q, which drawings.go lists", base, key)
			}
		}
	}
	for name := range Drawings {
		if !found[name] {
			t.Errorf("drawings.go lists %q, but pwa/draw/%s.js does not exist", name, name)
		}
	}
}

// camel turns "cup-face" into "cupFace".
func camel(name string) string {
	words := strings.Split(name, "-")
	for i, w := range words[1:] {
		words[i+1] = strings.ToUpper(w[:1]) + w[1:]
	}
	return strings.Join(words, "")
}

func read(t testing.TB, file string) string {
	t.Helper()
	b, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}
