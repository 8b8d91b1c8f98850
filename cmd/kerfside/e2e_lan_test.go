package main

import (
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"fmt"
	"io"
	"log"
	"log/slog"
	"math/big"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"kerfside/cmd/internal/browser"
	"kerfside/server/lan"
)

// lanPhone starts a phone in the shop's network, which finds these names at
// this machine. With a root it has installed that.
func lanPhone(ctx context.Context, t *testing.T, profile, root string, names ...string) (*browser.Browser, *browser.Page) {
	t.Helper()
	home := t.TempDir()
	if root != "" {
		if err := browser.Trust(home, root); err != nil {
			t.Fatal(err)
		}
	}
	var rules []string
	for _, name := range names {
		rules = append(rules, "MAP "+name+" 127.0.0.1")
	}
	b, err := browser.Launch(ctx, browser.Options{Profile: profile, Home: home, Flags: []string{"--host-resolver-rules=" + strings.Join(rules, ",")}})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(b.Kill)
	page, err := b.Page(ctx, browser.Phone)
	if err != nil {
		t.Fatal(err)
	}
	return b, page
}

// TestBrowserLAN is a phone on the shop's network: it trusts the root, keeps
// the app and its token, works with the server gone and syncs when it is back.
func TestBrowserLAN(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
	defer cancel()
	dir := place(t)
	app := shopApp(t, dir)
	app.overlay = withHook
	if err := app.Open(); err != nil {
		t.Fatal(err)
	}
	b, page := lanPhone(ctx, t, filepath.Join(dir, "phone-A"), filepath.Join(lanFolder(app.DB), "root.crt"), "shop.local")
	phone := &device{browser: b, page: page}
	if err := page.Open(ctx, app.URL()+"/"); err != nil {
		t.Fatal(err)
	}
	phone.wait(ctx, t, `isSecureContext && location.hostname === "shop.local" && navigator.serviceWorker.ready.then(({ active }) => active.state === "activated")`)

	phone.join(ctx, t, app)
	cookies, err := b.Cookies(ctx)
	if err != nil {
		t.Fatal(err)
	}
	want := browser.Cookie{Name: "__Host-kerfside", Domain: "shop.local", Path: "/", SameSite: "Strict", Secure: true, HTTPOnly: true}
	routing := want
	routing.Name = "kerfside_crew"
	slices.SortFunc(cookies, func(a, b browser.Cookie) int { return strings.Compare(a.Name, b.Name) })
	if !slices.Equal(cookies, []browser.Cookie{want, routing}) {
		t.Errorf("cookies = %+v, want %+v and %+v", cookies, want, routing)
	}
	phone.wait(ctx, t, `fetch("/api/status").then((reply) => reply.json()).then(({ enrolled, role }) => enrolled && role === "owner")`)

	if err := app.Close(); err != nil {
		t.Fatal(err)
	}
	if err := page.Reload(ctx); err != nil {
		t.Fatal(err)
	}
	phone.wait(ctx, t, `globalThis.kerfside?.stateHash().then(({ hash }) => hash !== "")`)
	phone.ask(ctx, t, `kerfside.journal.tap({ kind: "note.added", body: { text: "no signal" } }).then(({ written }) => written)`, new(bool))
	if err := app.Open(); err != nil {
		t.Fatal(err)
	}
	defer app.Close()
	phone.holds(ctx, t, 1)
	state, err := app.store.Status(ctx)
	if err != nil || state.Events != 1 {
		t.Errorf("the server holds %d entries, %v; want the one made without signal", state.Events, err)
	}
}

// rogue serves https with a certificate for any name, signed with the root's
// own key: what a thief of the key could do.
func rogue(t *testing.T, folder, name string) (port string) {
	t.Helper()
	read := func(file string) []byte {
		text, err := os.ReadFile(filepath.Join(folder, file))
		if err != nil {
			t.Fatal(err)
		}
		block, _ := pem.Decode(text)
		return block.Bytes
	}
	root, err := x509.ParseCertificate(read("root.crt"))
	if err != nil {
		t.Fatal(err)
	}
	rootKey, err := x509.ParsePKCS8PrivateKey(read("root.key"))
	if err != nil {
		t.Fatal(err)
	}
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	der, err := x509.CreateCertificate(rand.Reader, &x509.Certificate{
		SerialNumber: big.NewInt(time.Now().UnixNano()), DNSNames: []string{name},
		NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(24 * time.Hour),
		KeyUsage: x509.KeyUsageDigitalSignature, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
	}, root, key.Public(), rootKey)
	if err != nil {
		t.Fatal(err)
	}
	s := httptest.NewUnstartedServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { fmt.Fprint(w, "<title>rogue</title>") }))
	s.TLS = &tls.Config{Certificates: []tls.Certificate{{Certificate: [][]byte{der}, PrivateKey: key}}}
	s.Config.ErrorLog = log.New(io.Discard, "", 0) // refused handshakes are the point
	s.StartTLS()
	t.Cleanup(s.Close)
	_, port, err = net.SplitHostPort(s.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	return port
}

// The browser itself holds the root to its constraints: the same key opens the
// shop's names, and no other.
func TestBrowserLANConstraints(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
	defer cancel()
	dir := place(t)
	folder := filepath.Join(dir, "kerfside.lan")
	if _, err := makeAuthority(folder, shopHosts); err != nil {
		t.Fatal(err)
	}
	root := filepath.Join(folder, "root.crt")
	const inside, outside = "bench.shop.local", "bank.example"
	for _, c := range []struct{ name, root, host, refused string }{
		{name: "inside", root: root, host: inside},
		{name: "outside", root: root, host: outside, refused: "net::ERR_CERT_INVALID"},
		{name: "without the root", host: inside, refused: "net::ERR_CERT_AUTHORITY_INVALID"},
	} {
		t.Run(c.name, func(t *testing.T) {
			port := rogue(t, folder, c.host)
			_, page := lanPhone(ctx, t, t.TempDir(), c.root, inside, outside)
			err := page.Open(ctx, "https://"+c.host+":"+port+"/")
			if c.refused == "" && err != nil {
				t.Errorf("the shop's own name was refused: %v", err)
			}
			if c.refused != "" && (err == nil || !strings.Contains(err.Error(), c.refused)) {
				t.Errorf("open = %v, want %s", err, c.refused)
			}
		})
	}
}

// The page with the root fits a phone, runs nothing and complains of nothing.
func TestBrowserLANPage(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
	defer cancel()
	dir := place(t)
	authority, err := makeAuthority(filepath.Join(dir, "kerfside.lan"), shopHosts)
	if err != nil {
		t.Fatal(err)
	}
	handler, err := lan.NewPage(authority, "http://192.168.1.20:8482", "https://shop.local:8443")
	if err != nil {
		t.Fatal(err)
	}
	s := httptest.NewServer(handler)
	defer s.Close()
	_, page := lanPhone(ctx, t, filepath.Join(dir, "phone-A"), "")
	for _, screen := range []browser.Screen{browser.Phone, {Width: 320, Height: 568, Scale: 2, Touch: true}} {
		if err := page.Resize(ctx, screen); err != nil {
			t.Fatal(err)
		}
		if err := page.Open(ctx, s.URL); err != nil {
			t.Fatal(err)
		}
		var wide int
		if err := page.Evaluate(ctx, `document.documentElement.scrollWidth - innerWidth`, &wide); err != nil || wide > 0 {
			t.Errorf("at %d px the page is %d px too wide, %v", screen.Width, wide, err)
		}
		var small []string
		err := page.Evaluate(ctx, `[...document.querySelectorAll("a")].filter((a) => a.getBoundingClientRect().height < 72).map((a) => a.textContent)`, &small)
		if err != nil || len(small) > 0 {
			t.Errorf("at %d px too small for a glove: %v, %v", screen.Width, small, err)
		}
		picture, err := page.Picture(ctx)
		if err == nil {
			err = os.WriteFile(filepath.Join(dir, fmt.Sprintf("page-%d.png", screen.Width)), picture, 0o644)
		}
		if err != nil {
			t.Error(err)
		}
	}
	if faults := page.Faults(); len(faults) > 0 {
		t.Errorf("the page complained: %v", faults)
	}
}

// What the refusal of plain HTTP says is so: off loopback the browser has no
// service worker to keep the app with.
func TestBrowserPlainHTTP(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
	defer cancel()
	dir := place(t)
	app := &App{Addr: "127.0.0.1:0", DB: filepath.Join(dir, "kerfside.db"), Log: slog.New(slog.DiscardHandler), Reach: Reach{Plain: true, Hosts: []string{"shop.local"}}}
	openAll(t, app)
	_, page := lanPhone(ctx, t, filepath.Join(dir, "phone-A"), "", "shop.local")
	if err := page.Open(ctx, app.URL()+"/"); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Host           string
		Secure, Worker bool
	}
	err := page.Evaluate(ctx, `({ host: location.hostname, secure: isSecureContext, worker: "serviceWorker" in navigator })`, &got)
	if err != nil || got.Host != "shop.local" || got.Secure || got.Worker {
		t.Errorf("over plain HTTP: %+v, %v; want shop.local without a secure context", got, err)
	}
}
