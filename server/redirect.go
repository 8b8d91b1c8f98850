package server

import (
	"net"
	"net/http"
	"net/url"
	"path"
	"strings"

	"kerfside/calc/problem"
)

// Redirect answers on plain HTTP for a server on https at that port: it sends
// pages on, under the server's own names only, and refuses all else, so that no
// phone gets used to sending its entries in the open.
func Redirect(hosts []string, port string) http.Handler {
	known := map[string]bool{}
	for _, h := range hosts {
		known[hostName(h)] = true
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		host := hostName(r.Host)
		if !known[host] || r.Method != http.MethodGet && r.Method != http.MethodHead {
			writeJSON(w, http.StatusForbidden, problem.Envelope{Error: problem.New(problem.Forbidden, "",
				"this address only sends pages on to https", "Open the app by its name, with https.")})
			return
		}
		http.Redirect(w, r, "https://"+JoinPort(host, port)+cleanTarget(r.URL), http.StatusPermanentRedirect)
	})
}

// cleanTarget returns the path and the query that a request asks for, beginning
// with one slash whatever its first line held: "http:x", "x:80" and "*" have no
// path of ours, and what follows a host's name without a slash would be read as
// part of that name.
func cleanTarget(asked *url.URL) string {
	clean := url.URL{Path: path.Clean("/" + asked.Path), RawQuery: asked.RawQuery}
	if strings.HasSuffix(asked.Path, "/") && clean.Path != "/" {
		clean.Path += "/"
	}
	return clean.RequestURI()
}

// JoinPort writes host and port as in an https address, where 443 goes without
// saying.
func JoinPort(host, port string) string {
	if port != "443" {
		return net.JoinHostPort(host, port)
	}
	if net.ParseIP(host) != nil && net.ParseIP(host).To4() == nil {
		return "[" + host + "]"
	}
	return host
}
