package guides

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// including is a folder with a guide of two steps, "inner", and one that takes
// it in between its own two. All invented.
func including(change func(files map[string]string)) fstest.MapFS {
	head := "\n\n- When: always\n- Takes: 2 min\n- Place: fix\n- Search: dead\n- Source: invented for a test\n\nWords.\n\n## Cautions\n\n- Care.\n\n"
	step := func(title, id, do string) string {
		return "## " + title + " {#" + id + "}\n\n" + do + "\n\n- Go on when: yes\n- Stop when: no\n- Why: because\n- Source: invented for a test\n\n"
	}
	files := map[string]string{
		"inner.md": "# Inner guide" + head + step("Zebra", "first", "Then [the next](#second).") + step("Second", "second", "Do it."),
		"outer.md": "# Outer" + head + step("Before", "before", "See it.") + "## [Inner guide](inner.md)\n\n" + step("After", "after", "Done."),
	}
	change(files)
	m := fstest.MapFS{}
	for name, src := range files {
		m[name] = &fstest.MapFile{Data: []byte(src)}
	}
	return m
}

func TestInclude(t *testing.T) {
	lib, err := Load(including(func(files map[string]string) {
		files["outer.md"] = strings.Replace(files["outer.md"], "See it.", "See [it](#second).", 1)
	}))
	if err != nil {
		t.Fatal(err)
	}
	doc, err := lib.JSON("outer")
	if err != nil {
		t.Fatal(err)
	}
	var outer Guide
	if err := json.Unmarshal(doc, &outer); err != nil {
		t.Fatal(err)
	}
	var ids []string
	for _, st := range outer.Steps {
		ids = append(ids, st.ID)
	}
	if want := []string{"before", "first", "second", "after"}; !slices.Equal(ids, want) || !slices.Equal(lib.Index()[1].Steps, want) {
		t.Errorf("outer has the steps %q, in the index %q, want %q", ids, lib.Index()[1].Steps, want)
	}
	if want := `<a href="/guide/outer#second">`; !strings.Contains(string(outer.Steps[1].Do), want) {
		t.Errorf("a link inside what was taken in: %s, want %s", outer.Steps[1].Do, want)
	}
	if len(outer.Taken) != 1 || outer.Taken[0].Title != "Inner guide" || !slices.Equal(outer.Taken[0].Steps, []string{"first", "second"}) {
		t.Errorf("outer says it has taken in %+v", outer.Taken)
	}
	inner, _ := lib.Guide("inner")
	if want := `<a href="/guide/inner#second">`; !strings.Contains(string(inner.Steps[0].Do), want) {
		t.Errorf("the same link in its own guide: %s, want %s", inner.Steps[0].Do, want)
	}
	ix := newSearchIndex(lib.guides)
	var found []SearchDoc
	for _, e := range ix.Words["zebra"] {
		found = append(found, ix.Docs[e/8])
	}
	if want := []SearchDoc{{Guide: "inner", Step: "first", Title: "Zebra"}}; !slices.Equal(found, want) {
		t.Errorf("search finds the step as %v, want %v", found, want)
	}
}

func TestIncludeRefused(t *testing.T) {
	for name, c := range map[string]struct {
		file, from, to, want string
	}{
		"no such guide":      {file: "outer.md", from: "(inner.md)", to: "(nobody.md)", want: "outer.md:24: there is no guide nobody.md: link to one of inner, outer"},
		"another title":      {file: "outer.md", from: "[Inner guide]", to: "[Inside]", want: `outer.md:24: inner.md is called "Inner guide": write ## [Inner guide](inner.md)`},
		"a card":             {file: "inner.md", from: "- Place: fix", to: "- Place: fix\n- Form: card", want: "outer.md:24: inner.md is a card: only a guide in steps can be taken in"},
		"an id that clashes": {file: "outer.md", from: "{#after}", to: "{#second}", want: "outer.md:24: step {#second} of inner.md stands in this guide already: give the step here another id"},
		"twice":              {file: "outer.md", from: "## After", to: "## [Inner guide](inner.md)\n\n## After", want: "outer.md:24: step {#first} of inner.md stands in this guide already: give the step here another id"},
	} {
		_, err := Load(including(func(files map[string]string) {
			files[c.file] = strings.Replace(files[c.file], c.from, c.to, 1)
		}))
		if err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
	_, err := Load(including(func(files map[string]string) {
		files["third.md"] = strings.NewReplacer("# Outer", "# Third", "Inner guide", "Outer", "inner.md", "outer.md", "#second", "#after", "{#before}", "{#third}").Replace(files["outer.md"])
	}))
	if want := "third.md:24: outer.md takes in inner.md itself: take in that one, or write the steps here"; err == nil || err.Error() != want {
		t.Errorf("a guide that takes in others is taken in: %v, want %s", err, want)
	}
}
