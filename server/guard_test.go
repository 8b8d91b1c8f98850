package server

import (
	"crypto/sha256"
	"encoding/base64"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"

	"kerfside/guides"
	"kerfside/pwa"
)

func guardedServer(t *testing.T, o Options) *Server {
	t.Helper()
	o.App, o.Guides = pwa.Files, guides.Files
	s, err := New(o)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func call(s *Server, url string) *httptest.ResponseRecorder {
	out := httptest.NewRecorder()
	s.ServeHTTP(out, httptest.NewRequest("GET", url, nil))
	return out
}

func TestHostAllowList(t *testing.T) {
	s := guardedServer(t, Options{Hosts: []string{"Shop.Example", "192.0.2.7"}})
	for url, want := range map[string]int{
		"http://localhost:8480/":      http.StatusOK,
		"http://127.0.0.1/":           http.StatusOK,
		"http://[::1]:8480/":          http.StatusOK,
		"https://shop.example:8443/":  http.StatusOK,
		"https://SHOP.EXAMPLE/":       http.StatusOK,
		"https://192.0.2.7/":          http.StatusOK,
		"https://192.0.2.8/":          http.StatusForbidden,
		"https://other.example/":      http.StatusForbidden,
		"https://shop.example.evil/":  http.StatusForbidden,
		"https://a.shop.example/":     http.StatusForbidden,
		"http://localhost.evil:8480/": http.StatusForbidden,
	} {
		if got := call(s, url).Code; got != want {
			t.Errorf("GET %s = %d, want %d", url, got, want)
		}
	}
}

func TestHSTS(t *testing.T) {
	const header = "Strict-Transport-Security"
	for _, c := range []struct {
		url  string
		on   bool
		want string
	}{
		{url: "https://shop.example/", on: true, want: "max-age=31536000"},
		{url: "http://shop.example/", on: true},
		{url: "https://localhost/", on: true},
		{url: "https://shop.example/"},
	} {
		s := guardedServer(t, Options{Hosts: []string{"shop.example"}, HSTS: c.on})
		if got := call(s, c.url).Header().Get(header); got != c.want {
			t.Errorf("%s of %s with HSTS %v = %q, want %q", header, c.url, c.on, got, c.want)
		}
	}
}

// TestScriptOfThePage: only the page of the screens lets a script run that stands in
// it, and no other than the one it has (CSP Level 3, section 8.2).
func TestScriptOfThePage(t *testing.T) {
	s := guardedServer(t, Options{})
	for path, isPage := range map[string]bool{"/": true, "/book": true, "/no-such-page": true, "/manifest.webmanifest": false, "/sw.js": false} {
		reply := httptest.NewRecorder()
		r := httptest.NewRequest("GET", "http://localhost"+path, nil)
		r.Header.Set("Accept", "text/html") // as a browser that follows a link
		s.ServeHTTP(reply, r)
		found := regexp.MustCompile(`(?s)<script>(.*?)</script>`).FindAllStringSubmatch(reply.Body.String(), -1)
		if isPage != (len(found) == 1) {
			t.Errorf("%s holds %d scripts", path, len(found))
			continue
		}
		want := "script-src 'self' 'wasm-unsafe-eval';"
		if isPage {
			sum := sha256.Sum256([]byte(found[0][1]))
			want = "script-src 'self' 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "' 'wasm-unsafe-eval';"
		}
		if got := reply.Header().Get("Content-Security-Policy"); !strings.Contains(got, want) {
			t.Errorf("%s: policy %q, want %q in it", path, got, want)
		}
	}
}
