package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"math/rand/v2"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"kerfside/server/help"
)

// TestPageProxy runs nginx and Caddy, general-purpose proxies as Debian packs them,
// with the configurations of the page, and goes through each with phones: pages,
// joining, entries, waiting for news, pictures, limits.
func TestPageProxy(t *testing.T) {
	caddySocket := func(text string) string {
		return strings.Replace(text, "    reverse_proxy 127.0.0.1:8480\n", help.Block("proxy", "caddy-socket"), 1)
	}
	nginxSocket := func(text string) string {
		return strings.Replace(text, "    server 127.0.0.1:8480;\n", help.Block("proxy", "nginx-socket"), 1)
	}
	for _, c := range []struct {
		name, serve string
		run         func(s *proxyShell)
	}{
		{name: "nginx", serve: help.Block("proxy", "machine"), run: func(s *proxyShell) { s.nginx(help.Block("proxy", "nginx")) }},
		{name: "nginx-socket", serve: help.Block("proxy", "socket"), run: func(s *proxyShell) { s.nginx(nginxSocket(help.Block("proxy", "nginx"))) }},
		{name: "caddy", serve: help.Block("proxy", "machine"), run: func(s *proxyShell) { s.caddy(help.Block("proxy", "caddy")) }},
		{name: "caddy-socket", serve: help.Block("proxy", "socket"), run: func(s *proxyShell) { s.caddy(caddySocket(help.Block("proxy", "caddy"))) }},
		{name: "two-in-a-row", serve: help.Block("proxy", "container"), run: func(s *proxyShell) {
			inner := s.nginx(help.Block("proxy", "inner"))
			s.kerfside = inner.http
			s.caddy(help.Block("proxy", "caddy"))
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newProxyShell(t, c.serve)
			c.run(s)
			s.throughProxy()
		})
	}
}

// throughProxy does as phones do, by the name alone.
func (s *proxyShell) throughProxy() {
	t := s.t
	one, other := s.phone("127.0.0.2"), s.phone("127.0.0.3")
	page := one.ask("GET", "/", nil)
	if page.status != http.StatusOK || page.header.Get("Strict-Transport-Security") == "" || !bytes.Contains(page.body, []byte("Kerfside")) {
		t.Errorf("the page: %d, HSTS %q", page.status, page.header.Get("Strict-Transport-Security"))
	}
	if open := one.ask("GET", "http://"+publicName+"/cut?a=b", nil); open.status < 301 || open.status > 308 || !regexp.MustCompile(`^https://`+publicName+`(:\d+)?/cut\?a=b$`).MatchString(open.header.Get("Location")) {
		t.Errorf("plain HTTP: %d to %q, want it sent on to https", open.status, open.header.Get("Location"))
	}
	crew := one.join(s.secret("owner"))
	other.join(s.secret("invite"))

	waits := make(chan answer, 1)
	before := other.sync(crew)
	go func() { waits <- other.ask("GET", fmt.Sprint("/api/journal/news?after=", before), nil) }()
	for !strings.Contains(told(t, s.watch, "/metrics"), "\nkerfside_waits 1\n") {
		select {
		case news := <-waits:
			t.Fatalf("waiting for news was answered before there were any: %d %s", news.status, news.body)
		default:
		}
	}
	after := one.sync(crew, proxyNote)
	if news := <-waits; news.status != http.StatusOK || !bytes.Contains(news.body, fmt.Appendf(nil, `"max":%d`, after)) || after != before+1 {
		t.Errorf("waiting for news after %d: %d %s, want %d", before, news.status, news.body, after)
	}

	picture := noise(t)
	sum := sha256.Sum256(picture)
	address := "/api/photos/" + hex.EncodeToString(sum[:])
	if put := one.ask("PUT", address, picture); put.status/100 != 2 {
		t.Errorf("a picture of %d bytes: %d %s", len(picture), put.status, put.body)
	}
	if got := other.ask("GET", address, nil); got.status != http.StatusOK || !bytes.Equal(got.body, picture) {
		t.Errorf("the picture comes back as %d with %d bytes, want %d", got.status, len(got.body), len(picture))
	}
	s.limits()
}

// limits lets a phone type codes until it is slowed down. Another one, which the
// same proxy speaks for, is not; and the first does not get on by any lie.
func (s *proxyShell) limits() {
	t := s.t
	guesser, other := s.phone("127.0.0.4"), s.phone("127.0.0.5")
	guess := func(p *proxyPhone) int { return p.ask("POST", "/api/enrol", []byte(`{"code":"x","name":"x"}`)).status }
	tries := 0
	for ; tries < 60 && guess(guesser) != http.StatusTooManyRequests; tries++ {
	}
	if tries == 60 {
		t.Error("a phone that guesses is never slowed down")
	}
	if status := guess(other); status == http.StatusTooManyRequests {
		t.Error("another phone is slowed down with it: the proxy's address is counted")
	}
	for header, lie := range map[string]string{"X-Forwarded-For": "198.51.100.%d", "X-Real-IP": "198.51.100.%d", "Forwarded": "for=198.51.100.%d"} {
		free := 0
		for i := range 8 {
			guesser.header = http.Header{header: {fmt.Sprintf(lie, i)}}
			if guess(guesser) != http.StatusTooManyRequests {
				free++ // one may be: the bucket fills again
			}
		}
		if free > 4 {
			t.Errorf("with %s it got on %d times of 8", header, free)
		}
	}
	guesser.header = http.Header{"X-Forwarded-Proto": {"http"}, "X-Forwarded-Host": {"other.example"}}
	if page := guesser.ask("GET", "/", nil); page.status != http.StatusOK {
		t.Errorf("the phone's own X-Forwarded-… counted: %d %s", page.status, page.body)
	}
}

// proxyNote is an entry of a phone.
const proxyNote = `{"id":"proxynote0000000000001","t":"0199f3c0b4000001","wall":[1760731116544,0],"device":"truck-1","kind":"note.added","v":1,"body":{"text":"sluice gate, second hinge"}}`

// join lets a phone join, and returns its crew.
func (p *proxyPhone) join(secret string) (crew string) {
	p.t.Helper()
	a := p.ask("POST", "/api/enrol", []byte(`{"secret":"`+secret+`","name":"Truck"}`))
	var told struct{ Crew string }
	if err := json.Unmarshal(a.body, &told); err != nil || a.status != http.StatusCreated {
		p.t.Fatalf("joining: %d %s", a.status, a.body)
	}
	cookies := (&http.Response{Header: a.header}).Cookies()
	if len(cookies) == 0 {
		p.t.Fatal("joining sets no cookie")
	}
	for _, c := range cookies {
		if !c.Secure || c.SameSite != http.SameSiteStrictMode {
			p.t.Errorf("the cookie %s is not kept to https: %s", c.Name, a.header["Set-Cookie"])
		}
		p.cookies = append(p.cookies, c)
	}
	if p.cookies[0].Name != "__Host-kerfside" {
		p.t.Errorf("the token's cookie is called %s", p.cookies[0].Name)
	}
	return told.Crew
}

// sync sends entries and returns the number of the newest.
func (p *proxyPhone) sync(crew string, events ...string) int64 {
	p.t.Helper()
	body := fmt.Sprintf(`{"proto":1,"crew":%q,"now":1760731116544,"count":%d}`, crew, len(events)) + "\n" + strings.Join(append(events, ""), "\n")
	a := p.ask("POST", "/api/journal/sync", []byte(body))
	var told struct{ Max int64 }
	if err := json.Unmarshal(bytes.SplitN(a.body, []byte("\n"), 2)[0], &told); err != nil || a.status != http.StatusOK {
		p.t.Fatalf("a sync: %d %s", a.status, a.body)
	}
	return told.Max
}

// noise is a picture of some 0.4 MB, as a phone sends at most.
func noise(t *testing.T) []byte {
	t.Helper()
	chance := rand.New(rand.NewPCG(1, 2))
	m := image.NewGray(image.Rect(0, 0, 900, 680))
	for i := range m.Pix {
		m.Pix[i] = uint8(chance.Uint32())
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 85}); err != nil {
		t.Fatal(err)
	}
	if b.Len() < 350_000 || b.Len() > 600_000 {
		t.Fatalf("the picture has %d bytes", b.Len())
	}
	return b.Bytes()
}

// answer is what came back.
type answer struct {
	status int
	header http.Header
	body   []byte
}

// proxyPhone is a phone that calls the server by its name.
type proxyPhone struct {
	t       *testing.T
	client  *http.Client
	header  http.Header // more of it
	cookies []*http.Cookie
}

// ask sends a request as the app does.
func (p *proxyPhone) ask(method, address string, body []byte) answer {
	if !strings.HasPrefix(address, "http://") {
		address = "https://" + publicName + address
	}
	r, err := http.NewRequest(method, address, bytes.NewReader(body))
	if err != nil {
		p.t.Error(err)
		return answer{}
	}
	for name, values := range p.header {
		r.Header[name] = values
	}
	r.Header.Set("X-Kerfside", "1")
	for _, c := range p.cookies {
		r.AddCookie(&http.Cookie{Name: c.Name, Value: c.Value})
	}
	reply, err := p.client.Do(r)
	if err != nil {
		p.t.Error(err)
		return answer{}
	}
	defer reply.Body.Close()
	got, err := io.ReadAll(reply.Body)
	if err != nil {
		p.t.Error(err)
	}
	return answer{status: reply.StatusCode, header: reply.Header, body: got}
}
