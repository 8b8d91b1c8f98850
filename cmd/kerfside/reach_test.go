package main

import (
	"flag"
	"io"
	"strings"
	"testing"

	"kerfside/calc/problem"
)

// reachOf reads the flags of "kerfside serve" that say how it is reached.
func reachOf(t *testing.T, line string) (Reach, string, error) {
	t.Helper()
	var r Reach
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	addr := flags.String("addr", "", "")
	words := reachFlags(flags, &r)
	if err := flags.Parse(strings.Fields(line)); err != nil {
		t.Fatal(err)
	}
	if err := words.settle(addr); err != nil {
		return r, *addr, err
	}
	return r, *addr, r.check(*addr)
}

func TestReach(t *testing.T) {
	for _, c := range []struct {
		line, addr, redirect string
		hsts                 bool
	}{
		{addr: "localhost:8480"},
		{line: "-addr [::1]:9000", addr: "[::1]:9000"},
		{line: "-lan", addr: ":8443"},
		{line: "-lan -addr 192.168.1.20:8443 -redirect :80", addr: "192.168.1.20:8443", redirect: ":80"},
		{line: "-cert c -key k -host shop.example", addr: ":443", hsts: true},
		{line: "-cert c -key k -host shop.lan", addr: ":443"},
		{line: "-cert c -key k -host shop.example -host 192.168.1.20", addr: ":443"},
		{line: "-acme -host shop.example.com -host www.shop.example.com", addr: ":443", redirect: ":80", hsts: true},
		{line: "-acme -host shop.example.com -redirect none", addr: ":443", hsts: true},
		{line: "-behind-proxy -host shop.example", addr: "localhost:8480", hsts: true},
		{line: "-behind-proxy -host shop.internal -addr 127.0.0.1:9000", addr: "127.0.0.1:9000"},
		{line: "-behind-proxy -host shop.internal -addr :9000 -trusted-proxy 10.88.0.0/16 -trusted-proxy 2001:db8:5::7", addr: ":9000"},
		{line: "-behind-proxy -host shop.internal -addr unix:/run/kerfside/k.sock -socket-mode 0600", addr: "unix:/run/kerfside/k.sock"},
		{line: "-plain-http :8480 -host 192.168.1.20", addr: ":8480"},
	} {
		r, addr, err := reachOf(t, c.line)
		if err != nil || addr != c.addr || r.Redirect != c.redirect || r.hsts() != c.hsts {
			t.Errorf("serve %s: addr %s, redirect %q, HSTS %v, %v; want %s, %q, %v", c.line, addr, r.Redirect, r.hsts(), err, c.addr, c.redirect, c.hsts)
		}
	}
}

func TestReachRefuses(t *testing.T) {
	for _, c := range []struct {
		line string
		kind problem.Kind
		says string // in what is wrong or what to do
	}{
		{line: "-addr :8480", kind: problem.Refused, says: "-lan on the shop's network"},
		{line: "-addr 0.0.0.0:8480", kind: problem.Refused, says: "no browser keeps the app"},
		{line: "-addr 192.168.1.20:8480 -host shop.example", kind: problem.Refused, says: "-plain-http 192.168.1.20:8480"},
		{line: "-addr [::]:8480", kind: problem.Refused, says: "plain HTTP"},
		{line: "-addr shop.example:8480", kind: problem.Refused, says: "plain HTTP"},
		{line: "-addr 8480", kind: problem.Malformed, says: "localhost:8480"},
		{line: "-host shop.example", kind: problem.Missing, says: "-behind-proxy"},
		{line: "-cert c -key k", kind: problem.Missing, says: "-host NAME"},
		{line: "-cert c -host shop.example", kind: problem.Missing, says: "-key FILE"},
		{line: "-key k -host shop.example", kind: problem.Missing, says: "-cert FILE"},
		{line: "-acme", kind: problem.Missing, says: "-host NAME"},
		{line: "-acme -host shop.local", kind: problem.Refused, says: "kerfside lan"},
		{line: "-acme -host 198.51.100.9", kind: problem.Refused, says: "public name"},
		{line: "-acme -host shop", kind: problem.Refused, says: "public name"},
		{line: "-behind-proxy -host shop.example -addr :8480", kind: problem.Conflict, says: "-trusted-proxy"},
		{line: "-behind-proxy -host shop.example -trusted-proxy proxy", kind: problem.Malformed, says: "10.88.0.0/16"},
		{line: "-behind-proxy -host shop.example -trusted-proxy 10.88.0.0/33", kind: problem.Malformed, says: "no address and no network"},
		{line: "-behind-proxy -host shop.example -trusted-proxy fe80::1%eth0", kind: problem.Malformed, says: "no address and no network"},
		{line: "-behind-proxy -host shop.example -trusted-proxy 0.0.0.0/0", kind: problem.Refused, says: "everyone"},
		{line: "-behind-proxy -host shop.example -trusted-proxy ::/0", kind: problem.Refused, says: "everyone"},
		{line: "-behind-proxy -host shop.example -trusted-proxy ::ffff:10.88.0.3", kind: problem.Malformed, says: "as IPv4"},
		{line: "-trusted-proxy 10.88.0.3", kind: problem.Conflict, says: "-behind-proxy"},
		{line: "-acme -host shop.example.com -trusted-proxy 10.88.0.3", kind: problem.Conflict, says: "-behind-proxy"},
		{line: "-addr unix:/run/kerfside.sock", kind: problem.Conflict, says: "-behind-proxy"},
		{line: "-addr unix:/run/kerfside.sock -acme -host shop.example.com", kind: problem.Conflict, says: "only a proxy"},
		{line: "-behind-proxy -host shop.example -addr unix:", kind: problem.Malformed, says: "/run/kerfside/"},
		{line: "-behind-proxy -host shop.example -addr unix:@kerfside", kind: problem.Malformed, says: "/run/kerfside/"},
		{line: "-behind-proxy -host shop.example -addr unix:/" + strings.Repeat("k", 110), kind: problem.TooLarge, says: "shorter"},
		{line: "-behind-proxy -host shop.example -socket-mode 0660", kind: problem.Conflict, says: "no Unix socket"},
		{line: "-behind-proxy -host shop.example -addr unix:/run/k.sock -socket-mode rw", kind: problem.Malformed, says: "octal"},
		{line: "-behind-proxy -host shop.example -addr unix:/run/k.sock -socket-mode 1777", kind: problem.Malformed, says: "octal"},
		{line: "-behind-proxy", kind: problem.Missing, says: "-host NAME"},
		{line: "-behind-proxy -host shop.example -addr :8480", kind: problem.Conflict, says: "localhost"},
		{line: "-behind-proxy -host shop.example -redirect :80", kind: problem.Conflict, says: "no https here"},
		{line: "-plain-http :8480", kind: problem.Missing, says: "-host NAME"},
		{line: "-plain-http :8480 -addr :8481 -host shop.lan", kind: problem.Conflict, says: "one of them"},
		{line: "-lan -acme -host shop.example", kind: problem.Conflict, says: "-acme and -lan"},
		{line: "-lan -host shop.local", kind: problem.Conflict, says: "kerfside lan -host"},
		{line: "-redirect :80", kind: problem.Conflict, says: "no https here"},
		{line: "-cert c -key k -host https://shop.example", kind: problem.Malformed, says: "without https://"},
		{line: "-cert c -key k -host shop.example:8443", kind: problem.Malformed, says: "port"},
		{line: "-cert c -key k -host *.example", kind: problem.Malformed, says: "name alone"},
	} {
		_, _, err := reachOf(t, c.line)
		p := problem.From(err)
		if err == nil || p.Kind != c.kind || !strings.Contains(p.Error(), c.says) || p.Hint == "" {
			t.Errorf("serve %s: %v (%s), want kind %s that says %q", c.line, err, p.Kind, c.kind, c.says)
		}
	}
}
