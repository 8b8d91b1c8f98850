package assets

import (
	"encoding/json"
	"strings"
	"testing"

	"kerfside/pwa"
)

// TestStillDrawings: every file is read, with all that it shows.
func TestStillDrawings(t *testing.T) {
	raw, err := readAll(pwa.Files)
	if err != nil {
		t.Fatal(err)
	}
	all, err := StillDrawings(raw)
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 50 {
		t.Fatalf("only %d drawings", len(all))
	}
	for name, still := range all {
		svg := string(raw[stillFolder+name+".svg"])
		told, err := json.Marshal(still.Shapes)
		if err != nil {
			t.Fatal(err)
		}
		for _, of := range []string{"path", "line", "text", "circle", "rect", "g"} {
			if want, got := strings.Count(svg, "<"+of+" "), strings.Count(string(told), `"name":"`+of+`"`); got != want {
				t.Errorf("%s: %d of %s, want %d", name, got, of, want)
			}
		}
		if !strings.Contains(svg, "<title>"+still.Title+"</title>") || !strings.Contains(svg, "<desc>"+still.Desc+"</desc>") {
			t.Errorf("%s: title %q, desc %q", name, still.Title, still.Desc)
		}
	}
}

// TestReadStillTrouble: what is no drawing of ours is refused with what it lacks.
func TestReadStillTrouble(t *testing.T) {
	for _, c := range []struct{ svg, want string }{
		{``, "not an svg"},
		{`<svg viewBox="0 0 3 4"><title>A</title><desc>B</desc></svg>`, "not an svg with"},
		{`<svg viewBox="0 0 3 4"><g/><title>A</title><desc>B</desc></svg>`, "begin with a title"},
		{`<svg viewBox="0 0 3"><title>A</title><desc>B</desc><g/></svg>`, "viewBox"},
		{`<svg viewBox="0 0 3 4.5"><title>A</title><desc>B</desc><g/></svg>`, "viewBox"},
		{`<svg viewBox="0 0 3 4"><title>A</title><desc>B</desc><g></svg>`, "syntax error"},
	} {
		if _, err := readStill([]byte(c.svg)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("readStill(%s) = %v, want an error with %q", c.svg, err, c.want)
		}
	}
}
