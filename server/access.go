package server

import (
	"errors"
	"net"
	"net/http"
	"net/netip"
	"strings"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// Who a request comes from is known from its cookie alone, and with it its crew:
// nothing in an address or a body can name another.

// ownHeader has to stand in every request that changes something. A page of
// another origin cannot set it without asking first, which is never granted.
const ownHeader = "X-Kerfside"

// anyone is handle for what needs no token; the limit is by address.
func (s *Server) anyone(f func(http.ResponseWriter, *http.Request) error) http.Handler {
	return s.handle(func(w http.ResponseWriter, r *http.Request) error {
		from := address(r)
		if err := s.limits.address.take(from); err != nil {
			return err
		}
		leave, err := s.limits.heldByAddress.enter(from)
		if err != nil {
			return err
		}
		defer leave()
		return f(w, r)
	})
}

// asked is a handler of what a phone of a crew asks; who is that phone.
type asked func(w http.ResponseWriter, r *http.Request, who store.Device) error

// member is handle for what a phone of a crew may ask.
func (s *Server) member(f asked) http.Handler {
	return s.counted(f, func(r *http.Request, phone string) (*http.Request, func(), error) {
		leave, err := s.limits.held.enter(phone)
		return r, leave, err
	})
}

// waiter is member for what is answered when there is something to tell.
func (s *Server) waiter(f asked) http.Handler {
	return s.counted(f, func(r *http.Request, phone string) (*http.Request, func(), error) {
		ctx, leave, err := s.limits.waiting.enter(r.Context(), phone)
		return r.WithContext(ctx), leave, err
	})
}

// counted is member for requests that are counted in a place of their own: enter
// returns the request to answer, and what to call at its end.
func (s *Server) counted(f asked, enter func(r *http.Request, phone string) (*http.Request, func(), error)) http.Handler {
	return s.handle(func(w http.ResponseWriter, r *http.Request) error {
		if err := checkHeader(r); err != nil {
			return err
		}
		who, err := s.who(r)
		if err != nil {
			if slow := s.limits.address.take(address(r)); slow != nil {
				return slow
			}
			if errors.Is(err, store.ErrAway) {
				keepRouting(w, r, who.Crew) // and the proxy sends its next request where its crew is
				s.photos.forget(who.Crew)
			}
			return err
		}
		phone := who.Crew + " " + who.ID
		if err := s.limits.device.take(phone); err != nil {
			return err
		}
		r, leave, err := enter(r, phone)
		if err != nil {
			return err
		}
		defer leave()
		s.noteSeen(w, r, who)
		return f(w, r, who)
	})
}

// owner is member for what only an owner may ask.
func (s *Server) owner(f asked) http.Handler {
	return s.member(func(w http.ResponseWriter, r *http.Request, who store.Device) error {
		if who.Role != store.Owner {
			return errNotOwner
		}
		return f(w, r, who)
	})
}

var errNotOwner = problem.New(problem.Forbidden, "", "only an owner of the crew may do that", "Ask the crew's owner.")

// checkHeader refuses a change without our header.
func checkHeader(r *http.Request) error {
	if r.Method == http.MethodGet || r.Method == http.MethodHead || r.Header.Get(ownHeader) == "1" {
		return nil
	}
	return problem.New(problem.Forbidden, "", "the request did not come from the app", "Changes carry the header "+ownHeader+": 1. Load the app again.")
}

// who returns the phone that a request comes from.
func (s *Server) who(r *http.Request) (store.Device, error) {
	token := tokenOf(r)
	if token == "" {
		return store.Device{}, store.ErrNoToken
	}
	return s.store.DeviceOf(r.Context(), token)
}

// flushEvery is how often "last seen" is written.
const flushEvery = time.Minute

// noteSeen notes that a phone was there, and once a day gives its cookies anew,
// so that those in use never run out.
func (s *Server) noteSeen(w http.ResponseWriter, r *http.Request, who store.Device) {
	now := s.now()
	due := s.store.See(who, now.UnixMilli())
	if now.UnixMilli()-who.Seen > 24*3600*1000 {
		setToken(w, r, tokenOf(r))
		setRouting(w, r, who.Crew)
	} else {
		keepRouting(w, r, who.Crew)
	}
	last := s.flushed.Load()
	past := time.Duration(now.UnixMilli()-last) * time.Millisecond
	if (due || past.Abs() > flushEvery) && s.flushed.CompareAndSwap(last, now.UnixMilli()) {
		s.joins.tell(now, s.log)
		if err := s.store.Flush(); err != nil {
			s.log.Error("last seen could not be written", "err", err)
		}
	}
}

// cookieName is the token's cookie. Over https its prefix makes browsers refuse
// it from any other name or path. Plain http has no such cookie, and browsers
// share cookies between the ports of a machine, so there its name has the port.
func cookieName(r *http.Request) string {
	if isHTTPS(r) {
		return "__Host-kerfside"
	}
	_, port, err := net.SplitHostPort(r.Host)
	if err != nil {
		port = "80"
	}
	return "kerfside-" + port
}

func tokenOf(r *http.Request) string {
	c, err := r.Cookie(cookieName(r))
	if err != nil {
		return ""
	}
	return c.Value
}

// cookieLife is the longest that browsers keep a cookie.
const cookieLife = 400 * 24 * time.Hour

func setToken(w http.ResponseWriter, r *http.Request, token string) {
	http.SetCookie(w, &http.Cookie{
		Name: cookieName(r), Value: token, Path: "/", MaxAge: int(cookieLife.Seconds()),
		Secure: isHTTPS(r), HttpOnly: true, SameSite: http.SameSiteStrictMode,
	})
}

// address is where a request comes from, for limits. Whoever has one IPv6
// address has all of its /64.
func address(r *http.Request) string {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return r.RemoteAddr
	}
	ip, err := netip.ParseAddr(host)
	if err != nil {
		return host
	}
	if ip = ip.Unmap().WithZone(""); ip.Is4() {
		return ip.String()
	}
	return netip.PrefixFrom(ip, 64).Masked().String()
}

// origin is the scheme, name and port by which the app was called.
func origin(r *http.Request) string {
	if isHTTPS(r) {
		return "https://" + strings.ToLower(r.Host)
	}
	return "http://" + strings.ToLower(r.Host)
}
