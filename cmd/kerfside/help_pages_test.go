package main

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"encoding/pem"
	"io"
	"math/big"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"kerfside/server"
	"kerfside/server/help"
)

// served is what serve prints of its address.
var served = regexp.MustCompile(`Kerfside \S+ on (\S+)\n(?s:.*)Stop with Ctrl-C`)

func TestPageTry(t *testing.T) {
	s := newShell(t, map[string]string{})
	s.env = append(s.env, "TMPDIR="+s.dir)
	found, stop := s.serve(t, help.Block("index", "try"), served)
	made, err := filepath.Glob(filepath.Join(s.dir, "*", "kerfside.db"))
	if err != nil || len(made) != 1 {
		t.Errorf("it keeps its journal in %v, %v", made, err)
	}
	reply, err := http.Get(found[1] + "/join")
	if err != nil {
		t.Fatal(err)
	}
	defer reply.Body.Close()
	if page, err := io.ReadAll(reply.Body); err != nil || !strings.Contains(string(page), server.Invented) {
		t.Errorf("%s/join: %s, %v", found[1], reply.Status, err)
	}
	stop()
	if left, err := os.ReadDir(s.dir); err != nil || len(left) > 0 {
		t.Errorf("it leaves %v, %v", left, err)
	}
}

func TestPageTryOwn(t *testing.T) {
	s := newShell(t, map[string]string{"serve": "-addr localhost:0"})
	found, stop := s.serve(t, help.Block("index", "own"), served)
	reply, err := http.Get(found[1] + "/help")
	if err != nil {
		t.Fatal(err)
	}
	reply.Body.Close()
	if reply.StatusCode != http.StatusOK {
		t.Errorf("%s/help: %s", found[1], reply.Status)
	}
	stop()
}

// What the shop's certificate is good for is what phones call the server.
func TestPageShop(t *testing.T) {
	s := newShell(t, map[string]string{"lan": "-page 127.0.0.1:0", "serve": "-addr 127.0.0.1:0"})
	_, stop := s.serve(t, help.Block("shop", "certificate"), regexp.MustCompile(`(?s)SHA-256.*http://192\.168\.1\.20:\d+`))
	stop()
	found, _ := s.serve(t, help.Block("shop", "serve"), served)
	root, err := filepath.Glob(filepath.Join(s.dir, "kerfside.db.lan", "*.crt"))
	if err != nil || len(root) == 0 {
		t.Fatalf("no certificate in kerfside.db.lan, where the page says that the root lies: %v", err)
	}
	if status, _ := visit(t, phoneOf(t, atLoopback(t, found[1]), root[0]), found[1]+"/"); status != http.StatusOK {
		t.Errorf("%s: %d", found[1], status)
	}
}

// publicName is what the pages call a server on the internet.
const publicName = "kerfside.example.com"

func TestPagePublicCertificate(t *testing.T) {
	s := newShell(t, map[string]string{"serve": "-addr 127.0.0.1:0"})
	selfSigned(t, s.dir, "fullchain.pem", "privkey.pem")
	found, _ := s.serve(t, help.Block("public", "certificate"), served)
	phone := phoneOf(t, atLoopback(t, found[1]), filepath.Join(s.dir, "fullchain.pem"))
	if status, headers := visit(t, phone, found[1]+"/"); status != http.StatusOK || headers.Get("Strict-Transport-Security") == "" {
		t.Errorf("%s: %d with HSTS %q", found[1], status, headers.Get("Strict-Transport-Security"))
	}
}

func TestPagePublicACME(t *testing.T) {
	app := &App{}
	ca := newAcmeStub(t, app, "tls-alpn-01")
	s := newShell(t, map[string]string{"serve": "-addr 127.0.0.1:0 -redirect none -acme-directory " + ca.URL + "/directory"})
	found, _ := s.serve(t, help.Block("public", "acme"), served)
	app.Addr = atLoopback(t, found[1])
	phone := phoneOf(t, app.Addr, ca.rootFile(t))
	if status, _ := visit(t, phone, found[1]+"/"); status != http.StatusOK {
		t.Errorf("%s: %d; the authority: %v", found[1], status, ca.why)
	}
}

// atLoopback is where a server of that address listens in a test.
func atLoopback(t *testing.T, address string) string {
	t.Helper()
	u, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	return "127.0.0.1:" + u.Port()
}

// selfSigned writes a certificate for publicName and its key.
func selfSigned(t *testing.T, dir, certificate, key string) {
	t.Helper()
	secret, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	template := &x509.Certificate{
		SerialNumber: big.NewInt(1), DNSNames: []string{publicName}, NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour),
		IsCA: true, BasicConstraintsValid: true,
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, secret.Public(), secret)
	if err != nil {
		t.Fatal(err)
	}
	private, err := x509.MarshalPKCS8PrivateKey(secret)
	if err != nil {
		t.Fatal(err)
	}
	for name, block := range map[string]*pem.Block{certificate: {Type: "CERTIFICATE", Bytes: der}, key: {Type: "PRIVATE KEY", Bytes: private}} {
		if err := os.WriteFile(filepath.Join(dir, name), pem.EncodeToMemory(block), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

// Erasing and revoking work beside a running server.
func TestPageLookAfter(t *testing.T) {
	s := newShell(t, nil)
	app := openApp(t, s.dir)
	defer app.Close()
	link, err := app.Invite("owner")
	if err != nil {
		t.Fatal(err)
	}
	enrolAt(t, app, link)
	e := appendNote(t, app, "the wrong customer")
	s.run(t, "ID="+e.ID+"\n"+help.Block("look-after", "erase"))
	if err := app.store.NoteErasures(t.Context()); err != nil { // which the server does each minute
		t.Fatal(err)
	}
	rows, err := app.store.After(t.Context(), app.store.Crew(), 0, 10, 1<<20)
	if err != nil || len(rows) != 1 || !rows[0].Erased || strings.Contains(string(rows[0].Raw), "customer") {
		t.Errorf("after erase the server holds %+v, %v", rows, err)
	}
	if said := s.run(t, "DEVICE=phone-a\n"+help.Block("look-after", "revoke")); !strings.Contains(said, "Truck 1") || !strings.Contains(said, "Revoked") {
		t.Errorf("devices and revoke say %s", said)
	}
}
