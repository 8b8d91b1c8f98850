package main

import (
	"strings"
	"testing"
)

func TestPackModule(t *testing.T) {
	const source = `// @ts-check
/** Says how it is. @param {string} text */
export function tell(text) {
  const longName = text.trim();
  return import("./words.js").then((words) => words.say(longName));
}
`
	got, err := packModule("tell.js", source)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"as tell}", `import("./words.js")`, ".say("} {
		if !strings.Contains(got, want) {
			t.Errorf("the packed module lacks %s: %s", want, got)
		}
	}
	for _, gone := range []string{"@ts-check", "Says how", "longName", "\n  "} {
		if strings.Contains(got, gone) {
			t.Errorf("the packed module still has %q: %s", gone, got)
		}
	}
}

func TestPackModuleNamesTheLine(t *testing.T) {
	_, err := packModule("tell.js", "export const a = 1;\nexport const = 2;\n")
	if err == nil || !strings.Contains(err.Error(), "pwa/tell.js:2") {
		t.Errorf("packModule of a broken module = %v, want an error that names pwa/tell.js:2", err)
	}
}
