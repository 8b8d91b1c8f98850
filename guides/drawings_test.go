package guides

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// The list that lint trusts and the drawings that exist are one set.
func TestDrawingsMatchFiles(t *testing.T) {
	index := read(t, "../pwa/draw/index.js")
	imports := regexp.MustCompile(`(?m)^import \{ (\w+) \} from "\./([\w-]+)\.js";$`).FindAllStringSubmatch(index, -1)
	if len(imports) == 0 {
		t.Fatal("pwa/draw/index.js imports no drawing")
	}
	found := map[string]bool{}
	for _, m := range imports {
		function, name := m[1], m[2]
		found[name] = true
		params, listed := Drawings[name]
		if !listed {
			t.Errorf("drawing %s is not in drawings.go: add its parameters there", name)
			continue
		}
		if want := camel(name); function != want {
			t.Errorf("index.js imports %s from %s.js, want %s", function, name, want)
		}
		src := read(t, "../pwa/draw/"+name+".js")
		if want := "export function " + function + "("; !strings.Contains(src, want) {
			t.Errorf("pwa/draw/%s.js has no %q", name, want)
		}
		checkParams(t, name, src, params)
	}
	still, err := filepath.Glob("../pwa/draw/still/*.svg")
	if err != nil {
		t.Fatal(err)
	}
	for i, file := range still {
		still[i] = strings.TrimSuffix(filepath.Base(file), ".svg")
	}
	slices.Sort(still)
	if listed := slices.Sorted(slices.Values(StillDrawings)); !slices.Equal(still, listed) {
		t.Errorf("pwa/draw/still has %v, drawings.go lists %v", still, listed)
	}
	for name := range Drawings {
		if !found[name] {
			t.Errorf("drawings.go lists %q, but index.js does not import it", name)
		}
	}
}

// checkParams compares the listed parameters with those that the drawing types.
func checkParams(t *testing.T, name, src string, params map[string][]string) {
	t.Helper()
	typed := regexp.MustCompile(`@param \{\{([^}]*)\}\} params`).FindStringSubmatch(src)
	if typed == nil {
		t.Errorf("pwa/draw/%s.js does not type its params", name)
		return
	}
	for _, key := range regexp.MustCompile(`(\w+)\?: `).FindAllStringSubmatch(typed[1], -1) {
		if _, listed := params[key[1]]; !listed {
			t.Errorf("pwa/draw/%s.js takes %q, which drawings.go does not list", name, key[1])
		}
	}
	for key, words := range params {
		kind := "number"
		if len(words) > 0 {
			kind = "string"
		}
		if !regexp.MustCompile(`\b` + key + `\?: ` + kind).MatchString(typed[1]) {
			t.Errorf("pwa/draw/%s.js does not take %q as a %s, which drawings.go lists", name, key, kind)
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
