package main

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// A row of the glossary: term, meaning, the file where it is at home, and the
// name by which it stands there.
var glossaryRow = regexp.MustCompile("^\\| ([^|]+) \\| ([^|]+) \\| `([^`]+)` `([^`]+)` \\|$")

type term struct{ name, file, identifier string }

// glossary reads the section Glossary of a document. Lines of its table that are
// no rows come back as they stand.
func glossary(doc string) (terms []term, odd []string) {
	_, section, _ := strings.Cut(doc, "\n## Glossary\n")
	section, _, _ = strings.Cut(section, "\n## ")
	rows := 0
	for line := range strings.Lines(section) {
		line = strings.TrimSpace(line)
		if !strings.HasPrefix(line, "|") {
			continue
		}
		if rows++; rows <= 2 {
			continue // the heading and the line below it
		}
		m := glossaryRow.FindStringSubmatch(line)
		if m == nil {
			odd = append(odd, line)
			continue
		}
		terms = append(terms, term{name: m[1], file: m[3], identifier: m[4]})
	}
	return terms, odd
}

// against tells what is wrong with terms: order, doubles, a file that is not
// there, or a name that is not in it.
func (x term) against(before string, read func(file string) (string, error)) string {
	if strings.ToLower(before) >= strings.ToLower(x.name) {
		return x.name + " does not stand in its place of the alphabet, or stands twice"
	}
	text, err := read(x.file)
	if err != nil {
		return x.name + ": " + err.Error()
	}
	if !regexp.MustCompile(`(?:^|\W)` + regexp.QuoteMeta(x.identifier) + `(?:\W|$)`).MatchString(text) {
		return x.name + ": " + x.file + " has no " + x.identifier
	}
	return ""
}

func readText(file string) (string, error) {
	data, err := os.ReadFile(file)
	return string(data), err
}

// Every term of the glossary is found where its row says.
func TestGlossary(t *testing.T) {
	t.Chdir("../..")
	doc, err := readText("DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	terms, odd := glossary(doc)
	for _, line := range odd {
		t.Errorf("no row of term, meaning, file and name: %s", line)
	}
	before := ""
	for _, x := range terms {
		if trouble := x.against(before, readText); trouble != "" {
			t.Error(trouble)
		}
		before = x.name
	}
	if len(terms) < 40 {
		t.Errorf("the glossary has %d terms, which is too few to be all of them", len(terms))
	}
}

// What the test of the glossary finds.
func TestGlossaryFinds(t *testing.T) {
	const head = "# Doc\n\n## Glossary\n\n| term | meaning | where |\n|---|---|---|\n"
	read := func(file string) (string, error) {
		if file == "a.go" {
			return "type Arc struct{}\n", nil
		}
		return "", os.ErrNotExist
	}
	for name, c := range map[string]struct {
		rows string
		want []string
	}{
		"right":          {rows: "| arc | it burns | `a.go` `Arc` |\n\n## Rules\n\n| x |\n"},
		"no such file":   {rows: "| arc | it burns | `b.go` `Arc` |\n", want: []string{"arc: file does not exist"}},
		"part of a name": {rows: "| arc | it burns | `a.go` `Ar` |\n", want: []string{"arc: a.go has no Ar"}},
		"out of order":   {rows: "| b | two | `a.go` `Arc` |\n| a | one | `a.go` `Arc` |\n", want: []string{"a does not stand in its place of the alphabet, or stands twice"}},
		"no file":        {rows: "| arc | it burns | Arc |\n", want: []string{"| arc | it burns | Arc |"}},
	} {
		terms, got := glossary(head + c.rows)
		before := ""
		for _, x := range terms {
			if trouble := x.against(before, read); trouble != "" {
				got = append(got, trouble)
			}
			before = x.name
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: got %q, want %q", name, got, c.want)
		}
	}
}
