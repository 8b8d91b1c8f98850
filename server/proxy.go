package server

import (
	"context"
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strings"
	"sync"

	"kerfside/calc/problem"
)

// httpsKey marks requests that reached a trusted proxy over https.
type httpsKey struct{}

// isHTTPS reports whether the phone's side of a request is https: here, or at
// the proxy in front.
func isHTTPS(r *http.Request) bool {
	return r.TLS != nil || r.Context().Value(httpsKey{}) != nil
}

// Proxies are the networks whose proxies are believed: what X-Forwarded-For, -Host
// and -Proto of theirs say counts.
type Proxies []netip.Prefix

// ThisMachine are the proxies on the machine itself.
func ThisMachine() Proxies {
	return Proxies{netip.MustParsePrefix("127.0.0.0/8"), netip.MustParsePrefix("::1/128")}
}

// trusts reports whether an address is one of a proxy.
func (p Proxies) trusts(ip netip.Addr) bool {
	return slices.ContainsFunc(p, func(net netip.Prefix) bool { return net.Contains(ip) })
}

// behindProxy takes a proxy's word for what it hides: the phone's address, the
// name that was called and whether over https. Whoever asks has to be a trusted
// proxy, by its address or because it comes by the Unix socket, whose rights say
// who may. What it does not vouch for as https by a public name is refused,
// loopback names too: a proxy that calls us localhost and says no more would make
// every stranger look like this machine.
func (s *Server) behindProxy(proxies Proxies, next http.Handler) http.Handler {
	silent := problem.New(problem.Forbidden, "", "the proxy in front does not say that it was called over https, and by which name",
		"Let the proxy send X-Forwarded-Proto and X-Forwarded-Host as it was called. Let it send plain HTTP on to https itself.")
	var once sync.Once
	return s.handle(func(w http.ResponseWriter, r *http.Request) error {
		if peer := hop(r.RemoteAddr); !bySocket(r) && !proxies.trusts(peer) {
			return problem.Newf(problem.Forbidden, "", "this server takes requests from its proxy alone, and %s is not that", peer).
				WithHint("Open the app by its name. If this is the proxy, start the server with -trusted-proxy %s.", peer)
		}
		if r.Header.Get("X-Forwarded-For") == "" {
			once.Do(func() {
				s.log.Warn("the proxy does not say where requests come from: limits count all phones as one; let it send X-Forwarded-For")
			})
		}
		r = proxies.forwarded(r)
		if !isHTTPS(r) || loopback()[hostName(r.Host)] {
			return silent
		}
		next.ServeHTTP(w, r)
		return nil
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

// bySocket reports whether a request came by a Unix socket.
func bySocket(r *http.Request) bool {
	at, _ := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
	return at != nil && at.Network() == "unix"
}

// forwarded returns the request as the first trusted proxy got it. Of the name and
// of https the last entry counts, which the proxy next to us wrote or let through:
// earlier ones may be whatever the sender liked.
func (p Proxies) forwarded(r *http.Request) *http.Request {
	ctx := r.Context()
	if strings.EqualFold(lastOf(r, "X-Forwarded-Proto"), "https") {
		ctx = context.WithValue(ctx, httpsKey{}, true)
	}
	r = r.Clone(ctx)
	if phone := p.phone(r.Header.Values("X-Forwarded-For")); phone.IsValid() {
		r.RemoteAddr = netip.AddrPortFrom(phone, 0).String()
	}
	if host := lastOf(r, "X-Forwarded-Host"); host != "" {
		r.Host = host
	}
	return r
}

// phone returns where a request came from before the trusted proxies: each adds
// whom it heard at the end of the list, so it is the last entry that is no trusted
// proxy's. What stands before that is the sender's own word. If all are proxies it
// is the first of them, and beyond an entry that is no address nothing is believed.
func (p Proxies) phone(lists []string) netip.Addr {
	var phone netip.Addr
	for _, entry := range slices.Backward(strings.Split(strings.Join(lists, ","), ",")) {
		ip := hop(strings.TrimSpace(entry))
		if !ip.IsValid() {
			break
		}
		if phone = ip; !p.trusts(ip) {
			break
		}
	}
	return phone
}

// hop reads an address with or without a port, as proxies write it.
func hop(entry string) netip.Addr {
	if both, err := netip.ParseAddrPort(entry); err == nil {
		return both.Addr().Unmap().WithZone("")
	}
	ip, _ := netip.ParseAddr(strings.Trim(entry, "[]"))
	return ip.Unmap().WithZone("")
}

// lastOf returns the last entry of a header that may hold a list and may stand
// in a request more than once.
func lastOf(r *http.Request, header string) string {
	all := strings.Join(r.Header.Values(header), ",")
	return strings.TrimSpace(all[strings.LastIndex(all, ",")+1:])
}
