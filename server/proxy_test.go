package server

import (
	"bytes"
	"context"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"strings"
	"testing"
)

func TestBehindProxy(t *testing.T) {
	const lan, proxy = "192.0.2.7:4000", "127.0.0.1:4000"
	https := [2]string{"X-Forwarded-Proto", "https"}
	here := ThisMachine()
	box := Proxies{netip.MustParsePrefix("10.88.0.0/16"), netip.MustParsePrefix("2001:db8:5::/48")} // of containers
	for _, c := range []struct {
		name, from, called string
		proxies            Proxies // here if nil
		socket             bool
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
		{name: "a container's proxy is believed", from: "10.88.0.3:4000", called: "shop.example", proxies: box,
			headers: [][2]string{{"X-Forwarded-For", "198.51.100.9"}, https}, addr: "198.51.100.9:0", host: "shop.example", https: true},
		{name: "and over IPv6", from: "[2001:db8:5::3]:4000", called: "shop.example", proxies: box,
			headers: [][2]string{{"X-Forwarded-For", "2001:db8::9"}, https}, addr: "[2001:db8::9]:0", host: "shop.example", https: true},
		{name: "and on a socket of both families", from: "[::ffff:10.88.0.3]:4000", called: "shop.example", proxies: box,
			headers: [][2]string{{"X-Forwarded-For", "::ffff:198.51.100.9"}, https}, addr: "198.51.100.9:0", host: "shop.example", https: true},
		{name: "its neighbour is not", from: "10.89.0.3:4000", called: "shop.example", proxies: box, headers: [][2]string{{"X-Forwarded-For", "10.88.0.3"}, https}},
		{name: "nor is this machine, if others were named", from: proxy, called: "shop.example", proxies: box, headers: [][2]string{https}},
		{name: "of two proxies the outer one's word on the phone counts", from: "10.88.0.3:4000", called: "shop.example", proxies: box,
			headers: [][2]string{{"X-Forwarded-For", "192.0.2.66, 198.51.100.9, 10.88.0.2"}, https}, addr: "198.51.100.9:0", host: "shop.example", https: true},
		{name: "in two lines of the same header too", from: "10.88.0.3:4000", called: "shop.example", proxies: box,
			headers: [][2]string{{"X-Forwarded-For", "192.0.2.66"}, {"X-Forwarded-For", "198.51.100.9,[2001:db8:5::2]:55123"}, https}, addr: "198.51.100.9:0", host: "shop.example", https: true},
		{name: "a stranger between two proxies is the phone", from: "10.88.0.3:4000", called: "shop.example", proxies: box,
			headers: [][2]string{{"X-Forwarded-For", "10.88.0.9, 198.51.100.9"}, https}, addr: "198.51.100.9:0", host: "shop.example", https: true},
		{name: "a proxy that asks for itself is the phone", from: "10.88.0.3:4000", called: "shop.example", proxies: box,
			headers: [][2]string{{"X-Forwarded-For", "10.88.0.7, 10.88.0.2"}, https}, addr: "10.88.0.7:0", host: "shop.example", https: true},
		{name: "past an entry that is no address nothing is believed", from: "10.88.0.3:4000", called: "shop.example", proxies: box,
			headers: [][2]string{{"X-Forwarded-For", "198.51.100.9, hidden, 10.88.0.2"}, https}, addr: "10.88.0.2:0", host: "shop.example", https: true},
		{name: "an entry with a port", from: proxy, called: "shop.example", headers: [][2]string{{"X-Forwarded-For", "198.51.100.9:61000"}, https}, addr: "198.51.100.9:0", host: "shop.example", https: true},
		{name: "an empty list", from: proxy, called: "shop.example", headers: [][2]string{{"X-Forwarded-For", " , ,"}, https}, addr: proxy, host: "shop.example", https: true},
		{name: "whoever may use the socket is believed", from: "@", called: "localhost", proxies: box, socket: true,
			headers: [][2]string{{"X-Forwarded-For", "192.0.2.66, 198.51.100.9, 10.88.0.2"}, {"X-Forwarded-Host", "shop.example"}, https},
			addr:    "198.51.100.9:0", host: "shop.example", https: true},
		{name: "an address that looks like a socket's is not one", from: "@", called: "shop.example", headers: [][2]string{https}},
		{name: "through the socket nobody is this machine", from: "@", called: "localhost", socket: true, headers: [][2]string{https}},
		{name: "headers of other proxies are not read", from: proxy, called: "localhost", headers: [][2]string{
			{"Forwarded", "for=198.51.100.9;host=shop.example;proto=https"}, {"X-Real-IP", "198.51.100.9"}, {"X-Forwarded-Ssl", "on"},
			{"Front-End-Https", "on"}, {"X-Url-Scheme", "https"}, {"X-Forwarded-Server", "shop.example"}, {"X-Forwarded-Scheme", "https"}}},
		{name: "nor do they say who the phone is", from: proxy, called: "shop.example", headers: [][2]string{
			{"Forwarded", "for=198.51.100.9"}, {"X-Real-IP", "198.51.100.9"}, {"True-Client-IP", "198.51.100.9"}, {"X-Client-IP", "198.51.100.9"}, https},
			addr: proxy, host: "shop.example", https: true},
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
			if c.socket {
				r = r.WithContext(context.WithValue(r.Context(), http.LocalAddrContextKey, net.Addr(&net.UnixAddr{Name: "/run/kerfside.sock", Net: "unix"})))
			}
			if c.proxies == nil {
				c.proxies = here
			}
			for _, h := range c.headers {
				r.Header.Add(h[0], h[1])
			}
			var seen http.Request
			(&Server{log: slog.New(slog.DiscardHandler)}).behindProxy(c.proxies, http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) { seen = *r })).ServeHTTP(httptest.NewRecorder(), r)
			if seen.RemoteAddr != c.addr || seen.Host != c.host || isHTTPS(&seen) != c.https {
				t.Errorf("seen as from %q at %q, https %v; want %q at %q, %v", seen.RemoteAddr, seen.Host, isHTTPS(&seen), c.addr, c.host, c.https)
			}
		})
	}
}

// Whoever comes past the proxy is told what it is, and what to do if it is one.
func TestPastProxy(t *testing.T) {
	s := guardedServer(t, Options{Hosts: []string{"shop.example"}, Proxies: ThisMachine()})
	r := httptest.NewRequest("GET", "https://shop.example/", nil)
	r.RemoteAddr = "10.88.0.3:4000"
	out := httptest.NewRecorder()
	s.ServeHTTP(out, r)
	if said, _ := io.ReadAll(out.Body); out.Code != http.StatusForbidden || !strings.Contains(string(said), "-trusted-proxy 10.88.0.3") {
		t.Errorf("past the proxy: %d %s, want 403 and what to do", out.Code, said)
	}
}

// Limits count the phone, however many proxies it came through, and a phone
// cannot be another by what it says.
func TestLimitsBehindProxies(t *testing.T) {
	proxies := Proxies{netip.MustParsePrefix("10.88.0.0/16")}
	ask := func(list string) string {
		r := httptest.NewRequest("GET", "/", nil)
		r.Header.Set("X-Forwarded-For", list)
		r.RemoteAddr = "10.88.0.3:4000"
		return address(proxies.forwarded(r))
	}
	phone := ask("198.51.100.9, 10.88.0.2")
	for _, lie := range []string{"192.0.2.1, 198.51.100.9, 10.88.0.2", "10.88.0.2, 198.51.100.9, 10.88.0.2", "nonsense, 198.51.100.9, 10.88.0.2", ",198.51.100.9,10.88.0.2"} {
		if got := ask(lie); got != phone {
			t.Errorf("with X-Forwarded-For %q it counts as %s, want %s", lie, got, phone)
		}
	}
	if other := ask("198.51.100.10, 10.88.0.2"); other == phone {
		t.Errorf("two phones count as one, %s", phone)
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

// A proxy that hides where requests come from makes all phones one to the limits,
// and the log says so, once.
func TestSilentOfPhones(t *testing.T) {
	var log bytes.Buffer
	s := guardedServer(t, Options{Hosts: []string{"shop.example"}, Proxies: ThisMachine(), Log: slog.New(slog.NewTextHandler(&log, nil))})
	for i, want := range []int{0, 1, 1} {
		from := []string{"10.88.0.3:4000", "127.0.0.1:4000", "127.0.0.1:4000"}[i] // the first is no proxy
		r := httptest.NewRequest("GET", "http://shop.example/", nil)
		r.RemoteAddr = from
		r.Header.Set("X-Forwarded-Proto", "https")
		s.ServeHTTP(httptest.NewRecorder(), r)
		if said := strings.Count(log.String(), "X-Forwarded-For"); said != want {
			t.Errorf("after a request from %s the log says it %d times, want %d: %s", from, said, want, &log)
		}
	}
}
