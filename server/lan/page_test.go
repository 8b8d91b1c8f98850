package lan

import (
	"bytes"
	"crypto/sha256"
	"crypto/x509"
	"encoding/base64"
	"encoding/hex"
	"encoding/xml"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"
)

func testPage(t *testing.T) (*Authority, *Page) {
	t.Helper()
	a := create(t, newClock(), "shop.local", "192.168.1.20")
	p, err := NewPage(a, "http://192.168.1.20:8482", "https://shop.local:8443")
	if err != nil {
		t.Fatal(err)
	}
	return a, p
}

func get(p *Page, method, path string) *httptest.ResponseRecorder {
	out := httptest.NewRecorder()
	p.ServeHTTP(out, httptest.NewRequest(method, path, nil))
	return out
}

// The page serves these four files and nothing else: no journal, no key.
func TestPageServesOnlyTheRoot(t *testing.T) {
	a, p := testPage(t)
	secret, err := x509.MarshalPKCS8PrivateKey(a.key)
	if err != nil {
		t.Fatal(err)
	}
	for path, mime := range map[string]string{
		"/": "text/html; charset=utf-8", "/page.css": "text/css; charset=utf-8",
		"/kerfside.crt": "application/x-x509-ca-cert", "/kerfside.mobileconfig": "application/x-apple-aspen-config",
	} {
		got := get(p, "GET", path)
		if got.Code != 200 || got.Header().Get("Content-Type") != mime {
			t.Errorf("GET %s = %d %s, want 200 %s", path, got.Code, got.Header().Get("Content-Type"), mime)
		}
		if bytes.Contains(got.Body.Bytes(), secret) || strings.Contains(got.Body.String(), base64.StdEncoding.EncodeToString(secret)) {
			t.Errorf("%s holds the root's key", path)
		}
		if strings.Contains(got.Body.String(), "<script") || !strings.Contains(got.Header().Get("Content-Security-Policy"), "default-src 'none'") {
			t.Errorf("%s may run scripts", path)
		}
	}
	for _, path := range []string{"/root.key", "/leaf.pem", "/root.crt", "/api/status", "/api/journal/sync", "/..%2froot.key", "/sw.js"} {
		if got := get(p, "GET", path).Code; got != 404 {
			t.Errorf("GET %s = %d, want 404", path, got)
		}
	}
	if got := get(p, "POST", "/").Code; got != 405 {
		t.Errorf("POST / = %d, want 405", got)
	}
}

// What phones get is the root whose fingerprint the console shows.
func TestPageFingerprint(t *testing.T) {
	a, p := testPage(t)
	sum := sha256.Sum256(get(p, "GET", "/kerfside.crt").Body.Bytes())
	console := strings.ReplaceAll(strings.Join(a.Fingerprint(), ""), " ", "")
	if want := strings.ToUpper(hex.EncodeToString(sum[:])); console != want {
		t.Errorf("the console shows %s, the file has %s", console, want)
	}
	html := get(p, "GET", "/").Body.String()
	for _, line := range a.Fingerprint() {
		if !strings.Contains(html, "<span>"+line+"</span>") {
			t.Errorf("the page does not show %s", line)
		}
	}
	for _, want := range []string{`href="https://shop.local:8443"`, "<svg", "http://192.168.1.20:8482"} {
		if !strings.Contains(html, want) {
			t.Errorf("the page does not hold %s", want)
		}
	}
}

// The profile is a property list whose one payload is the root.
func TestProfile(t *testing.T) {
	a, p := testPage(t)
	body := get(p, "GET", "/kerfside.mobileconfig").Body.Bytes()
	var list struct {
		Dict struct {
			Array struct {
				Dict struct {
					Keys []string `xml:"key"`
					Data string   `xml:"data"`
				} `xml:"dict"`
			} `xml:"array"`
		} `xml:"dict"`
	}
	if err := xml.Unmarshal(body, &list); err != nil {
		t.Fatal(err)
	}
	payload := list.Dict.Array.Dict
	root, err := base64.StdEncoding.DecodeString(payload.Data)
	if err != nil || !bytes.Equal(root, a.Root.Raw) {
		t.Errorf("the payload is not the root: %v", err)
	}
	ids := regexp.MustCompile(`<string>([0-9A-F]{8}-[0-9A-F]{4}-8[0-9A-F]{3}-[89AB][0-9A-F]{3}-[0-9A-F]{12})</string>`).FindAllSubmatch(body, -1)
	if len(ids) != 2 || bytes.Equal(ids[0][1], ids[1][1]) {
		t.Errorf("ids = %s, want two that differ", ids)
	}
}
