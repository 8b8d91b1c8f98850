package main

import (
	"flag"

	"kerfside/calc/problem"
)

// reachWords are the flags of a Reach that need more than to be stored.
type reachWords struct {
	reach    *Reach
	plain    string // where to listen in the open
	redirect string
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
	flags.BoolVar(&r.Proxy, "behind-proxy", false, "https for -host ends at a proxy on this machine, whose X-Forwarded-For, -Host and -Proto are believed")
	flags.BoolVar(&r.LAN, "lan", false, "serve the shop's network with the certificate that kerfside lan made")
	flags.StringVar(&w.plain, "plain-http", "", "serve other machines at this `address` in the open, online only; needs -host")
	flags.StringVar(&w.redirect, "redirect", "", "`address` where plain HTTP is sent on to https, or none (default :80 with -acme, else none)")
	return w
}

// settle fills in what follows from other flags.
func (w *reachWords) settle(addr *string) error {
	r := w.reach
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
