package server

import (
	"net"
	"net/http"
	"strings"

	"kerfside/calc/problem"
)

// loopback are the names by which a machine may always call its own server.
func loopback() map[string]bool {
	return map[string]bool{"localhost": true, "127.0.0.1": true, "::1": true}
}

// checkHost refuses requests that call the server by a name it does not go by.
// A web page elsewhere could otherwise point its own name at this machine and
// read the answers as its own (DNS rebinding).
func (s *Server) checkHost(next http.Handler) http.Handler {
	refuse := s.handle(func(w http.ResponseWriter, r *http.Request) error {
		return problem.New(problem.Forbidden, "", "this server does not go by that name",
			"Open it by a name that it was started with. On its own machine localhost does too.")
	})
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !s.hosts[hostName(r.Host)] {
			refuse.ServeHTTP(w, r)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// checkTarget refuses a first line that holds something else than a path, such as
// "http:x" or "*": the router would clean the path that it has not, and send the
// asker to an address of another kind.
func (s *Server) checkTarget(next http.Handler) http.Handler {
	refuse := s.handle(nothingHere)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Opaque != "" || r.URL.Path != "" && r.URL.Path[0] != '/' {
			refuse.ServeHTTP(w, r)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// sameOrigin refuses changes that a page of another origin asks for.
func (s *Server) sameOrigin(next http.Handler) http.Handler {
	p := http.NewCrossOriginProtection()
	p.AddInsecureBypassPattern("POST " + sharePath) // it changes nothing, and comes from another app
	p.SetDenyHandler(s.handle(func(http.ResponseWriter, *http.Request) error {
		return problem.New(problem.Forbidden, "", "the request came from a page of another address", "Open the app by one address only.")
	}))
	return p.Handler(next)
}

// hostName returns a Host header without port and brackets, in lower case.
func hostName(host string) string {
	if name, _, err := net.SplitHostPort(host); err == nil {
		host = name
	}
	return strings.ToLower(strings.Trim(host, "[]"))
}

// policy is the Content-Security-Policy of every reply: nothing but our own
// files, no inline script or style, and one Trusted Types policy for the few
// sinks the app has.
const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; " +
	"img-src 'self' blob: data:; media-src 'self' blob:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; " +
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'; " +
	"require-trusted-types-for 'script'; trusted-types kerfside"

// screenPage answers with the page of a screen, whose policy lets the one script run that
// stands in it.
func (s *Server) screenPage(module string) func(http.ResponseWriter, *http.Request) error {
	show := s.app.Page(module)
	return func(w http.ResponseWriter, r *http.Request) error {
		w.Header().Set("Content-Security-Policy", strings.Replace(policy, "script-src 'self'", "script-src 'self' "+s.app.ScriptHash(), 1))
		return show(w, r)
	}
}

// permissions lets the app ask for what it uses and refuses the rest.
const permissions = "microphone=(self), camera=(self), screen-wake-lock=(self), " +
	"geolocation=(), payment=(), usb=(), serial=(), hid=(), midi=(), display-capture=(), fullscreen=()"

// secure sets the headers that every reply carries.
func secure(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("Permissions-Policy", permissions)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		next.ServeHTTP(w, r)
	})
}

// onlyHTTPS makes browsers keep to https for a year (RFC 6797). It is told over
// https alone, and never by a loopback name, which other programs share.
func onlyHTTPS(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if isHTTPS(r) && !loopback()[hostName(r.Host)] {
			w.Header().Set("Strict-Transport-Security", "max-age=31536000")
		}
		next.ServeHTTP(w, r)
	})
}
