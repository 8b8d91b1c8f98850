package server

import (
	"context"
	"net"
	"net/http"
	"strings"

	"kerfside/calc/problem"
)

// httpsKey marks requests that reached a trusted proxy over https.
type httpsKey struct{}

// isHTTPS reports whether the phone's side of a request is https: here, or at
// the proxy in front.
func isHTTPS(r *http.Request) bool {
	return r.TLS != nil || r.Context().Value(httpsKey{}) != nil
}

// behindProxy takes a proxy's word for what it hides: the phone's address, the
// name that was called and whether over https. It listens to a proxy on this
// machine only, and of each header to the last entry, which that proxy wrote;
// earlier ones are whatever the sender liked. What it does not vouch for as https
// by a public name is refused, loopback names too: a proxy that calls us
// localhost and says no more would make every stranger look like this machine.
func (s *Server) behindProxy(next http.Handler) http.Handler {
	refuse := s.handle(func(http.ResponseWriter, *http.Request) error {
		return problem.New(problem.Forbidden, "", "the proxy in front does not say that it was called over https, and by which name",
			"Let the proxy send X-Forwarded-Proto and X-Forwarded-Host as it was called. Let it send plain HTTP on to https itself.")
	})
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if host, _, err := net.SplitHostPort(r.RemoteAddr); err == nil && net.ParseIP(host).IsLoopback() {
			r = forwarded(r)
		}
		if !isHTTPS(r) || loopback()[hostName(r.Host)] {
			refuse.ServeHTTP(w, r)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// withoutProxy refuses what a proxy has sent to a server that was not told of
// one: it would take all phones for this very machine.
func (s *Server) withoutProxy(next http.Handler) http.Handler {
	refuse := s.handle(func(http.ResponseWriter, *http.Request) error {
		return problem.New(problem.Forbidden, "", "a proxy stands in front of this server, which was not told of one",
			"Start it with kerfside serve -behind-proxy -host NAME.")
	})
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !isHTTPS(r) && (r.Header.Get("X-Forwarded-For") != "" || r.Header.Get("Forwarded") != "") {
			refuse.ServeHTTP(w, r)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// forwarded returns the request as the proxy got it.
func forwarded(r *http.Request) *http.Request {
	ctx := r.Context()
	if strings.EqualFold(lastOf(r, "X-Forwarded-Proto"), "https") {
		ctx = context.WithValue(ctx, httpsKey{}, true)
	}
	r = r.Clone(ctx)
	if ip := net.ParseIP(lastOf(r, "X-Forwarded-For")); ip != nil {
		r.RemoteAddr = net.JoinHostPort(ip.String(), "0")
	}
	if host := lastOf(r, "X-Forwarded-Host"); host != "" {
		r.Host = host
	}
	return r
}

// lastOf returns the last entry of a header that may hold a list and may stand
// in a request more than once.
func lastOf(r *http.Request, header string) string {
	all := strings.Join(r.Header.Values(header), ",")
	return strings.TrimSpace(all[strings.LastIndex(all, ",")+1:])
}
