package guides

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"
)

// allowedTag is every tag that goldmark makes from what a guide may hold.
var allowedTag = regexp.MustCompile(`^</?(p|ul|ol|li|em|strong|code|pre|hr|br|blockquote|table|thead|tbody|tr|h[1-6])>$` +
	`|^<ol start="\d+">$|^<t[hd]( align="(left|center|right)")?>$|^</t[hd]>$|^</a>$` +
	`|^<a href="/(guide|sum)/[a-z0-9#-]+"( title="[^"<>]*")?>$|^<code class="language-[^"<>]*">$`)

var anyTag = regexp.MustCompile(`<[^>]*>?`)

// FuzzParse: whatever is read, nothing panics, the JSON is sound, and a guide
// without faults holds no markup but what is allowed.
func FuzzParse(f *testing.F) {
	f.Add(read(f, "../testdata/guides/example.md"))
	for _, c := range strings.Split(read(f, "../testdata/guides/faults.txt"), "\n-- ") {
		f.Add(c)
	}
	for _, s := range []string{"<script>alert(1)</script>", "[x](javascript:alert(1))", "[x]: pierce.md\n\n[x]", "`<b>`",
		"![x](a.md)", "&lt;script&gt;", "a<br>b", "<a href='x'>", "[x](pierce.md \"t\")", "~~~js\"onload=\nx\n~~~"} {
		f.Add(strings.Replace(read(f, "../testdata/guides/example.md"), "Hold the cup", s+"\n\nHold the cup", 1))
	}
	f.Fuzz(func(t *testing.T, src string) {
		g, err := Parse("cup.md", []byte(src))
		if err != nil {
			return
		}
		if _, err := json.Marshal(g); err != nil {
			t.Errorf("no JSON: %v", err)
		}
		htmls := []HTML{g.About, g.Cautions}
		for _, st := range g.Steps {
			htmls = append(htmls, st.Caution, st.Do)
		}
		for _, h := range htmls {
			for _, tag := range anyTag.FindAllString(string(h), -1) {
				if !allowedTag.MatchString(tag) {
					t.Errorf("tag %s came through", tag)
				}
			}
		}
	})
}
