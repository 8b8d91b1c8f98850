package server

import (
	"net/http/httptest"
	"testing"
)

func TestRedirect(t *testing.T) {
	for _, c := range []struct {
		method, url, port string
		status            int
		to                string
	}{
		{"GET", "http://shop.example/guide/torch?x=1", "443", 308, "https://shop.example/guide/torch?x=1"},
		{"HEAD", "http://shop.example:80/", "8443", 308, "https://shop.example:8443/"},
		{"GET", "http://[fd00::20]/", "443", 308, "https://[fd00::20]/"},
		{"GET", "http://shop.example//evil.example/", "443", 308, "https://shop.example//evil.example/"},
		{"GET", "http://evil.example/", "443", 403, ""},
		{"POST", "http://shop.example/api/journal/sync", "443", 403, ""},
	} {
		out := httptest.NewRecorder()
		Redirect([]string{"shop.example", "fd00::20"}, c.port).ServeHTTP(out, httptest.NewRequest(c.method, c.url, nil))
		if out.Code != c.status || out.Header().Get("Location") != c.to {
			t.Errorf("%s %s = %d to %q, want %d to %q", c.method, c.url, out.Code, out.Header().Get("Location"), c.status, c.to)
		}
	}
}
