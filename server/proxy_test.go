package server

import (
	"net/http"
	"net/http/httptest"
	"testing"
)

func TestBehindProxy(t *testing.T) {
	const lan, proxy = "192.0.2.7:4000", "127.0.0.1:4000"
	https := [2]string{"X-Forwarded-Proto", "https"}
	for _, c := range []struct {
		name, from, called string
		headers            [][2]string
		addr, host         string // as the server sees it; refused if ""
		https              bool
	}{
		{name: "a proxy here is believed", from: proxy, called: "localhost",
			headers: [][2]string{{"X-Forwarded-For", "198.51.100.9"}, {"X-Forwarded-Host", "shop.example"}, https},
			addr:    "198.51.100.9:0", host: "shop.example", https: true},
		{name: "it may hand the name on as it was called", from: proxy, called: "shop.example", headers: [][2]string{https}, addr: proxy, host: "shop.example", https: true},
		{name: "over IPv6 too", from: "[::1]:4000", called: "shop.example", headers: [][2]string{{"X-Forwarded-For", "2001:db8::9"}, https}, addr: "[2001:db8::9]:0", host: "shop.example", https: true},
		{name: "a stranger is not", from: lan, called: "localhost",
			headers: [][2]string{{"X-Forwarded-For", "127.0.0.1"}, {"X-Forwarded-Host", "shop.example"}, https}},
		{name: "the proxy's entry wins over the sender's", from: proxy, called: "shop.example",
			headers: [][2]string{{"X-Forwarded-For", "127.0.0.1, 198.51.100.9"}, {"X-Forwarded-Proto", "http"}, https}, addr: "198.51.100.9:0", host: "shop.example", https: true},
		{name: "no address is no address", from: proxy, called: "shop.example", headers: [][2]string{{"X-Forwarded-For", "unknown"}, https}, addr: proxy, host: "shop.example", https: true},
		{name: "a proxy that hides the name is refused", from: proxy, called: "localhost:8480", headers: [][2]string{https}},
		{name: "so is one that hides everything", from: proxy, called: "localhost:8480"},
		{name: "a public name in the open is refused", from: proxy, called: "shop.example", headers: [][2]string{{"X-Forwarded-Proto", "http"}}},
		{name: "the sender's word is not enough", from: proxy, called: "shop.example", headers: [][2]string{https, {"X-Forwarded-Proto", "http"}}},
		{name: "a proxy that says nothing is refused", from: proxy, called: "shop.example"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := httptest.NewRequest("GET", "/", nil)
			r.RemoteAddr, r.Host = c.from, c.called
			for _, h := range c.headers {
				r.Header.Add(h[0], h[1])
			}
			var seen http.Request
			new(Server).behindProxy(http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) { seen = *r })).ServeHTTP(httptest.NewRecorder(), r)
			if seen.RemoteAddr != c.addr || seen.Host != c.host || isHTTPS(&seen) != c.https {
				t.Errorf("seen as from %q at %q, https %v; want %q at %q, %v", seen.RemoteAddr, seen.Host, isHTTPS(&seen), c.addr, c.host, c.https)
			}
		})
	}
}

// Without a proxy its headers mean nothing.
func TestNoProxy(t *testing.T) {
	r := httptest.NewRequest("GET", "http://localhost/", nil)
	r.Header.Set("X-Forwarded-Proto", "https")
	if isHTTPS(r) {
		t.Error("a header alone made it https")
	}
	s := guardedServer(t, Options{Hosts: []string{"shop.example"}})
	for header, url := range map[string]string{
		"X-Forwarded-Host": "http://other.example/", // no name that it goes by
		"X-Forwarded-For":  "http://localhost/",     // a proxy that it was not told of
		"Forwarded":        "http://localhost/",
	} {
		r := httptest.NewRequest("GET", url, nil)
		r.Header.Set(header, "shop.example")
		out := httptest.NewRecorder()
		s.ServeHTTP(out, r)
		if out.Code != http.StatusForbidden {
			t.Errorf("%s with %s = %d, want 403", url, header, out.Code)
		}
	}
}
