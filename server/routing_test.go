package server

import (
	"crypto/tls"
	"net/http"
	"regexp"
	"testing"

	"kerfside/server/store"
)

// A phone that joined before there was such a cookie, or whose browser lost it, gets it
// with the next answer over https, and a right one is left alone. It opens nothing.
func TestRoutingCookie(t *testing.T) {
	p := newShop(t)
	c := p.join(crewID, store.Member, "phone-a")
	over := func(routing string) func(*http.Request) {
		return func(r *http.Request) {
			r.TLS = &tls.ConnectionState{}
			r.AddCookie(&http.Cookie{Name: "__Host-kerfside", Value: c.token})
			if routing != "" {
				r.AddCookie(&http.Cookie{Name: "kerfside_crew", Value: routing})
			}
		}
	}
	for _, path := range []string{"/api/devices", "/api/status"} {
		for _, one := range []struct{ name, shown, given string }{
			{name: "none", shown: "", given: crewID},
			{name: "another crew's", shown: p.other, given: crewID},
			{name: "its own", shown: crewID, given: ""},
		} {
			out := c.send("GET", path, "", over(one.shown))
			got := ""
			for _, set := range out.Result().Cookies() {
				got += set.Value
			}
			if out.Code != 200 || got != one.given {
				t.Errorf("%s with %s: %d, cookie %q, want %q", path, one.name, out.Code, got, one.given)
			}
		}
	}
	if out := c.send("GET", "/api/devices", ""); len(out.Result().Cookies()) != 0 {
		t.Errorf("over plain HTTP: %v", out.Result().Cookies())
	}
	stranger := client{shop: p}
	out := stranger.send("GET", "/api/devices", "", func(r *http.Request) {
		r.TLS = &tls.ConnectionState{}
		r.AddCookie(&http.Cookie{Name: "kerfside_crew", Value: crewID})
	})
	if out.Code != 401 || len(out.Result().Cookies()) != 0 {
		t.Errorf("a stranger with the cookie alone: %d, cookies %v", out.Code, out.Result().Cookies())
	}
	if out := stranger.send("GET", "/join?crew="+crewID, "", func(r *http.Request) { r.TLS = &tls.ConnectionState{} }); len(out.Result().Cookies()) != 0 {
		t.Errorf("a link alone gave %v", out.Result().Cookies())
	}
}

// Ids of crews go into a map of nginx and into the names of folders as they are. They
// are 128 random bits, so that servers which do not know each other never make the
// same.
func TestCrewIDsAreFitForProxies(t *testing.T) {
	p := newShop(t)
	fit := regexp.MustCompile(`^[A-Za-z0-9_-]{22}$`)
	met := map[string]bool{}
	for range 100 {
		id, err := p.server.store.AddCrew("Weir Lane", start)
		if err != nil || !fit.MatchString(id) || met[id] {
			t.Fatalf("the id %q (%v), met before: %v", id, err, met[id])
		}
		met[id] = true
	}
}
