package server

import (
	"net/http"

	"github.com/gorilla/mux"

	"kerfside/calc/problem"
)

// routes is the map of the site.
func (s *Server) routes(r *mux.Router) {
	r.Handle("/api/status", s.anyone(s.status)).Methods("GET")
	r.Handle("/api/calc", s.anyone(s.listCalculators)).Methods("GET")
	r.Handle("/api/calc/{name}", s.anyone(s.calculate)).Methods("POST")

	// Crews: anyone, member and owner say who may ask.
	r.Handle("/api/enrol", s.anyone(s.enrol)).Methods("POST")
	r.Handle("/api/devices", s.member(s.listDevices)).Methods("GET")
	r.Handle("/api/devices/{id}", s.member(s.changeDevice)).Methods("PATCH")
	r.Handle("/api/devices/{id}", s.member(s.revokeDevice)).Methods("DELETE")
	r.Handle("/api/invites", s.owner(s.invite)).Methods("POST")
	r.Handle("/api/invites/{id}", s.owner(s.withdrawInvite)).Methods("DELETE")
	r.Handle("/api/journal/sync", s.member(s.syncJournal)).Methods("POST")
	r.Handle("/api/journal/news", s.waiter(s.journalNews)).Methods("GET")
	r.Handle("/api/entries/{id}", s.owner(s.eraseEntry)).Methods("DELETE")
	r.Handle("/api/photos/{sha256}", s.member(s.getPhoto)).Methods("GET", "HEAD")
	r.Handle("/api/photos/{sha256}", s.member(s.putPhoto)).Methods("PUT")

	// The app: one shell for all its screens, files named by content.
	for _, screen := range screens {
		r.Handle(screen, s.handle(s.shell)).Methods("GET", "HEAD")
	}
	r.Handle("/sw.js", s.handle(s.serviceWorker)).Methods("GET", "HEAD")
	r.Handle("/manifest.webmanifest", s.handle(s.manifest)).Methods("GET", "HEAD")
	r.PathPrefix("/a/").Handler(s.handle(s.asset)).Methods("GET", "HEAD")
	r.PathPrefix("/w/").Handler(s.handle(s.asset)).Methods("GET", "HEAD")

	r.NotFoundHandler = s.handle(nothingHere)
	r.MethodNotAllowedHandler = s.handle(func(w http.ResponseWriter, r *http.Request) error {
		return problem.Newf(problem.NotFound, "", "this address does not take %s", r.Method).
			WithHint("The calculators take POST with a JSON object; pages take GET.")
	})
}

// screens are the addresses of the app's screens; pwa/app.js knows the same.
var screens = []string{
	"/", "/ready", "/gate", "/plan", "/pace", "/cut", "/fix", "/book",
	"/sums", "/sum/{name}", "/guides", "/guide/{id}", "/worst-day",
	"/session/{id}", "/photo-gauge", "/rig-card", "/rigs", "/rig/{id}", "/site/{id}", "/settings", "/join", "/devices", "/glove-test", "/search",
}

func nothingHere(http.ResponseWriter, *http.Request) error {
	return problem.New(problem.NotFound, "", "there is nothing at this address", "Start again at the first page.")
}
