package main

import (
	"flag"
	"io/fs"
	"net/netip"
	"strconv"
	"strings"

	"kerfside/calc/problem"
)

// reachWords are the flags of a Reach that need more than to be stored.
type reachWords struct {
	reach    *Reach
	plain    string // where to listen in the open
	redirect string
	trusted  []string
	rights   string // of a Unix socket
}

// reachFlags declares the flags that say how phones reach the app.
func reachFlags(flags *flag.FlagSet, r *Reach) *reachWords {
	w := &reachWords{reach: r}
	flags.Func("host", "public `name` of this server; may stand more than once", func(name string) error {
		r.Hosts = append(r.Hosts, name)
		return nil
	})
	flags.StringVar(&r.Cert, "cert", "", "PEM `file` of the certificate for -host, with those above it; taken up again when it changes")
	flags.StringVar(&r.Key, "key", "", "PEM `file` of its key")
	flags.BoolVar(&r.ACME, "acme", false, "fetch and renew a certificate for -host; you accept the authority's terms by it")
	flags.StringVar(&r.ACMECache, "acme-cache", "", "`folder` for what -acme fetches (default beside the database)")
	flags.StringVar(&r.ACMEDirectory, "acme-directory", "", "`address` of another ACME authority")
	flags.BoolVar(&r.Proxy, "behind-proxy", false, "https for -host ends at a proxy, whose X-Forwarded-For, -Host and -Proto are believed")
	flags.Func("trusted-proxy", "`network` of the proxy, like 10.88.0.0/16 or 2001:db8:5::7; may stand more than once (default: this machine)", func(network string) error {
		w.trusted = append(w.trusted, network)
		return nil
	})
	flags.StringVar(&w.rights, "socket-mode", "", "`rights` of the socket of -addr unix:PATH, in octal (default 0660)")
	flags.BoolVar(&r.LAN, "lan", false, "serve the shop's network with the certificate that kerfside lan made")
	flags.StringVar(&w.plain, "plain-http", "", "serve other machines at this `address` in the open, online only; needs -host")
	flags.StringVar(&w.redirect, "redirect", "", "`address` where plain HTTP is sent on to https, or none (default :80 with -acme, else none)")
	return w
}

// trust adds a network of proxies, or one address.
func (r *Reach) trust(text string) error {
	network, err := netip.ParsePrefix(text)
	if ip, alone := netip.ParseAddr(text); alone == nil {
		network, err = netip.PrefixFrom(ip, ip.BitLen()), nil
	}
	switch {
	case err != nil || strings.Contains(text, "%"): // a zone means something on one machine alone
		return problem.Newf(problem.Malformed, "trusted-proxy", "%q is no address and no network", text).WithHint("Write something like -trusted-proxy 10.88.0.3 or -trusted-proxy 10.88.0.0/16.")
	case network.Bits() == 0:
		return problem.Newf(problem.Refused, "trusted-proxy", "%s is everyone: any phone could say that it is another", text).WithHint("Name the proxy's own address, or the network of its container.")
	case network.Addr().Is4In6():
		return problem.Newf(problem.Malformed, "trusted-proxy", "%s is an IPv4 address in the dress of IPv6", text).WithHint("Write it as IPv4, like 10.88.0.0/16.")
	}
	r.Trusted = append(r.Trusted, network.Masked())
	return nil
}

// setSocketMode reads the rights of a socket.
func (r *Reach) setSocketMode(text string) error {
	mode, err := strconv.ParseUint(text, 8, 16)
	if err != nil || mode == 0 || mode > 0o777 {
		return problem.Newf(problem.Malformed, "socket-mode", "%q are no rights of a file", text).WithHint("Write them in octal, like -socket-mode 0660.")
	}
	r.SocketMode = fs.FileMode(mode)
	return nil
}

// settle fills in what follows from other flags.
func (w *reachWords) settle(addr *string) error {
	r := w.reach
	for _, network := range w.trusted {
		if err := r.trust(network); err != nil {
			return err
		}
	}
	if w.rights != "" {
		if err := r.setSocketMode(w.rights); err != nil {
			return err
		}
	}
	if w.plain != "" {
		if *addr != "" {
			return problem.New(problem.Conflict, "plain-http", "-addr and -plain-http both say where to listen", "Give one of them.")
		}
		r.Plain, *addr = true, w.plain
	}
	if *addr == "" {
		switch {
		case r.LAN:
			*addr = ":" + lanPort
		case r.Cert != "" || r.ACME:
			*addr = ":443"
		default:
			*addr = "localhost:8480"
		}
	}
	switch r.Redirect = w.redirect; {
	case r.Redirect == "none":
		r.Redirect = ""
	case r.Redirect == "" && r.ACME:
		r.Redirect = ":80" // the authority may ask there, besides at 443
	}
	return nil
}
