package pwa

import (
	"strings"
	"testing"
)

// TestFillWords: a template gets its words by key, as text, and says which it misses.
func TestFillWords(t *testing.T) {
	words, err := ReadWords(map[string][]byte{"words/en.js": []byte(`  "a": "A & \"b\"", "a.b": "x: 1", // "c": no
  "d": "<d>",`)})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ template, want, trouble string }{
		{template: `<p data-say="a" hidden></p>`, want: `<p hidden>A &amp; &#34;b&#34;</p>`},
		{template: `<nav class="x" data-say-label="a.b">`, want: `<nav class="x" aria-label="x: 1">`},
		{template: `<b data-say="d" data-say-label="a.b"></b><i data-say="a.b"></i>`, want: `<b aria-label="x: 1">&lt;d&gt;</b><i>x: 1</i>`},
		{template: `<p data-says="a">x</p>`, want: `<p data-says="a">x</p>`},
		{template: `<p data-say="e"></p>`, trouble: "pwa/t.html: there are no words for e"},
	} {
		got, err := FillWords("t.html", []byte(c.template), words)
		if c.trouble != "" {
			if err == nil || !strings.Contains(err.Error(), c.trouble) {
				t.Errorf("FillWords(%s) = %v, want %s", c.template, err, c.trouble)
			}
		} else if err != nil || string(got) != c.want {
			t.Errorf("FillWords(%s) = %s, %v, want %s", c.template, got, err, c.want)
		}
	}
	if _, err := ReadWords(map[string][]byte{"words/guides.js": []byte(`"a": "\q",`)}); err == nil || !strings.Contains(err.Error(), "pwa/words/guides.js: the text of a") {
		t.Errorf("ReadWords of what is no text = %v", err)
	}
}
