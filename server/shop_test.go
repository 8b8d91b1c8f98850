package server

import (
	"bytes"
	"encoding/json"
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
	"kerfside/guides"
	"kerfside/pwa"
	"kerfside/server/assets"
	"kerfside/server/store"
)

// shop is a whole server with two crews and a clock that only the test moves.
type shop struct {
	t      *testing.T
	server *Server
	now    time.Time
	log    bytes.Buffer
	path   string   // of the database
	other  string   // id of the second crew
	secret []string // all tokens, secrets and codes that were given out
}

// wholeApp is prepared once for all tests: its files take a while to pack.
var wholeApp = sync.OnceValues(func() (*assets.App, error) {
	return assets.New(assets.Options{Files: pwa.Files, Guides: guides.Files, Screens: screens})
})

func newShop(t *testing.T) *shop {
	t.Helper()
	p := openShop(t, filepath.Join(t.TempDir(), "journal.db"))
	var err error
	if p.other, err = p.server.store.AddCrew("Weir Lane", start); err != nil {
		t.Fatal(err)
	}
	return p
}

// openShop is a whole server on the database at path.
func openShop(t *testing.T, path string) *shop {
	t.Helper()
	p := &shop{t: t, now: time.UnixMilli(start), path: path}
	db, err := store.Open(p.path, store.Options{Crew: crewID})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	now := func() time.Time { return p.now }
	s := &Server{store: db, now: now, hosts: loopback(), limits: newLimits(now), photos: newPhotoFiles(filepath.Join(t.TempDir(), "photos"), 1e6),
		log: slog.New(slog.NewTextHandler(&p.log, &slog.HandlerOptions{Level: slog.LevelDebug}))}
	if s.app, err = wholeApp(); err != nil {
		t.Fatal(err)
	}
	s.handler = s.guarded()
	p.server = s
	return p
}

// client is whoever sends requests, with a cookie or without.
type client struct {
	*shop
	id, token string
}

// join lets a phone join a crew through the server.
func (p *shop) join(crew string, role store.Role, name string) client {
	p.t.Helper()
	v, err := p.server.store.Invite(crew, role, "", p.now.UnixMilli())
	if err != nil {
		p.t.Fatal(err)
	}
	c := client{shop: p}
	out := c.send("POST", "/api/enrol", fmt.Sprintf(`{"secret":%q,"name":%q,"device":%q}`, v.Secret, name, name))
	cookies := out.Result().Cookies()
	if out.Code != 201 || len(cookies) != 1 {
		p.t.Fatalf("%s joins: %d %s", name, out.Code, out.Body)
	}
	c.token = cookies[0].Value
	p.secret = append(p.secret, v.Secret, v.Code, c.token)
	if c.id = told[struct{ Device string }](p.t, out).Device; c.id != name {
		p.t.Fatalf("%s joins as %q", name, c.id)
	}
	return c
}

// send sends a request as the app does; change may spoil it.
func (c client) send(method, path, body string, change ...func(*http.Request)) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, "http://localhost:8480"+path, strings.NewReader(body))
	r.Header.Set("X-Kerfside", "1")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	if c.token != "" {
		r.AddCookie(&http.Cookie{Name: "kerfside-8480", Value: c.token})
	}
	for _, f := range change {
		f(r)
	}
	out := httptest.NewRecorder()
	c.server.ServeHTTP(out, r)
	return out
}

// told reads a reply.
func told[T any](t *testing.T, out *httptest.ResponseRecorder) T {
	t.Helper()
	var v T
	if err := json.Unmarshal(out.Body.Bytes(), &v); err != nil {
		t.Fatalf("%d %q: %v", out.Code, out.Body, err)
	}
	return v
}

// kind returns the kind of a reply's error, "" if it is none.
func kind(out *httptest.ResponseRecorder) problem.Kind {
	var e problem.Envelope
	if json.Unmarshal(out.Body.Bytes(), &e) != nil || e.Error == nil {
		return ""
	}
	return e.Error.Kind
}

// syncOf is the body of a sync that names a crew.
func syncOf(crew string, events ...string) string {
	head, _ := json.Marshal(exchange.RequestHead{Proto: 1, Crew: crew, Now: start, Count: len(events)})
	return string(head) + "\n" + strings.Join(append(events, ""), "\n")
}
