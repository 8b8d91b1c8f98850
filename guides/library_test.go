package guides

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"testing/fstest"

	"kerfside/calc/problem"
	"kerfside/calc/registry"
)

// two returns a file system with the example guide under two names, the second
// with its text changed.
func two(t *testing.T, from, to string) fstest.MapFS {
	src := read(t, "../testdata/guides/example.md")
	return fstest.MapFS{
		"a-guide.md":     {Data: []byte(src)},
		"other-guide.md": {Data: []byte(strings.Replace(src, from, to, 1))},
		"notes.txt":      {Data: []byte("no guide")},
	}
}

func TestLoad(t *testing.T) {
	lib, err := Load(two(t, "(#air-holes)", "(a-guide.md#screw-on)"))
	if err != nil {
		t.Fatal(err)
	}
	var ids []string
	for _, e := range lib.Index() {
		ids = append(ids, e.ID)
	}
	if got := strings.Join(ids, " "); got != "a-guide other-guide" {
		t.Errorf("Index lists %q, want the two guides in order", got)
	}
	g, err := lib.Guide("other-guide")
	if err != nil {
		t.Fatal(err)
	}
	if want := `<a href="/guide/a-guide#screw-on">`; !strings.Contains(string(g.About), want) {
		t.Errorf("About = %s, want it to hold %s", g.About, want)
	}
	doc, err := lib.JSON("other-guide")
	if err != nil {
		t.Fatal(err)
	}
	var back Guide
	if err := json.Unmarshal(doc, &back); err != nil || back.Title != g.Title || len(back.Steps) != len(g.Steps) {
		t.Errorf("JSON reads back as %+v, %v", back, err)
	}
	for name, b := range map[string][]byte{"IndexJSON": lib.IndexJSON(), "SearchJSON": lib.SearchJSON()} {
		if !json.Valid(b) {
			t.Errorf("%s is no JSON: %s", name, b)
		}
	}
}

func TestDeadLinks(t *testing.T) {
	for _, c := range []struct{ to, want string }{
		{"(pierce.md)", "other-guide.md:11: there is no guide pierce.md: link to one of a-guide, other-guide"},
		{"(a-guide.md#nowhere)", "other-guide.md:11: guide a-guide.md has no step {#nowhere}"},
		{"(sum:nowhere)", "other-guide.md:11: there is no calculator nowhere: link to one of " + strings.Join(registry.Names(), ", ")},
		{"(sum:piece-weight)", `other-guide.md:11: the calculator piece-weight is called "Piece weight": write [Piece weight](sum:piece-weight) or [the sum](sum:piece-weight)`},
		{"(#nowhere)", "other-guide.md:11: guide other-guide.md has no step {#nowhere}"},
	} {
		_, err := Load(two(t, "(#air-holes)", c.to))
		if err == nil || err.Error() != c.want {
			t.Errorf("Load with a link to %s: %v, want %s", c.to, err, c.want)
		}
	}
}

func TestUnknownGuide(t *testing.T) {
	lib := shipped(t)
	_, err := lib.JSON("no-such-guide")
	var p *problem.Error
	if !errors.As(err, &p) || p.Kind != problem.NotFound || p.Field != "guide" || p.Hint == "" {
		t.Errorf("JSON of an unknown guide: %v, want a not-found problem with a hint", err)
	}
}
