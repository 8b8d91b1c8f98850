package main

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"encoding/json"
	"encoding/pem"
	"io"
	"log/slog"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/calc/problem"
)

// shopHosts are what the tests' shop network is called by.
var shopHosts = []string{"shop.local", "192.168.1.20"}

// shopApp is an App with the certificates of a shop network.
func shopApp(t testing.TB, dir string) *App {
	t.Helper()
	app := &App{Addr: "127.0.0.1:0", DB: filepath.Join(dir, "kerfside.db"), Log: slog.New(slog.DiscardHandler), Reach: Reach{LAN: true}}
	if _, err := makeAuthority(lanFolder(app.DB), shopHosts); err != nil {
		t.Fatal(err)
	}
	return app
}

func openAll(t testing.TB, app *App) {
	t.Helper()
	if err := app.Open(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := app.Close(); err != nil {
			t.Error(err)
		}
	})
}

// phoneOf returns a client that finds every name at the app and trusts the
// certificates in a PEM file alone.
func phoneOf(t testing.TB, addr, trusted string) *http.Client {
	t.Helper()
	roots := x509.NewCertPool()
	if trusted != "" {
		text, err := os.ReadFile(trusted)
		if err != nil || !roots.AppendCertsFromPEM(text) {
			t.Fatalf("no certificate in %s: %v", trusted, err)
		}
	}
	_, port, err := net.SplitHostPort(addr)
	if err != nil {
		t.Fatal(err)
	}
	transport := &http.Transport{
		TLSClientConfig:   &tls.Config{RootCAs: roots},
		ForceAttemptHTTP2: true,
		DialContext: func(ctx context.Context, network, _ string) (net.Conn, error) {
			return new(net.Dialer).DialContext(ctx, network, "127.0.0.1:"+port)
		},
	}
	t.Cleanup(transport.CloseIdleConnections)
	return &http.Client{Transport: transport, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
}

// visit returns the status and the headers of a page.
func visit(t *testing.T, phone *http.Client, url string) (int, http.Header) {
	t.Helper()
	reply, err := phone.Get(url)
	if err != nil {
		t.Fatal(err)
	}
	reply.Body.Close()
	return reply.StatusCode, reply.Header
}

func TestServeLAN(t *testing.T) {
	app := shopApp(t, t.TempDir())
	app.Redirect = "127.0.0.1:0"
	openAll(t, app)
	_, port, _ := net.SplitHostPort(app.Addr)
	if want := "https://shop.local:" + port; app.URL() != want {
		t.Errorf("URL = %s, want %s", app.URL(), want)
	}
	root := filepath.Join(lanFolder(app.DB), "root.crt")
	phone := phoneOf(t, app.Addr, root)
	for _, host := range shopHosts {
		status, headers := visit(t, phone, "https://"+host+":"+port+"/")
		if status != 200 || headers.Get("Strict-Transport-Security") != "" {
			t.Errorf("https://%s = %d with HSTS %q, want 200 without", host, status, headers.Get("Strict-Transport-Security"))
		}
	}
	if _, err := phone.Get("https://other.local/"); err == nil {
		t.Error("the certificate was taken for another name")
	}
	if _, err := phoneOf(t, app.Addr, "").Get(app.URL()); err == nil {
		t.Error("a phone without the root took the certificate")
	}
	status, headers := visit(t, phoneOf(t, app.Redirect, ""), "http://shop.local/guides")
	if status != 308 || headers.Get("Location") != app.URL()+"/guides" {
		t.Errorf("plain HTTP = %d to %s, want it sent on to https", status, headers.Get("Location"))
	}
}

// certFiles writes the shop's certificate as the two files of -cert and -key.
func certFiles(t *testing.T, db string) (certificate, key string) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(lanFolder(db), "leaf.pem"))
	if err != nil {
		t.Fatal(err)
	}
	first, rest := pem.Decode(text)
	dir := t.TempDir()
	for name, data := range map[string][]byte{"cert.pem": pem.EncodeToMemory(first), "key.pem": rest} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
}

func TestServeCert(t *testing.T) {
	app := shopApp(t, t.TempDir())
	certificate, key := certFiles(t, app.DB)
	app.Reach = Reach{Hosts: []string{"shop.local"}, Cert: certificate, Key: key}
	openAll(t, app)
	phone := phoneOf(t, app.Addr, filepath.Join(lanFolder(app.DB), "root.crt"))
	if status, _ := visit(t, phone, app.URL()+"/"); status != 200 {
		t.Errorf("%s = %d, want 200", app.URL(), status)
	}
	if status, _ := visit(t, phone, "https://192.168.1.20/"); status != 403 {
		t.Errorf("a name that the certificate has and -host has not = %d, want 403", status)
	}
}

func TestServeCertRefuses(t *testing.T) {
	app := shopApp(t, t.TempDir())
	certificate, key := certFiles(t, app.DB)
	for name, r := range map[string]Reach{
		"not for the host": {Hosts: []string{"other.example"}, Cert: certificate, Key: key},
		"no such file":     {Hosts: []string{"shop.local"}, Cert: certificate + "x", Key: key},
	} {
		app.Reach = r
		err := app.Open()
		if err == nil {
			app.Close()
		}
		if p := problem.From(err); err == nil || p.Hint == "" || !strings.Contains(p.Msg, certificate) {
			t.Errorf("%s: %v, want a refusal that names the file", name, err)
		}
	}
}

func TestServeLANWithoutCertificate(t *testing.T) {
	app := &App{Addr: "127.0.0.1:0", DB: filepath.Join(t.TempDir(), "kerfside.db"), Reach: Reach{LAN: true}}
	err := app.Open()
	if err == nil {
		app.Close()
	}
	if p := problem.From(err); err == nil || !strings.Contains(p.Hint, "kerfside lan -host") {
		t.Errorf("Open = %v, want a hint at kerfside lan", err)
	}
}

// status asks the app for its time, which everyone may.
func status(t *testing.T, phone *http.Client, url string) (version string) {
	t.Helper()
	reply, err := phone.Get(url + "/api/status")
	if err != nil {
		t.Fatal(err)
	}
	defer reply.Body.Close()
	var got struct{ Version string }
	body, err := io.ReadAll(reply.Body)
	if err == nil {
		err = json.Unmarshal(body, &got)
	}
	if err != nil {
		t.Fatalf("%s/api/status: %v: %s", url, err, body)
	}
	return got.Version
}

// An app that is closed twice, or could not be opened again, has nothing to close.
func TestCloseOnce(t *testing.T) {
	app := shopApp(t, t.TempDir())
	openAll(t, app)
	if err := app.Close(); err != nil {
		t.Fatal(err)
	}
	taken, err := net.Listen("tcp", app.Addr)
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	if err := app.Open(); err == nil {
		t.Fatal("opened on a port that another holds")
	}
	if err := app.Close(); err != nil {
		t.Error(err)
	}
}

// After a restart the phones find the same root, certificate and port.
func TestServeLANAgain(t *testing.T) {
	app := shopApp(t, t.TempDir())
	openAll(t, app)
	phone := phoneOf(t, app.Addr, filepath.Join(lanFolder(app.DB), "root.crt"))
	before := app.URL()
	for range 2 {
		if got := status(t, phone, before); got != thisBuild().Short() {
			t.Errorf("version = %q, want %q", got, thisBuild().Short())
		}
		phone.CloseIdleConnections()
		if err := app.Close(); err != nil {
			t.Fatal(err)
		}
		if err := app.Open(); err != nil {
			t.Fatal(err)
		}
	}
}
