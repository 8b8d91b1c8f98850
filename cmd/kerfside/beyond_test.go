package main

import (
	"encoding/json"
	"log/slog"
	"net"
	"net/http"
	"path/filepath"
	"strings"
	"testing"

	"kerfside/calc/problem"
)

// beyond opens apps in every way that other machines can reach, with a phone
// that finds each by its public name. Nothing here leaves this machine.
func beyond(t *testing.T, try func(t *testing.T, app *App, phone *http.Client, ask func(method, path, body string) *http.Request)) {
	for name, reach := range map[string]Reach{
		"lan":   {LAN: true},
		"cert":  {Hosts: []string{"shop.local"}, Cert: "cert"},
		"plain": {Hosts: []string{"shop.local"}, Plain: true},
		"proxy": {Hosts: []string{"shop.example"}, Proxy: true},
	} {
		t.Run(name, func(t *testing.T) {
			app := shopApp(t, t.TempDir())
			app.Reach, app.Addr = reach, ":0"
			if app.Proxy {
				app.Addr = "localhost:0"
			}
			if app.Cert != "" {
				app.Cert, app.Key = certFiles(t, app.DB)
			}
			openAll(t, app)
			ask := func(method, path, body string) *http.Request {
				base := app.URL()
				if app.Proxy {
					base = "http://" + app.Hosts[0]
				}
				r, err := http.NewRequest(method, base+path, strings.NewReader(body))
				if err != nil {
					t.Fatal(err)
				}
				r.Header.Set("X-Kerfside", "1")
				if app.Proxy {
					r.Header.Set("X-Forwarded-Proto", "https")
					r.Header.Set("X-Forwarded-For", "198.51.100.9")
				}
				return r
			}
			try(t, app, phoneOf(t, app.Addr, filepath.Join(lanFolder(app.DB), "root.crt")), ask)
		})
	}
}

// Whoever reaches the server from elsewhere gets nothing of the journal without
// a token. This is what lets it leave loopback at all.
func TestBeyondNeedsToken(t *testing.T) {
	beyond(t, func(t *testing.T, app *App, phone *http.Client, ask func(method, path, body string) *http.Request) {
		photo := "/api/photos/" + strings.Repeat("0", 64)
		for _, c := range [][2]string{{"POST", "/api/journal/sync"}, {"GET", photo}, {"HEAD", photo}, {"PUT", photo}, {"GET", "/api/devices"}, {"POST", "/api/invites"}} {
			reply, err := phone.Do(ask(c[0], c[1], "{}"))
			if err != nil {
				t.Fatal(err)
			}
			var got problem.Envelope
			err = json.NewDecoder(reply.Body).Decode(&got)
			reply.Body.Close()
			if reply.StatusCode != http.StatusUnauthorized || c[0] != "HEAD" && (err != nil || got.Error.Kind != problem.NoToken) {
				t.Errorf("%s %s without a token = %d %+v, want 401 %s", c[0], c[1], reply.StatusCode, got.Error, problem.NoToken)
			}
		}
	})
}

// A proxy that says nothing of those it speaks for makes nobody look like this
// machine, whose browser may use a journal that nobody has joined.
func TestBeyondSilentProxy(t *testing.T) {
	app := &App{Addr: "localhost:0", DB: filepath.Join(t.TempDir(), "kerfside.db"), Log: slog.New(slog.DiscardHandler), Reach: Reach{Hosts: []string{"shop.example"}, Proxy: true}}
	openAll(t, app)
	r, err := http.NewRequest("POST", "http://"+app.Addr+"/api/journal/sync", strings.NewReader("{}"))
	if err != nil {
		t.Fatal(err)
	}
	r.Host = "localhost"
	r.Header.Set("X-Kerfside", "1")
	reply, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	reply.Body.Close()
	if reply.StatusCode != http.StatusForbidden {
		t.Errorf("sync through a silent proxy = %d, want 403", reply.StatusCode)
	}
}

// A phone that joins gets a cookie that fits the way: for https alone where
// there is https at the phone's side, by its prefix for this one name.
func TestBeyondCookie(t *testing.T) {
	beyond(t, func(t *testing.T, app *App, phone *http.Client, ask func(method, path, body string) *http.Request) {
		link, err := app.Invite("owner")
		if err != nil {
			t.Fatal(err)
		}
		origin, secret, _ := strings.Cut(link, "/join#")
		if origin != app.URL() {
			t.Errorf("the link leads to %s, the app is at %s", origin, app.URL())
		}
		reply, err := phone.Do(ask("POST", "/api/enrol", `{"secret":"`+secret+`","name":"Truck 1"}`))
		if err != nil {
			t.Fatal(err)
		}
		reply.Body.Close()
		cookies := reply.Cookies()
		if reply.StatusCode != http.StatusCreated || len(cookies) == 0 {
			t.Fatalf("enrolment = %d with cookies %v", reply.StatusCode, cookies)
		}
		_, port, _ := net.SplitHostPort(app.Addr)
		want := "__Host-kerfside"
		if app.Plain {
			want = "kerfside-" + port
		}
		if c := cookies[0]; c.Name != want || c.Secure == app.Plain || !c.HttpOnly || c.SameSite != http.SameSiteStrictMode {
			t.Errorf("cookie = %v, want %s", c, want)
		}
	})
}

// Plain HTTP on an address that others reach is refused before anything is
// opened or written.
func TestBeyondRefusesPlain(t *testing.T) {
	for _, addr := range []string{":0", "0.0.0.0:0", "[::]:0", "192.168.1.20:8480"} {
		app := &App{Addr: addr, DB: filepath.Join(t.TempDir(), "kerfside.db"), Log: slog.New(slog.DiscardHandler)}
		err := app.Open()
		if err == nil {
			app.Close()
		}
		if p := problem.From(err); err == nil || p.Kind != problem.Refused || !strings.Contains(p.Hint, "kerfside lan") {
			t.Errorf("Open on %s = %v, want it refused with what works", addr, err)
		}
		if left, _ := filepath.Glob(filepath.Join(filepath.Dir(app.DB), "*")); len(left) > 0 {
			t.Errorf("refused on %s, it left %v", addr, left)
		}
	}
}
