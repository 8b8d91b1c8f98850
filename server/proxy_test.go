package server

import (
	"net/http"
	"net/http/httptest"
	"testing"
)

func TestBehindProxy(t *testing.T) {
	const lan, proxy = "192.0.2.7:4000", "127.0.0.1:4000"
	for _, c := range []struct {
		name, from     string
		headers        [][2]string
		addr, host     string
		https          bool
		throughProxies bool
	}{
		{"a proxy here is believed", proxy,
			[][2]string{{"X-Forwarded-For", "198.51.100.9"}, {"X-Forwarded-Host", "shop.example"}, {"X-Forwarded-Proto", "https"}},
			"198.51.100.9:0", "shop.example", true, true},
		{"over IPv6 too", "[::1]:4000", [][2]string{{"X-Forwarded-For", "2001:db8::9"}}, "[2001:db8::9]:0", "inner", false, true},
		{"a stranger is not", lan,
			[][2]string{{"X-Forwarded-For", "127.0.0.1"}, {"X-Forwarded-Host", "localhost"}, {"X-Forwarded-Proto", "https"}},
			lan, "inner", false, true},
		{"the proxy's entry wins over the sender's", proxy,
			[][2]string{{"X-Forwarded-For", "127.0.0.1, 198.51.100.9"}, {"X-Forwarded-Proto", "https"}, {"X-Forwarded-Proto", "http"}},
			"198.51.100.9:0", "inner", false, true},
		{"no address is no address", proxy, [][2]string{{"X-Forwarded-For", "unknown"}}, proxy, "inner", false, true},
		{"no headers change nothing", proxy, nil, proxy, "inner", false, true},
		{"without a proxy they mean nothing", proxy,
			[][2]string{{"X-Forwarded-For", "198.51.100.9"}, {"X-Forwarded-Proto", "https"}}, proxy, "inner", false, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := httptest.NewRequest("GET", "/", nil)
			r.RemoteAddr, r.Host = c.from, "inner"
			for _, h := range c.headers {
				r.Header.Add(h[0], h[1])
			}
			var got *http.Request
			var handler http.Handler = http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) { got = r })
			if c.throughProxies {
				handler = behindProxy(handler)
			}
			handler.ServeHTTP(httptest.NewRecorder(), r)
			if got.RemoteAddr != c.addr || got.Host != c.host || isHTTPS(got) != c.https {
				t.Errorf("seen as from %s at %s, https %v; want %s at %s, %v", got.RemoteAddr, got.Host, isHTTPS(got), c.addr, c.host, c.https)
			}
		})
	}
}
