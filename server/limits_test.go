package server

import (
	"fmt"
	"net/http"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// from makes a request come from an address.
func from(address string) func(*http.Request) {
	return func(r *http.Request) { r.RemoteAddr = address }
}

// TestGuessingIsSlow: from one address 20 tries at once, then one each 3 s;
// from everywhere 40 codes at once, then two a second. A code that was refused
// for its haste was not looked at: no try of it is used up.
func TestGuessingIsSlow(t *testing.T) {
	p := newShop(t)
	v, err := p.server.store.Invite(crewID, store.Member, "", start)
	if err != nil {
		t.Fatal(err)
	}
	other := "00000-00000" // whatever the code is, tries of this one use up none of its own
	if v.Code[0] == '0' {
		other = "11111-11111"
	}
	right, wrong := fmt.Sprintf(`{"code":%q,"name":"a"}`, v.Code), fmt.Sprintf(`{"code":%q,"name":"a"}`, other)
	nobody := client{shop: p}
	try := func(address, body string) problem.Kind {
		t.Helper()
		out := nobody.send("POST", "/api/enrol", body, from(address))
		if slow := kind(out) == problem.SlowDown; slow != (out.Code == 429) || slow != (out.Header().Get("Retry-After") != "") {
			t.Errorf("%d %s, Retry-After %q", out.Code, out.Body, out.Header().Get("Retry-After"))
		}
		return kind(out)
	}
	for i := range 20 {
		if got := try("192.0.2.1:1000", wrong); got != problem.NotFound {
			t.Fatalf("try %d: %s", i+1, got)
		}
	}
	for range 10 {
		if got := try("192.0.2.1:2000", right); got != problem.SlowDown {
			t.Errorf("try 21 from one address: %s", got)
		}
	}
	p.now = p.now.Add(3 * time.Second)
	if got := try("192.0.2.1:1000", wrong); got != problem.NotFound {
		t.Errorf("3 s later: %s", got)
	}
	if got := try("192.0.2.1:1000", wrong); got != problem.SlowDown {
		t.Errorf("and at once again: %s", got)
	}
	for i := range 25 { // 20 + 1 codes are gone, 6 came back in 3 s
		if got := try(fmt.Sprintf("[2001:db8:%x::1]:1000", i), wrong); got != problem.NotFound {
			t.Fatalf("other address %d: %s", i, got)
		}
	}
	for range 10 {
		if got := try("192.0.2.2:1000", right); got != problem.SlowDown {
			t.Errorf("code 41 of everyone: %s", got)
		}
	}
	p.now = p.now.Add(time.Second)
	if got := try("192.0.2.2:1000", right); got != "" {
		t.Errorf("the right code a second later: %s", got)
	}
}

// TestGuessingStopsNobodyElse: while somebody guesses codes from everywhere,
// an owner makes invitations and a phone with the right link gets in, from an
// address of those who guess too. The log has the count and none of the codes.
func TestGuessingStopsNobodyElse(t *testing.T) {
	p := newShop(t)
	boss := p.join(crewID, store.Owner, "boss")
	nobody := client{shop: p}
	slow := 0
	for i := range 150 {
		if out := nobody.send("POST", "/api/enrol", `{"code":"00000-00000","name":"a"}`, from(fmt.Sprintf("192.0.2.%d:1000", i%5))); kind(out) == problem.SlowDown {
			slow++
		}
	}
	if slow != 110 {
		t.Fatalf("%d of 150 codes were slowed, want 110", slow)
	}
	out := boss.send("POST", "/api/invites", `{"role":"member"}`)
	if out.Code != 201 {
		t.Fatalf("the owner's invitation: %d %s", out.Code, out.Body)
	}
	_, secret, _ := strings.Cut(told[struct{ Link string }](t, out).Link, "#")
	for i := range 150 {
		wrong := fmt.Sprintf(`{"secret":"wrong%d","name":"a","retry":"%022d"}`, i, i)
		if out := nobody.send("POST", "/api/enrol", wrong, from("192.0.2.1:1000")); kind(out) != problem.NotFound {
			t.Fatalf("wrong link %d: %d %s", i, out.Code, out.Body)
		}
	}
	if out := nobody.send("POST", "/api/enrol", fmt.Sprintf(`{"secret":%q,"name":"a"}`, secret), from("192.0.2.1:1000")); out.Code != 201 {
		t.Errorf("the right link: %d %s", out.Code, out.Body)
	}
	p.now = p.now.Add(2 * time.Minute)
	boss.send("GET", "/api/devices", "")
	log := p.log.String()
	counts := regexp.MustCompile(`tries to join failed" refused=(\d+) "too fast"=(\d+)`).FindAllStringSubmatch(log, -1)
	refused, fast := 0, 0
	for _, c := range counts {
		a, _ := strconv.Atoi(c[1])
		b, _ := strconv.Atoi(c[2])
		refused, fast = refused+a, fast+b
	}
	if len(counts) != 2 || refused != 40+150 || fast != 110 {
		t.Errorf("the log counts %d refused, %d too fast in %d lines\n%s", refused, fast, len(counts), log)
	}
	if strings.Contains(log, "00000") || strings.Contains(log, secret) || strings.Contains(log, "wrong") {
		t.Errorf("the log tells what was tried\n%s", log)
	}
}

// TestInvitesAreSlow: one phone cannot keep the server hashing.
func TestInvitesAreSlow(t *testing.T) {
	p := newShop(t)
	boss, other := p.join(crewID, store.Owner, "boss"), p.join(crewID, store.Owner, "other")
	for range 40 {
		out := boss.send("POST", "/api/invites", `{"role":"member"}`)
		if out.Code == 201 {
			boss.send("DELETE", "/api/invites/"+told[struct{ ID string }](t, out).ID, "")
		}
	}
	if out := boss.send("POST", "/api/invites", `{"role":"member"}`); kind(out) != problem.SlowDown {
		t.Errorf("the 41st at once: %d %s", out.Code, out.Body)
	}
	if out := other.send("POST", "/api/invites", `{"role":"member"}`); out.Code != 201 {
		t.Errorf("of another owner: %d %s", out.Code, out.Body)
	}
}

// TestDeviceLimit: one phone that runs wild does not slow another behind the
// same address.
func TestDeviceLimit(t *testing.T) {
	p := newShop(t)
	wild, calm := p.join(crewID, store.Member, "wild"), p.join(crewID, store.Member, "calm")
	slow := 0
	for range 400 {
		if out := wild.send("GET", "/api/devices", ""); kind(out) == problem.SlowDown {
			slow++
		}
	}
	if slow != 100 {
		t.Errorf("%d of 400 requests at once were slowed, want 100", slow)
	}
	if out := calm.send("GET", "/api/devices", ""); out.Code != 200 {
		t.Errorf("the other phone: %d %s", out.Code, out.Body)
	}
}

func TestAddress(t *testing.T) {
	for from, want := range map[string]string{
		"192.0.2.1:80": "192.0.2.1", "[::ffff:192.0.2.1]:80": "192.0.2.1",
		"[2001:db8:1:2:3:4:5:6]:80": "2001:db8:1:2::/64", "[2001:db8:1:2::9%eth0]:80": "2001:db8:1:2::/64", "@": "@",
	} {
		if got := address(&http.Request{RemoteAddr: from}); got != want {
			t.Errorf("address(%s) = %s, want %s", from, got, want)
		}
	}
}

// TestLimiterIsBounded: a crowd of senders does not fill the memory, and one
// that is being slowed is forgotten last among those that are quiet.
func TestLimiterIsBounded(t *testing.T) {
	now := time.UnixMilli(start)
	l := newLimiter(func() time.Time { return now }, 1, 2)
	for i := range maxSenders - 1 {
		l.take(fmt.Sprint("quiet ", i))
	}
	now = now.Add(10 * time.Second) // all of them are at rest again
	for range 2 {
		l.take("wild")
	}
	l.take("one more")
	if err := l.take("wild"); problem.KindOf(err) != problem.SlowDown || len(l.bucket) != 2 {
		t.Errorf("after the sweep %d senders are known, the wild one gets %v", len(l.bucket), err)
	}
	for i := range 3 * maxSenders {
		l.take(fmt.Sprint("crowd ", i))
	}
	if len(l.bucket) != maxSenders {
		t.Errorf("%d senders are known, want %d", len(l.bucket), maxSenders)
	}
}

// TestSeenWithTheClockPutBack: when a phone was there is written also after the
// server's clock was ahead for a while.
func TestSeenWithTheClockPutBack(t *testing.T) {
	p := newShop(t)
	a := p.join(crewID, store.Member, "phone-a")
	right := p.now.Add(time.Hour)
	p.now = p.now.AddDate(1, 0, 0)
	a.send("GET", "/api/devices", "")
	p.now = right
	before := p.server.flushed.Load()
	a.send("GET", "/api/devices", "")
	if after := p.server.flushed.Load(); after == before || after != right.UnixMilli() {
		t.Errorf("last written %d, with the clock at %d", after, right.UnixMilli())
	}
}
