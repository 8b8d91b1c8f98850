package server

import (
	"fmt"
	"net/http"
	"strings"

	"kerfside/server/store"
)

// Invented is what a demo says on every screen.
const Invented = "Invented data. Nothing here is real."

// A demo takes whoever opens it into its crew. A browser that shows no token is sent to
// the screen where phones join; that asks whether the server knows this phone, and is
// known from then on. One that shows any token is left as it is: it may be that of a
// crew that is real, on another server under this name.

// joinModule is the page of the screen where phones join.
const joinModule = "pages/join.js"

// pageOfVisitor is screenPage for a demo.
func (s *Server) pageOfVisitor(module string) func(http.ResponseWriter, *http.Request) error {
	show := s.screenPage(module)
	if module == joinModule {
		return show
	}
	return func(w http.ResponseWriter, r *http.Request) error {
		// A service worker, which asks for no page, has to get the app's own.
		if tokenOf(r) != "" || !strings.Contains(r.Header.Get("Accept"), "text/html") {
			return show(w, r)
		}
		w.Header().Set("Cache-Control", "no-store")
		http.Redirect(w, r, JoinPath, http.StatusSeeOther)
		return nil
	}
}

// letVisitorIn takes the app into the crew that asks without a token.
func (s *Server) letVisitorIn(w http.ResponseWriter, r *http.Request) error {
	if tokenOf(r) != "" || r.Header.Get(ownHeader) != "1" {
		return nil
	}
	if err := s.limits.enrol.take(address(r)); err != nil {
		return err
	}
	return s.letIn(w, r)
}

// letIn makes whoever asks a phone of the first crew, as an owner, who sees all there is.
func (s *Server) letIn(w http.ResponseWriter, r *http.Request) error {
	crew, now := s.store.Crew(), s.now().UnixMilli()
	phones, err := s.store.Devices(r.Context(), crew)
	if err != nil {
		return err
	}
	v, err := s.store.Invite(crew, store.Owner, "", now)
	if err != nil {
		return err
	}
	_, token, err := s.store.Enrol(store.Enrolment{Secret: v.Secret, Name: fmt.Sprintf("Visitor %d", len(phones)+1), Now: now})
	if err != nil {
		return err
	}
	setToken(w, r, token)
	setRouting(w, r, crew)
	r.AddCookie(&http.Cookie{Name: cookieName(r), Value: token}) // for what answers next
	return nil
}
