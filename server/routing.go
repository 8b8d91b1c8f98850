package server

import "net/http"

// routingCookie names a phone's crew to a proxy that spreads crews over several
// servers. A proxy like nginx reads it as $cookie_kerfside_crew, so it has no dash in
// its name, and an id of a crew has nothing that a map of nginx takes for more than
// letters. It says where a request is to go and opens nothing: who asks is known from
// the token alone.
//
// A server gives it to phones that it knows, never because an address or a link says
// so: whoever spread such a link could send a crew's phones astray.
const routingCookie = "kerfside_crew"

// setRouting gives a phone the cookie. Plain HTTP has no proxy before it (see
// behindProxy), and there the servers of one machine would share it.
func setRouting(w http.ResponseWriter, r *http.Request, crew string) {
	if !isHTTPS(r) {
		return
	}
	http.SetCookie(w, &http.Cookie{
		Name: routingCookie, Value: crew, Path: "/", MaxAge: int(cookieLife.Seconds()),
		Secure: true, HttpOnly: true, SameSite: http.SameSiteStrictMode,
	})
}

// keepRouting gives the cookie to a phone of a crew that shows none, or another.
func keepRouting(w http.ResponseWriter, r *http.Request, crew string) {
	if c, err := r.Cookie(routingCookie); err != nil || c.Value != crew {
		setRouting(w, r, crew)
	}
}
