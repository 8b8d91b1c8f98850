package help

import (
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

func get(t *testing.T, address string) *http.Response {
	t.Helper()
	w := httptest.NewRecorder()
	Handler(http.NotFoundHandler()).ServeHTTP(w, httptest.NewRequest("GET", address, nil))
	return w.Result()
}

func TestPagesAreServed(t *testing.T) {
	if len(Pages()) < 3 {
		t.Fatalf("only %d pages", len(Pages()))
	}
	for _, p := range Pages() {
		r := get(t, "/help/"+p.Name)
		body, _ := io.ReadAll(r.Body)
		if r.StatusCode != http.StatusOK || p.Title == "" || !strings.Contains(string(body), "<title>"+p.Title) {
			t.Errorf("/help/%s: %s, titled %q", p.Name, r.Status, p.Title)
		}
	}
	for address, want := range map[string]int{"/help": 200, "/help/": 200, "/help/page.css": 200, "/help/nothing": 404, "/help/index.md": 404} {
		if r := get(t, address); r.StatusCode != want {
			t.Errorf("%s: %s, want %d", address, r.Status, want)
		}
	}
}

// Every link of a page leads somewhere: to a page, to a heading of it, or into the app.
func TestLinksLeadSomewhere(t *testing.T) {
	ids := map[string]map[string]bool{}
	links := map[string][]string{}
	for _, p := range Pages() {
		body, err := p.HTML()
		if err != nil {
			t.Fatal(err)
		}
		tree, err := html.Parse(strings.NewReader(string(body)))
		if err != nil {
			t.Fatal(err)
		}
		ids["/help/"+p.Name] = map[string]bool{"": true}
		for n := range tree.Descendants() {
			for _, a := range n.Attr {
				switch {
				case a.Key == "id":
					ids["/help/"+p.Name][a.Val] = true
				case a.Key == "href" && n.Data == "a":
					links[p.Name] = append(links[p.Name], a.Val)
				}
			}
		}
	}
	for from, all := range links {
		for _, link := range all {
			address, part, _ := strings.Cut(link, "#")
			if address == "" {
				address = "/help/" + from
			}
			if address != "/" && !strings.HasPrefix(address, "https://") && !ids[address][part] {
				t.Errorf("%s.md links to %s, which is not there", from, link)
			}
		}
	}
}

func TestEachPageHasItsPlace(t *testing.T) {
	for _, p := range Pages() {
		if place(p.Name) == len(order) {
			t.Errorf("%s.md stands nowhere in order", p.Name)
		}
	}
}

func TestBlocks(t *testing.T) {
	p := parse("x", []byte("# X\n\n```sh one\nkerfside help\n```\n\n```text\nout\n```\n\n    no block\n"))
	got := p.Fences()
	if len(got) != 2 || got[0] != (Fence{Language: "sh", Name: "one", Text: "kerfside help\n", Line: 4}) || got[1].Name != "" {
		t.Errorf("read %+v", got)
	}
}
