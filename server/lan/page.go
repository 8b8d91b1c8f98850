package lan

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"net/http"
	"strings"
	texttemplate "text/template"

	"kerfside/server/qr"
)

//go:embed page.html page.css root.mobileconfig
var sources embed.FS

// Page is what phones open to install the root: plain HTTP, since they do not
// trust our https yet, and nothing but the root, the steps and the fingerprint.
type Page struct {
	files map[string]pageFile
}

type pageFile struct {
	mime string
	body []byte
}

// NewPage prepares the page. self is its own address, app the one of Kerfside
// once the root is installed.
func NewPage(a *Authority, self, app string) (*Page, error) {
	code, err := qr.Encode(self)
	if err != nil {
		return nil, err
	}
	page, err := template.ParseFS(sources, "page.html")
	if err != nil {
		return nil, err
	}
	var html bytes.Buffer
	err = page.Execute(&html, map[string]any{
		"Self": self, "App": app, "Name": a.Root.Subject.CommonName,
		"Fingerprint": a.Fingerprint(), "Code": template.HTML(code.SVG()), // our own drawing
	})
	if err != nil {
		return nil, err
	}
	profile, err := a.profile()
	if err != nil {
		return nil, err
	}
	style, err := sources.ReadFile("page.css")
	if err != nil {
		return nil, err
	}
	return &Page{map[string]pageFile{
		"/":                      {"text/html; charset=utf-8", html.Bytes()},
		"/page.css":              {"text/css; charset=utf-8", style},
		"/kerfside.crt":          {"application/x-x509-ca-cert", a.Root.Raw},
		"/kerfside.mobileconfig": {"application/x-apple-aspen-config", profile},
	}}, nil
}

// ServeHTTP sends one of the four files.
func (p *Page) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Content-Security-Policy", "default-src 'none'; style-src 'self'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cache-Control", "no-store")
	file, ok := p.files[r.URL.Path]
	switch {
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		http.Error(w, "this page is only for reading", http.StatusMethodNotAllowed)
	case !ok:
		http.Error(w, "there is nothing at this address; start at /", http.StatusNotFound)
	default:
		h.Set("Content-Type", file.mime)
		w.Write(file.body) // an error here means that nobody listens any more
	}
}

// profile writes the root as a configuration profile, the property list in
// which an iPhone takes certificates. Its ids follow from the root, so that a
// second installation replaces the first.
func (a *Authority) profile() ([]byte, error) {
	t, err := texttemplate.ParseFS(sources, "root.mobileconfig")
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256(a.Root.Raw)
	var b bytes.Buffer
	err = t.Execute(&b, map[string]string{
		"Name": a.Root.Subject.CommonName, "ID": fmt.Sprintf("%x", sum[:8]), // names hold letters, digits, dots and dashes only
		"Outer": uuid(sum[:16]), "Inner": uuid(sum[16:]),
		"Root": base64.StdEncoding.EncodeToString(a.Root.Raw),
	})
	return b.Bytes(), err
}

// uuid writes 16 bytes as a version 8 UUID (RFC 9562, 5.8), made from a hash.
func uuid(b []byte) string {
	b = bytes.Clone(b)
	b[6], b[8] = b[6]&0x0f|0x80, b[8]&0x3f|0x80
	return strings.ToUpper(fmt.Sprintf("%x-%x-%x-%x-%x", b[:4], b[4:6], b[6:8], b[8:10], b[10:]))
}
