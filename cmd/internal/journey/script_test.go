package journey

import (
	"os"
	"slices"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	got, err := Parse("plan.txt", `
# The plan follows the plate.
open /cut

  enter Thickness = 1/4 in
kill browser
tap Undo #2
`)
	if err != nil {
		t.Fatal(err)
	}
	want := []Step{{Line: 3, Verb: "open", Text: "/cut"}, {Line: 5, Verb: "enter", Text: "Thickness = 1/4 in"}, {Line: 6, Verb: "kill browser"}, {Line: 7, Verb: "tap", Text: "Undo #2"}}
	if !slices.Equal(got.Steps, want) {
		t.Errorf("Parse gave %q, want %q", got.Steps, want)
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{name: "empty", text: "# nothing\n", want: "no steps"},
		{name: "unknown verb", text: "open /\nwish for rain", want: `x.txt:2: no verb "wish"`},
		{name: "half a verb", text: "kill", want: `no verb "kill"`},
		{name: "text missing", text: "see", want: "see needs a text, as in: see Set 45 A"},
		{name: "text too much", text: "reload now", want: `reload takes nothing, but "now" follows`},
		{name: "one side", text: "enter Thickness", want: "enter needs two texts, as in: enter Thickness = 1/4 in"},
		{name: "empty side", text: "enter  = 1/4 in", want: "enter needs two texts"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Parse("x.txt", c.text)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("Parse(%q) = %v, want an error with %q", c.text, err, c.want)
			}
		})
	}
}

// The package comment names every verb.
func TestVerbsAreDocumented(t *testing.T) {
	for _, v := range verbs {
		if v.form != nothing && !strings.HasPrefix(v.example, v.name+" ") {
			t.Errorf("the example of %s is %q", v.name, v.example)
		}
		if !strings.Contains(packageComment(t), v.name) {
			t.Errorf("the package comment does not name %q", v.name)
		}
	}
}

func TestPadKeys(t *testing.T) {
	for value, want := range map[string]string{
		"3/8 in":      "3 / 8 in",
		"2.5mm":       "2 . 5 mm",
		"-10 °C":      "- 1 0 °C",
		"90 psi":      "9 0 psi",
		"16 ga":       "1 6 ga",
		"180 l/min":   "1 8 0 l/min",
		"1 1/4 in":    "1 1 / 4 in",
		"0.5 ft³/min": "0 . 5 ft³/min",
	} {
		if got := strings.Join(padKeys.FindAllString(value, -1), " "); got != want {
			t.Errorf("the keys of %q are %q, want %q", value, got, want)
		}
	}
}

// packageComment returns the specification at the top of the package.
func packageComment(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
