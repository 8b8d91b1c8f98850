package main

import (
	"io/fs"
	"net"
	"net/netip"
	"slices"
	"strings"

	"kerfside/calc/problem"
	"kerfside/server"
)

// Reach says how phones reach the app from beyond this machine: by one of five
// ways, or not at all if it is empty.
type Reach struct {
	Hosts []string // public names; with LAN those of its certificate

	Cert, Key string // PEM files, taken up again when they change
	ACME      bool   // certificates are fetched from an authority
	Proxy     bool   // https ends at a proxy, whose word is taken for what it hides
	LAN       bool   // the certificate of "kerfside lan", in DB.lan
	Plain     bool   // no https, and so no app on the phones offline

	Trusted    server.Proxies // proxies that are believed; those of this machine if nil
	SocketMode fs.FileMode    // rights of a Unix socket; 0660 if 0

	ACMECache     string // folder for what ACME fetches; DB.acme if ""
	ACMEDirectory string // of the authority; autocert's own if ""
	Redirect      string // where plain HTTP is sent on to https; nowhere if ""
}

// ways returns the flags of the ways that are chosen.
func (r Reach) ways() []string {
	var chosen []string
	for _, w := range []struct {
		flag string
		on   bool
	}{{"-cert", r.Cert != "" || r.Key != ""}, {"-acme", r.ACME}, {"-behind-proxy", r.Proxy}, {"-lan", r.LAN}, {"-plain-http", r.Plain}} {
		if w.on {
			chosen = append(chosen, w.flag)
		}
	}
	return chosen
}

// secure reports whether this program itself speaks https.
func (r Reach) secure() bool { return r.Cert != "" || r.ACME || r.LAN }

// check refuses what does not go together, before anything is opened.
func (r Reach) check(addr string) error {
	inside, err := isLoopback(addr)
	if err != nil {
		return err
	}
	ways := r.ways()
	switch {
	case len(ways) > 1:
		return problem.Newf(problem.Conflict, ways[1][1:], "%s are different ways to be reached", strings.Join(ways, " and ")).
			WithHint("Choose one of them.")
	case (r.Cert == "") != (r.Key == ""):
		return problem.New(problem.Missing, "key", "a certificate needs its key", "Give both: -cert FILE and -key FILE.")
	case r.Proxy && !inside && r.Trusted == nil:
		return problem.Newf(problem.Conflict, "addr", "behind a proxy, %s could be reached past it", addr).
			WithHint("Listen on localhost, for example -addr localhost:8480, and point the proxy there. If the proxy is on another machine or in another container, say -trusted-proxy ADDRESS.")
	case r.Trusted != nil && !r.Proxy:
		return problem.New(problem.Conflict, "trusted-proxy", "no proxy is believed without -behind-proxy", "Add -behind-proxy and -host NAME, or leave -trusted-proxy out.")
	case onSocket(addr) && !r.Proxy:
		return problem.Newf(problem.Conflict, "addr", "only a proxy can reach the Unix socket %s", socketPath(addr)).
			WithHint("Add -behind-proxy and -host NAME, or listen on an address like localhost:8480.")
	case r.SocketMode != 0 && !onSocket(addr):
		return problem.New(problem.Conflict, "socket-mode", "there is no Unix socket here", "Add -addr unix:PATH, or leave -socket-mode out.")
	case len(ways) == 0 && !inside:
		return outside(addr)
	case len(ways) == 0 && len(r.Hosts) > 0:
		return problem.Newf(problem.Missing, "host", "%s alone does not make phones reach this machine", strings.Join(r.Hosts, ", ")).
			WithHint("Say how as well: -cert and -key, -acme or -behind-proxy.")
	case r.LAN && len(r.Hosts) > 0:
		return problem.New(problem.Conflict, "host", "with -lan the names are those of its certificate", "Leave -host out; kerfside lan -host changes them.")
	case len(ways) == 1 && !r.LAN && len(r.Hosts) == 0:
		return problem.Newf(problem.Missing, "host", "%s needs the name that phones will call this server by", ways[0]).
			WithHint("Add -host NAME; it may stand more than once.")
	case r.Redirect != "" && !r.secure():
		return problem.New(problem.Conflict, "redirect", "there is no https here to send plain HTTP on to", "Leave -redirect out, or use it with -cert, -acme or -lan.")
	}
	return r.checkHosts()
}

// proxies are those that are believed; nil if none stands in front.
func (r Reach) proxies() server.Proxies {
	if !r.Proxy {
		return nil
	}
	if r.Trusted == nil {
		return server.ThisMachine()
	}
	return r.Trusted
}

// outside is the refusal to serve plain HTTP to other machines.
func outside(addr string) error {
	return problem.Newf(problem.Refused, "addr", "other machines could reach %s over plain HTTP: no browser keeps the app so for use without signal", addr).
		WithHint("What works: -lan on the shop's network (after kerfside lan); -cert and -key, -acme or -behind-proxy with a public name; or localhost for this machine alone. "+
			"To serve in the open and online only all the same, say -plain-http %s with -host.", addr)
}

// checkHosts refuses names that no request can bear, and for ACME those that no
// authority can check.
func (r Reach) checkHosts() error {
	for _, host := range r.Hosts {
		if net.ParseIP(host) == nil && (host == "" || strings.ContainsAny(host, ":/@*[] ")) {
			return problem.Newf(problem.Malformed, "host", "%q is no name of a server", host).
				WithHint("Write the name alone, without https:// and port, like kerfside.example.com.")
		}
		if r.ACME && !isPublic(host) {
			return problem.Newf(problem.Refused, "host", "no authority gives a certificate for %s, which is not a public name", host).
				WithHint("Use a name that the whole internet knows; on the shop's network use kerfside lan and -lan.")
		}
	}
	return nil
}

// localEnds are the ends of names that mean something else on each network
// (RFC 6762, RFC 8375, RFC 6761, and what routers use).
var localEnds = []string{"local", "home.arpa", "internal", "lan", "home", "localhost", "test", "invalid", "intranet"}

// isPublic reports whether a name can mean the same everywhere.
func isPublic(name string) bool {
	name = strings.ToLower(name)
	if net.ParseIP(name) != nil || !strings.Contains(name, ".") {
		return false
	}
	return !slices.ContainsFunc(localEnds, func(end string) bool { return strings.HasSuffix(name, "."+end) })
}

// hsts reports whether browsers may be told to keep to https: never where the
// next network may have another machine of that name.
func (r Reach) hsts() bool {
	return (r.Cert != "" || r.ACME || r.Proxy) && !slices.ContainsFunc(r.Hosts, func(h string) bool { return !isPublic(h) })
}

// isLoopback reports whether only this machine reaches an address to listen on.
func isLoopback(addr string) (bool, error) {
	if onSocket(addr) {
		return true, checkSocket(socketPath(addr))
	}
	host, _, err := net.SplitHostPort(addr)
	if err != nil {
		return false, problem.Newf(problem.Malformed, "addr", "%q is not host:port", addr).WithHint("Write something like localhost:8480.")
	}
	ip, err := netip.ParseAddr(host)
	return host == "localhost" || err == nil && ip.IsLoopback(), nil
}
