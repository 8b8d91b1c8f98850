package main

import (
	"crypto/tls"
	"net"
	"net/http"
	"strings"
	"time"

	"golang.org/x/crypto/acme"
	"golang.org/x/crypto/acme/autocert"

	"kerfside/calc/problem"
	"kerfside/server"
	"kerfside/server/cert"
	"kerfside/server/lan"
)

// door is what stands between the phones and the server, made from a Reach.
type door struct {
	hosts    []string
	tls      *tls.Config                            // nil for plain HTTP
	redirect func(onward http.Handler) http.Handler // what the redirect address serves
}

// openDoor finds the certificate, if the way has one.
func (a *App) openDoor() (*door, error) {
	d := &door{hosts: a.Hosts, redirect: func(onward http.Handler) http.Handler { return onward }}
	switch {
	case a.LAN:
		authority, err := lan.Open(lanFolder(a.DB), time.Now)
		if err != nil {
			return nil, err
		}
		authority.OnTrouble = a.certTrouble
		if err := authority.Renew(); err != nil {
			return nil, err
		}
		d.hosts = authority.Names().Hosts()
		d.tls = &tls.Config{GetCertificate: authority.Get}
	case a.Cert != "":
		files, err := cert.Open(a.Cert, a.Key)
		if err != nil {
			return nil, err
		}
		if err := fits(files, a.Cert, a.Hosts); err != nil {
			return nil, err
		}
		files.OnTrouble = a.certTrouble
		d.tls = &tls.Config{GetCertificate: files.Get}
	case a.ACME:
		cache := a.ACMECache
		if cache == "" {
			cache = a.DB + ".acme"
		}
		m := &autocert.Manager{
			Prompt: autocert.AcceptTOS, Cache: autocert.DirCache(cache), HostPolicy: autocert.HostWhitelist(a.Hosts...),
			Client: &acme.Client{DirectoryURL: a.ACMEDirectory},
		}
		if a.ACMEDirectory == "" {
			m.Client.DirectoryURL = autocert.DefaultACMEDirectory
		}
		d.tls, d.redirect = m.TLSConfig(), m.HTTPHandler
	}
	return d, nil
}

// fits refuses a certificate that no phone would take.
func fits(files *cert.Files, path string, hosts []string) error {
	if missing := files.Missing(hosts); len(missing) > 0 {
		return problem.Newf(problem.Conflict, "host", "the certificate in %s is not for %s", path, strings.Join(missing, ", ")).
			WithHint("It is for %s: give -host those, or another certificate.", strings.Join(files.Leaf().DNSNames, ", "))
	}
	if ends := files.Leaf().NotAfter; time.Now().After(ends) {
		return problem.Newf(problem.Refused, "cert", "the certificate in %s ended on %s", path, ends.Format(time.DateOnly)).
			WithHint("Renew it. While the server runs, a renewed one is taken up by itself.")
	}
	return nil
}

func (a *App) certTrouble(err error) {
	a.logger().Error("the certificate could not be renewed or read again; the old one goes on", "err", err)
}

// lanFolder is where the certificates of "kerfside lan" lie.
func lanFolder(db string) string { return db + ".lan" }

// openRedirect starts to send plain HTTP on to https, if that is asked for.
func (a *App) openRedirect(d *door) error {
	if a.Redirect == "" {
		return nil
	}
	l, err := net.Listen("tcp", a.Redirect)
	if err != nil {
		return problem.Newf(problem.Busy, "redirect", "cannot listen on %s to send plain HTTP on to https", a.Redirect).
			WithHint("Ports below 1024 need the right to them, and another program may hold it; -redirect none does without.").WithCause(err)
	}
	a.Redirect = l.Addr().String()
	_, port, _ := net.SplitHostPort(a.Addr)
	a.redirect = serverWith(d.redirect(server.Redirect(d.hosts, port)), a.logger())
	go a.redirect.Serve(l)
	return nil
}
