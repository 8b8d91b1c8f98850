package main

import (
	"log/slog"
	"path/filepath"
	"testing"
)

// The app proves its name to an authority in both ways, serves what it got,
// asks nothing for names it does not go by, and asks no more after a restart.
func TestServeACME(t *testing.T) {
	for _, challenge := range []string{"tls-alpn-01", "http-01"} {
		t.Run(challenge, func(t *testing.T) {
			app := &App{Addr: "127.0.0.1:0", DB: filepath.Join(t.TempDir(), "kerfside.db"), Log: slog.New(slog.DiscardHandler)}
			ca := newAcmeStub(t, app, challenge)
			app.Reach = Reach{ACME: true, ACMEDirectory: ca.URL + "/directory", Hosts: []string{"shop.example.com"}, Redirect: "127.0.0.1:0"}
			openAll(t, app)
			phone := phoneOf(t, app.Addr, ca.rootFile(t))
			if _, err := phone.Get("https://other.example.com/"); err == nil || ca.orders != 0 {
				t.Errorf("a strange name was answered (%v) after %d orders", err, ca.orders)
			}
			reply, err := phone.Get(app.URL() + "/")
			if err != nil {
				t.Fatalf("%v; the authority: %v", err, ca.why)
			}
			reply.Body.Close()
			if got := reply.Header.Get("Strict-Transport-Security"); reply.StatusCode != 200 || got == "" {
				t.Errorf("%s = %d with HSTS %q, want 200 with", app.URL(), reply.StatusCode, got)
			}
			if status, headers := visit(t, phoneOf(t, app.Redirect, ""), "http://shop.example.com/fix"); status != 308 || headers.Get("Location") != app.URL()+"/fix" {
				t.Errorf("plain HTTP = %d to %s, want it sent on", status, headers.Get("Location"))
			}

			phone.CloseIdleConnections()
			if err := app.Close(); err != nil {
				t.Fatal(err)
			}
			if err := app.Open(); err != nil {
				t.Fatal(err)
			}
			if got, _ := visit(t, phone, app.URL()+"/"); got != 200 || ca.orders != 1 {
				t.Errorf("after a restart %d and %d orders, want 200 and still 1", got, ca.orders)
			}
		})
	}
}
