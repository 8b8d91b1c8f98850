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
		{"", "localhost:8480", "", false},
		{"-addr [::1]:9000", "[::1]:9000", "", false},
		{"-lan", ":8443", "", false},
		{"-lan -addr 192.168.1.20:8443 -redirect :80", "192.168.1.20:8443", ":80", false},
		{"-cert c -key k -host shop.example", ":443", "", true},
		{"-cert c -key k -host shop.lan", ":443", "", false},
		{"-cert c -key k -host shop.example -host 192.168.1.20", ":443", "", false},
		{"-acme -host shop.example.com -host www.shop.example.com", ":443", ":80", true},
		{"-acme -host shop.example.com -redirect none", ":443", "", true},
		{"-behind-proxy -host shop.example", "localhost:8480", "", true},
		{"-behind-proxy -host shop.internal -addr 127.0.0.1:9000", "127.0.0.1:9000", "", false},
		{"-plain-http :8480 -host 192.168.1.20", ":8480", "", false},
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
		{"-addr :8480", problem.Refused, "-lan on the shop's network"},
		{"-addr 0.0.0.0:8480", problem.Refused, "no browser keeps the app"},
		{"-addr 192.168.1.20:8480 -host shop.example", problem.Refused, "-plain-http 192.168.1.20:8480"},
		{"-addr [::]:8480", problem.Refused, "plain HTTP"},
		{"-addr shop.example:8480", problem.Refused, "plain HTTP"},
		{"-addr 8480", problem.Malformed, "localhost:8480"},
		{"-host shop.example", problem.Missing, "-behind-proxy"},
		{"-cert c -key k", problem.Missing, "-host NAME"},
		{"-cert c -host shop.example", problem.Missing, "-key FILE"},
		{"-key k -host shop.example", problem.Missing, "-cert FILE"},
		{"-acme", problem.Missing, "-host NAME"},
		{"-acme -host shop.local", problem.Refused, "kerfside lan"},
		{"-acme -host 198.51.100.9", problem.Refused, "public name"},
		{"-acme -host shop", problem.Refused, "public name"},
		{"-behind-proxy", problem.Missing, "-host NAME"},
		{"-behind-proxy -host shop.example -addr :8480", problem.Conflict, "localhost"},
		{"-behind-proxy -host shop.example -redirect :80", problem.Conflict, "no https here"},
		{"-plain-http :8480", problem.Missing, "-host NAME"},
		{"-plain-http :8480 -addr :8481 -host shop.lan", problem.Conflict, "one of them"},
		{"-lan -acme -host shop.example", problem.Conflict, "-acme and -lan"},
		{"-lan -host shop.local", problem.Conflict, "kerfside lan -host"},
		{"-redirect :80", problem.Conflict, "no https here"},
		{"-cert c -key k -host https://shop.example", problem.Malformed, "without https://"},
		{"-cert c -key k -host shop.example:8443", problem.Malformed, "port"},
		{"-cert c -key k -host *.example", problem.Malformed, "name alone"},
	} {
		_, _, err := reachOf(t, c.line)
		p := problem.From(err)
		if err == nil || p.Kind != c.kind || !strings.Contains(p.Error(), c.says) || p.Hint == "" {
			t.Errorf("serve %s: %v (%s), want kind %s that says %q", c.line, err, p.Kind, c.kind, c.says)
		}
	}
}
