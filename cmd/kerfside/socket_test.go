package main

import (
	"context"
	"io/fs"
	"log/slog"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"kerfside/calc/problem"
)

// socketApp is an app that a proxy reaches by a Unix socket alone.
func socketApp(t *testing.T, path string) *App {
	t.Helper()
	return &App{Addr: socketMark + path, DB: filepath.Join(t.TempDir(), "kerfside.db"), Log: slog.New(slog.DiscardHandler), Reach: Reach{Hosts: []string{"shop.example"}, Proxy: true}}
}

// bySocketOf returns the status of the app's first page through its socket, as a
// proxy asks that was called over https.
func bySocketOf(t *testing.T, path string) int {
	t.Helper()
	c := &http.Client{Transport: &http.Transport{DisableKeepAlives: true, DialContext: func(ctx context.Context, _, _ string) (net.Conn, error) {
		return new(net.Dialer).DialContext(ctx, "unix", path)
	}}}
	r, err := http.NewRequest("GET", "http://shop.example/", nil)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("X-Forwarded-Proto", "https")
	reply, err := c.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	reply.Body.Close()
	return reply.StatusCode
}

// leaveSocket leaves a socket's file behind, as a killed program does.
func leaveSocket(t *testing.T, path string) {
	t.Helper()
	l, err := net.ListenUnix("unix", &net.UnixAddr{Name: path, Net: "unix"})
	if err != nil {
		t.Fatal(err)
	}
	l.SetUnlinkOnClose(false)
	l.Close()
	if _, err := os.Lstat(path); err != nil {
		t.Fatal("the stale socket is not there: ", err)
	}
}

func TestSocket(t *testing.T) {
	path := filepath.Join(t.TempDir(), "k.sock")
	leaveSocket(t, path)
	app := socketApp(t, path)
	for _, mode := range []fs.FileMode{0, 0o600} { // it comes and goes with the app
		app.SocketMode = mode
		if err := app.Open(); err != nil {
			t.Fatal(err)
		}
		if status := bySocketOf(t, path); status != http.StatusOK {
			t.Errorf("through the socket the app answers %d, want 200", status)
		}
		want := fs.FileMode(0o660)
		if mode != 0 {
			want = mode
		}
		if info, err := os.Lstat(path); err != nil || runtime.GOOS != "windows" && info.Mode() != fs.ModeSocket|want {
			t.Errorf("the socket has %v, %v; want %v", info.Mode(), err, fs.ModeSocket|want)
		}
		if url := app.URL(); url != "https://shop.example" {
			t.Errorf("the app is to be opened at %s, want the proxy's address", url)
		}
		if err := app.Close(); err != nil {
			t.Fatal(err)
		}
		if _, err := os.Lstat(path); err == nil {
			t.Error("the socket's file is left behind")
		}
	}
}

func TestSocketRefused(t *testing.T) {
	dir := t.TempDir()
	file, used := filepath.Join(dir, "notes.txt"), filepath.Join(dir, "used.sock")
	if err := os.WriteFile(file, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	first := socketApp(t, used)
	openAll(t, first)
	for path, kind := range map[string]problem.Kind{file: problem.Conflict, used: problem.Busy, filepath.Join(dir, "none", "k.sock"): problem.NotFound} {
		err := socketApp(t, path).Open()
		if p := problem.From(err); err == nil || p.Kind != kind || p.Hint == "" {
			t.Errorf("listening on %s: %v, want %s and what to do", filepath.Base(path), err, kind)
		}
	}
	if text, _ := os.ReadFile(file); string(text) != "mine" {
		t.Errorf("the file in its way holds %q", text)
	}
	if status := bySocketOf(t, used); status != http.StatusOK {
		t.Errorf("the first server answers %d after a second tried", status)
	}
}

// What took the socket's place meanwhile is somebody else's.
func TestSocketReplaced(t *testing.T) {
	path := filepath.Join(t.TempDir(), "k.sock")
	app := socketApp(t, path)
	openAll(t, app)
	if err := os.Rename(path, path+".old"); err != nil {
		t.Fatal(err)
	}
	leaveSocket(t, path)
	if err := app.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Lstat(path); err != nil {
		t.Error("the other socket's file is gone: ", err)
	}
}

// With proxies of its own list, whoever else asks on its port gets nothing.
func TestTrustedProxyAlone(t *testing.T) {
	for network, want := range map[string]int{"10.88.0.0/16": http.StatusForbidden, "127.0.0.1": http.StatusOK} {
		app := socketApp(t, "")
		app.Addr = "127.0.0.1:0"
		if err := app.trust(network); err != nil {
			t.Fatal(err)
		}
		openAll(t, app)
		r, err := http.NewRequest("GET", "http://"+app.Addr+"/", nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Host = "shop.example"
		r.Header.Set("X-Forwarded-Proto", "https")
		reply, err := http.DefaultClient.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		reply.Body.Close()
		if reply.StatusCode != want {
			t.Errorf("with proxies in %s a request from 127.0.0.1 = %d, want %d", network, reply.StatusCode, want)
		}
	}
}
