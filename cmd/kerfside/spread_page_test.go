package main

import (
	"context"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"kerfside/cmd/internal/load"
	"kerfside/server/help"
	"kerfside/server/store"
)

// spread are two servers behind nginx, as the page sets them up.
type spread struct {
	*testing.T
	first, second *proxyShell
	crew          string // on the first
	other         string // on the second
	bin           string // holds nginx as the test runs it
}

func newSpread(t *testing.T) *spread {
	t.Helper()
	debianProgram(t, "nginx")
	s := &spread{T: t, first: newProxyShell(t, help.Block("spread", "serve")), second: newProxyShell(t, help.Block("spread", "serve"))}
	s.crew, s.other = s.firstCrew(s.first), s.firstCrew(s.second)
	s.first.nginx(s.site(false))
	s.second.front = s.first.front
	bin := t.TempDir()
	script := fmt.Sprintf("#!/bin/sh\nexec %s -p %s -c %s \"$@\"\n", debianProgram(t, "nginx"), filepath.Dir(s.first.conf), s.first.conf)
	if err := os.WriteFile(filepath.Join(bin, "nginx"), []byte(script), 0o755); err != nil {
		t.Fatal(err)
	}
	s.bin = bin
	return s
}

// firstCrew is the crew that a server begins with.
func (s *spread) firstCrew(at *proxyShell) string {
	return regexp.MustCompile(`(?m)^([\w-]{22}) `).FindStringSubmatch(at.run(s.T, help.Block("spread", "list")))[1]
}

// site is the file of nginx; with moved the first server's crew is on the second one.
func (s *spread) site(moved bool) string {
	text := help.Block("spread", "nginx")
	line := regexp.MustCompile(`(?m)^ +N0sD1w2aRtY7uIo9PqLm3g.*\n`).FindString(text)
	lines := strings.ReplaceAll(line, "N0sD1w2aRtY7uIo9PqLm3g", s.other)
	if moved {
		lines += strings.ReplaceAll(line, "N0sD1w2aRtY7uIo9PqLm3g", s.crew)
	}
	return strings.NewReplacer(line, lines, "10.0.0.1:8480", s.first.kerfside, "10.0.0.2:8480", s.second.kerfside).Replace(text)
}

// TestPageSpread runs two servers behind nginx, a general-purpose proxy as Debian packs
// it, with the page's own file and commands, and moves a crew from one to the other
// while phones work: each entry that was acknowledged is on the new server once, and no
// phone needs a hand.
func TestPageSpread(t *testing.T) {
	s := newSpread(t)
	owner, theirs := s.first.phone("127.0.0.2"), s.first.phone("127.0.0.3")
	if got := owner.join(s.first.secret("owner")); got != s.crew {
		t.Fatalf("joined the crew %s, not %s", got, s.crew)
	}
	if got := theirs.join(s.second.secret("owner")); got != s.other {
		t.Fatalf("a phone of the second server joined %s", got)
	}
	typed := s.first.phone("127.0.0.4")
	s.typeCode(typed)
	before := theirs.sync(s.other, proxyNote)

	steady := newSteadyPhone(t, owner, s.crew)
	client := s.first.phone("127.0.0.5").client
	cookies := s.enrol(4)
	devices := load.NewKerfside("https://"+publicName, cookies).By(client, &http.Cookie{Name: "kerfside_crew", Value: s.crew})
	ctx, stop := context.WithCancel(t.Context())
	type loaded struct {
		figures load.Figures
		acked   load.Tally
		err     error
	}
	done := make(chan loaded, 1)
	const more = 8000 // brought before, during and after the move
	go func() {
		f, acked, err := load.Run(ctx, devices, load.Load{Devices: 4, Batch: 10, Total: more})
		done <- loaded{figures: f, acked: acked, err: err}
	}()
	steady.until(func() bool { return steady.meta.Max > 500 })
	picture := noise(t)
	photo := owner.putPicture(picture)
	packed := s.move(steady)
	steady.until(func() bool { return !steady.waiting() && steady.said == "" })
	result := <-done
	stop()
	if result.err != nil || result.figures.Failures == 0 {
		t.Fatalf("the load: %+v, %v; some exchange has met the move", result.figures, result.err)
	}
	acked := result.acked
	if packed < 500 || acked.Count-packed < 1000 {
		t.Fatalf("%d entries moved and %d came in all: nobody worked while it moved", packed, acked.Count)
	}
	for _, raw := range steady.tapped {
		acked.Add([]byte(raw))
	}
	held, err := devices.Held(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if err := acked.Check(held); err != nil {
		t.Error(err)
	}
	if m := steady.meta; m.Gen != 0 || m.Rewinding || m.Stopped != nil || steady.rejected > 0 {
		t.Errorf("the phone noticed: %+v, %d entries rejected", m, steady.rejected)
	}
	if got := owner.ask("GET", photo, nil); string(got.body) != string(picture) {
		t.Errorf("the picture: %d with %d bytes", got.status, len(got.body))
	}
	if after := theirs.sync(s.other); after != before {
		t.Errorf("the second server's own crew stands at %d, not %d", after, before)
	}
	s.first.run(t, "CREW="+s.crew+"\n"+help.Block("spread", "drop"))
	s.late(owner)
	t.Logf("tally: %d entries acknowledged while a crew moved", acked.Count)
}

// move does the steps of the page, while phones go on working, and returns how many
// entries were in the package.
func (s *spread) move(steady *steadyPhone) (packed int64) {
	crew := "CREW=" + s.crew + "\n"
	last := func(said string) string { f := strings.Fields(said); return f[len(f)-1] }
	s.first.run(s.T, crew+help.Block("spread", "pack"))
	steady.until(func() bool { return strings.Contains(steady.said, "on its way to another server") })
	s.first.run(s.T, crew+help.Block("spread", "keep")) // and think better of it
	steady.until(func() bool { return !steady.waiting() && steady.said == "" })
	said := s.first.run(s.T, crew+help.Block("spread", "pack"))
	if _, err := fmt.Sscanf(said, "Packed the crew "+s.crew+": %d entries", &packed); err != nil {
		s.Fatalf("pack says %s", said)
	}
	s.carry("crew.kerfside")
	receipt := last(s.second.run(s.T, help.Block("spread", "unpack")))
	steady.round()
	key := last(s.first.run(s.T, "RECEIPT="+receipt+"\n"+help.Block("spread", "hand-over")))
	steady.until(func() bool { return strings.Contains(steady.said, "has moved") })
	s.second.run(s.T, "KEY="+key+"\n"+help.Block("spread", "take-up"))
	steady.round()
	s.first.putSite(s.site(true))
	s.first.run(s.T, "PATH="+s.bin+":$PATH\n"+help.Block("spread", "reload"))
	return packed
}

// carry copies a file from the first server to the second.
func (s *spread) carry(name string) {
	s.Helper()
	data, err := os.ReadFile(filepath.Join(s.first.dir, name))
	if err == nil {
		err = os.WriteFile(filepath.Join(s.second.dir, name), data, 0o600)
	}
	if err != nil {
		s.Fatal(err)
	}
}

// enrol lets devices join the first server's crew beside the server.
func (s *spread) enrol(devices int) []*http.Cookie {
	s.Helper()
	access, err := store.OpenAccess(filepath.Join(s.first.dir, "kerfside.db"))
	if err != nil {
		s.Fatal(err)
	}
	defer access.Close()
	cookies, err := load.EnrolIn(access, s.crew, "__Host-kerfside", devices)
	if err != nil {
		s.Fatal(err)
	}
	return cookies
}

// typeCode lets a phone join a new crew of the second server by a typed code, which
// says nothing of the server that made it.
func (s *spread) typeCode(p *proxyPhone) {
	s.Helper()
	said := s.second.run(s.T, help.Block("spread", "new"))
	code := regexp.MustCompile(`code ([0-9A-Z]{5}-[0-9A-Z]{5})`).FindStringSubmatch(said)
	crew := regexp.MustCompile(`Crew ([\w-]{22})\.`).FindStringSubmatch(said)
	if code == nil || crew == nil {
		s.Fatalf("a new crew: %s", said)
	}
	a := p.ask("POST", "/api/enrol", []byte(`{"code":"`+code[1]+`","name":"Truck 9"}`))
	if a.status != http.StatusCreated || !strings.Contains(string(a.body), crew[1]) {
		s.Fatalf("joining by a code of the second server: %d %s", a.status, a.body)
	}
}

// late lets a phone ask that has its token alone: the server that it reaches no longer
// has its crew, and sends it on.
func (s *spread) late(owner *proxyPhone) {
	s.Helper()
	p := s.first.phone("127.0.0.6")
	p.cookies = owner.cookies[:1]
	a := p.ask("GET", "/api/devices", nil)
	cookies := (&http.Response{Header: a.header}).Cookies()
	if a.status != http.StatusServiceUnavailable || len(cookies) != 1 || cookies[0].Value != s.crew {
		s.Fatalf("a phone without the cookie: %d %s, %v", a.status, a.body, cookies)
	}
	p.cookies = append(p.cookies[:1:1], cookies[0])
	if a = p.ask("GET", "/api/devices", nil); a.status != http.StatusOK {
		s.Errorf("and with it: %d %s", a.status, a.body)
	}
}

// until lets a phone work until something has come to pass.
func (p *steadyPhone) until(so func() bool) {
	p.t.Helper()
	for end := time.Now().Add(2 * time.Minute); !so(); {
		if time.Now().After(end) {
			p.t.Fatalf("it does not come to pass; the phone was told %q last", p.said)
		}
		p.round()
		time.Sleep(50 * time.Millisecond)
	}
}
