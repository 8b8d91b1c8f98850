package server

import (
	"net/http"
	"strings"
	"testing"

	"kerfside/guides"
	"kerfside/pwa"
	"kerfside/server/assets"
	"kerfside/server/store"
)

// newDemoShop is a shop that shows a demo.
func newDemoShop(t *testing.T) *shop {
	t.Helper()
	p := newShop(t)
	p.server.demo = true
	p.server.handler = p.server.guarded()
	return p
}

// asPage asks as a browser does that opens a page.
func asPage(r *http.Request) {
	r.Header.Set("Accept", "text/html,application/xhtml+xml,*/*;q=0.8")
	r.Header.Del(ownHeader)
}

// phones is how many a crew has.
func (p *shop) phones(crew string) int {
	p.t.Helper()
	list, err := p.server.store.Devices(p.t.Context(), crew)
	if err != nil {
		p.t.Fatal(err)
	}
	return len(list)
}

type visitor struct {
	Enrolled bool
	Role     store.Role
	Crew     string
}

// TestDemoLetsVisitorsIn: a browser without a token is sent to where phones join, and the
// app that asks there is in the first crew, each as a phone of its own.
func TestDemoLetsVisitorsIn(t *testing.T) {
	p := newDemoShop(t)
	tokens := map[string]bool{}
	for n := 1; n <= 2; n++ {
		c := client{shop: p}
		for _, path := range []string{"/", "/book", "/job/abc"} {
			if out := c.send("GET", path, "", asPage); out.Code != http.StatusSeeOther || out.Header().Get("Location") != JoinPath || out.Header().Get("Cache-Control") != "no-store" {
				t.Errorf("%s: %d to %q", path, out.Code, out.Header().Get("Location"))
			}
		}
		if out := c.send("GET", JoinPath, "", asPage); out.Code != 200 || len(out.Result().Cookies()) > 0 {
			t.Errorf("%s: %d", JoinPath, out.Code)
		}
		if out := c.send("GET", "/", ""); out.Code != 200 {
			t.Errorf("a service worker gets %d", out.Code)
		}
		out := c.send("GET", "/api/status", "")
		cookies, v := out.Result().Cookies(), told[visitor](t, out)
		if len(cookies) != 1 || !v.Enrolled || v.Role != store.Owner || v.Crew != crewID || p.phones(crewID) != n {
			t.Fatalf("visitor %d: %+v, %d cookies, %d phones", n, v, len(cookies), p.phones(crewID))
		}
		c.token = cookies[0].Value
		tokens[c.token] = true
		if out := c.send("GET", "/book", "", asPage); out.Code != 200 {
			t.Errorf("once in, it gets %d", out.Code)
		}
		if out := c.send("GET", "/api/status", ""); len(out.Result().Cookies()) > 0 || !told[visitor](t, out).Enrolled || p.phones(crewID) != n {
			t.Errorf("once in, it is let in again: %s", out.Body)
		}
		if out := c.send("GET", "/api/devices", ""); out.Code != 200 {
			t.Errorf("its crew: %d %s", out.Code, out.Body)
		}
	}
	if len(tokens) != 2 || p.phones(p.other) != 0 {
		t.Errorf("%d tokens, and %d phones in the other crew", len(tokens), p.phones(p.other))
	}
}

// TestDemoTakesNoOther: who shows a token that is not known here keeps it, for it may be
// that of a real crew; and what is no app is not let in.
func TestDemoTakesNoOther(t *testing.T) {
	p := newDemoShop(t)
	stranger := client{shop: p, token: "a-token-of-another-server"}
	for what, out := range map[string]*http.Response{
		"a page":             stranger.send("GET", "/", "", asPage).Result(),
		"another's token":    stranger.send("GET", "/api/status", "").Result(),
		"what is no app":     client{shop: p}.send("GET", "/api/status", "", func(r *http.Request) { r.Header.Del(ownHeader) }).Result(),
		"what is for phones": client{shop: p}.send("GET", "/api/devices", "").Result(),
	} {
		if len(out.Cookies()) > 0 || out.StatusCode == http.StatusSeeOther {
			t.Errorf("%s: %d, cookies %v", what, out.StatusCode, out.Cookies())
		}
	}
	if n := p.phones(crewID); n > 0 {
		t.Errorf("%d phones are in", n)
	}
}

// TestNobodyIsLetInElsewhere: a server that shows no demo sends nobody anywhere, lets
// nobody in, and does not call its data invented.
func TestNobodyIsLetInElsewhere(t *testing.T) {
	p := newShop(t)
	c := client{shop: p}
	for _, screen := range screens {
		path := strings.NewReplacer("{id}", "abc", "{name}", "air-tank").Replace(screen.Address)
		out := c.send("GET", path, "", asPage)
		if out.Code != 200 || len(out.Result().Cookies()) > 0 || strings.Contains(out.Body.String(), Invented) {
			t.Errorf("%s: %d to %q, cookies %v", path, out.Code, out.Header().Get("Location"), out.Result().Cookies())
		}
	}
	if out := c.send("GET", "/api/status", ""); told[visitor](t, out).Enrolled || len(out.Result().Cookies()) > 0 {
		t.Errorf("status: %s, cookies %v", out.Body, out.Result().Cookies())
	}
	if n := p.phones(crewID) + p.phones(p.other); n > 0 {
		t.Errorf("%d phones are in", n)
	}
}

// TestDemoSaysSo: the words stand in the page of every screen.
func TestDemoSaysSo(t *testing.T) {
	app, err := assets.New(assets.Options{Files: pwa.Files, Guides: guides.Files, Screens: screens, Notice: Invented})
	if err != nil {
		t.Fatal(err)
	}
	p := newDemoShop(t)
	p.server.app = app
	p.server.handler = p.server.guarded()
	c := p.join(crewID, store.Member, "phone")
	for _, path := range []string{"/", "/join", "/book", "/devices"} {
		if out := c.send("GET", path, "", asPage); out.Code != 200 || strings.Count(out.Body.String(), ">"+Invented+"<") != 1 {
			t.Errorf("%s does not say that all is invented: %d", path, out.Code)
		}
	}
}
